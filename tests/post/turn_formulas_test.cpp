// Rings, circles and coated turns: closed forms and claims against values computed apart.
#include "post/closed_forms.hpp"

#include "post/formula_scenes.hpp"
#include "reference/loops.hpp"
#include "reference/thick_coils.hpp"

#include <numbers>

using namespace formula_tests;

TEST_CASE("circles and rings equal the values computed apart", "[formulas]")
{
  CHECK(post::coaxial_circles(0.25, 0.20, 0.10) == ten_digits(248.7873590 * nH));
  CHECK(post::coaxial_circles(0.25, 0.25, 0.01) == ten_digits(1036.664849 * nH));
  CHECK(post::ring_uniform(10 * mm, 0.5 * mm) == Approx(41.8066057 * nH).epsilon(2e-9));
  CHECK(post::ring_kirchhoff(10 * mm, 0.5 * mm) == Approx(41.7853665 * nH).epsilon(2e-9));
  CHECK(post::ring_uniform(10 * mm, 1 * mm) == Approx(33.1490909 * nH).epsilon(2e-9));
  CHECK(post::ring_kirchhoff(10 * mm, 1 * mm) == Approx(33.0750222 * nH).epsilon(2e-9));
  // Rosa & Grover 1912 print 654.40496 pi cm for a = 25 cm, r = 0.05 cm (from memory).
  CHECK(post::ring_kirchhoff(0.25, 0.0005) ==
        Approx(654.40496 * std::numbers::pi * nH).epsilon(8e-9));
}

TEST_CASE("a coating adds mu0 (mu-1) ln(b/a) / 2 pi per metre", "[formulas]")
{
  CHECK(post::coating_inductance(10, 0.5, 1.5) == Approx(1977.50212 * nH).epsilon(3e-9));
  CHECK(post::coating_inductance(100, 0.5, 1.5) == Approx(21752.5233 * nH).epsilon(3e-9));
  CHECK(post::coating_inductance(5, 0.5, 1.5) == Approx(878.890 * nH).epsilon(6e-7));
}

TEST_CASE("ring formulas are as good as they claim for both current laws", "[formulas]")
{
  for (const double r : {0.05, 0.1, 0.2})
  {
    for (const bool fine : {true, false})
    {
      CAPTURE(r, fine);
      const mesh::RoundTurns turns{.wire_diameter = 2 * r,
                                   .inner_diameter = 2 - 2 * r,
                                   .strand = fine ? mesh::Strand::fine : mesh::Strand::solid};
      const double truth =
          reference::round_ring(1, r, fine ? reference::Spread::even : reference::Spread::inverse);
      CHECK(check_claims(round_coil(turns, 1), post::Estimates::air_inductance, truth) >= 1);
    }
  }
}

TEST_CASE("circles stand for distant sections as well as they claim", "[formulas]")
{
  int checked = 0;
  for (const double z : {0.1, 0.3, 1.0})
  {
    for (const double b : {0.5, 0.3})
    {
      for (const double s : {0.02, 0.1, 0.2})
      {
        CAPTURE(z, b, s);
        solver::Problem pair = block_coil(1 - s, 1 + s, s, 7);
        pair.scene.windings.push_back({"other", 3, mesh::Block{2 * b - s, 2 * b + s, s}, z});
        const double truth =
            reference::thick_mutual({0.5 - s / 2, 0.5 + s / 2, -s / 2, s / 2, 7},
                                    {b - s / 2, b + s / 2, z - s / 2, z + s / 2, 3});
        checked += check_claims(pair, post::Estimates::mutual_inductance, truth);
      }
    }
  }
  CHECK(checked >= 10);
}

TEST_CASE("coated turns add their coating's flux to the bare coil", "[formulas]")
{
  mesh::RoundTurns turns{
      .wire_diameter = 1 * mm, .inner_diameter = 100 * mm, .insulation = 0.1 * mm};
  turns.coating = mesh::Coating{"dust", 0.9 * mm};
  solver::Problem ring = round_coil(turns, 1);
  ring.materials["dust"] = {.permeability = 10.0};
  const double a = 50 * mm + 0.5 * mm + 0.1 * mm + 0.9 * mm; // middle of the wire
  const auto coated = named(post::formulas(ring), "coated ring");
  CHECK(coated.holds);
  CHECK(coated.value ==
        Approx(post::ring_uniform(a, 0.5 * mm) +
               2 * std::numbers::pi * a * post::coating_inductance(10, 0.6 * mm, 1.5 * mm))
            .epsilon(1e-12));
  turns.coating->thickness = 30 * mm; // as wide as the loop
  ring.scene.windings[0].build = turns;
  CHECK_FALSE(named(post::formulas(ring), "coated ring").holds);
}

TEST_CASE("close coated turns are told apart from distant ones", "[formulas]")
{
  mesh::RoundTurns turns{.wire_diameter = 1 * mm, .inner_diameter = 100 * mm};
  turns.coating = mesh::Coating{"dust", 0.5 * mm};
  for (const bool apart : {false, true})
  {
    turns.pitch = apart ? 8 * mm : 2 * mm;
    solver::Problem coil = round_coil(turns, 5);
    coil.materials["dust"] = {.permeability = 10.0};
    CHECK(named(post::formulas(coil), "coated turns").holds == apart);
  }
}

TEST_CASE("layers about a wire add up, and a bead counts all of its permeability", "[formulas]")
{
  const post::StraightLayer layers[] = {{10, 0.5, 1.5}, {5, 1.5, 4.5}};
  CHECK(post::coating_inductance(layers) ==
        Approx(post::coating_inductance(10, 0.5, 1.5) + 878.890 * nH).epsilon(3e-7));
  // Computed apart: OD 3.5, ID 1.3, h 6 mm, mu 800.
  CHECK(post::bead_inductance({800, 0.65 * mm, 1.75 * mm}, 6 * mm, 1) ==
        ten_digits(950.782756 * nH));
  CHECK(post::bead_inductance({800, 0.65 * mm, 1.75 * mm}, 6 * mm, 3) ==
        Approx(9 * 950.782756 * nH).epsilon(1e-9));
}

TEST_CASE("current on the surface leaves a ring mu0 a / 4 less", "[formulas]")
{
  CHECK(post::ring_skin(10 * mm, 1 * mm) == ten_digits(29.9334295 * nH)); // computed apart
  CHECK(post::ring_kirchhoff(1, 0.1) - post::ring_skin(1, 0.1) == Approx(reference::mu0 / 4));
}

TEST_CASE("circles keep their digits at any distance", "[formulas]")
{
  // Far apart two dipoles: M = mu0 pi a^2 b^2 / 2 z^3 (1 - 3 (a^2 + b^2) / 2 z^2 ...).
  for (const double z : {1e2, 1e3, 1e5})
  {
    CAPTURE(z);
    CHECK(post::coaxial_circles(1, 0.5, z) ==
          Approx(reference::mu0 * std::numbers::pi * 0.25 / (2 * z * z * z) * (1 - 1.875 / (z * z)))
              .epsilon(1e-7));
  }
  for (const double z : {1e-2, 1e-5, 1e-9})
  {
    CAPTURE(z);
    CHECK(post::coaxial_circles(1, 1, z) ==
          Approx(reference::coaxial_circles(1, 1, z)).epsilon(1e-13));
  }
}

TEST_CASE("nine circles are exact to the second order in both sections", "[formulas]")
{
  // Halving the sections leaves a sixteenth of the error.
  double last = 0.0;
  for (const double s : {0.2, 0.1})
  {
    solver::Problem pair = block_coil(1 - s, 1 + s, s, 1);
    pair.scene.windings.push_back({"other", 1, mesh::Block{1 - s, 1 + s, s}, 0.5});
    const reference::Section low{0.5 - s / 2, 0.5 + s / 2, -s / 2, s / 2, 1};
    const reference::Section high{0.5 - s / 2, 0.5 + s / 2, 0.5 - s / 2, 0.5 + s / 2, 1};
    const double error =
        value(pair, "mutual with other, nine circles") / reference::thick_mutual(low, high) - 1;
    CHECK(std::abs(error) < 0.01);
    if (last != 0.0)
    {
      CHECK(last / error == Approx(16).epsilon(0.1));
    }
    last = error;
  }
}
