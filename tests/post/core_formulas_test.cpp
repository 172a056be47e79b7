// Closed and gapped cores: IEC 60205's constants and fringing against values computed apart.
#include "post/closed_forms.hpp"
#include "post/formula_scenes.hpp"

#include <cmath>
#include <numbers>

using namespace formula_tests;

TEST_CASE("a toroid's core constants equal those computed apart", "[formulas]")
{
  // OD 25, ID 15, h 10 mm.
  const post::CoreConstants core = post::toroid_constants(25 * mm, 15 * mm, 10 * mm);
  CHECK(core.C1 == Approx(1230.00590).epsilon(4e-9)); // nine digits
  CHECK(core.length == Approx(60.180226 * mm).epsilon(1e-8));
  CHECK(core.area == Approx(48.926778 * mm * mm).epsilon(1e-8));
  CHECK(core.volume == Approx(core.length * core.area).epsilon(1e-14));
  // le = pi ln(D/d) / (1/d - 1/D), as the standard also writes it.
  CHECK(core.length ==
        Approx(std::numbers::pi * std::log(25.0 / 15) / (1 / 15.0 - 1 / 25.0) * mm).epsilon(1e-12));
  CHECK(post::core_inductance(core, 2300, 1) == ten_digits(2349.79787 * nH));
  CHECK(post::toroid_inductance(25 * mm, 15 * mm, 10 * mm, 2300, 7) ==
        Approx(49 * 2349.79787 * nH).epsilon(1e-9));
}

TEST_CASE("pieces of a core add to its constants", "[formulas]")
{
  const post::CorePiece pieces[] = {{40 * mm, 100 * mm * mm}, {20 * mm, 50 * mm * mm}};
  const post::CoreConstants core = post::core_constants(pieces);
  CHECK(core.C1 == Approx(800.0)); // 0.4 + 0.4 per mm
  CHECK(core.C2 == Approx(12e6));  // 0.004 + 0.008 per mm^3
  CHECK(core.length == Approx(800.0 * 800 / 12e6));
  CHECK(core.area == Approx(800 / 12e6));
  // One piece is its own core; a toroid of many thin rings in parallel nears one of its mean path.
  const post::CorePiece one[] = {{30 * mm, 70 * mm * mm}};
  CHECK(post::core_constants(one).length == Approx(30 * mm));
  const post::CorePiece corner = post::corner_piece(4 * mm, 6 * mm, 80 * mm * mm, 60 * mm * mm);
  CHECK(corner.length == Approx(10 * std::numbers::pi / 8 * mm));
  CHECK(corner.area == Approx(70 * mm * mm));
}

TEST_CASE("gaps and their fringing equal the values computed apart", "[formulas]")
{
  CHECK(post::gapped_permeability(2000, 60 * mm, 1 * mm) == Approx(58.2524).margin(0.00005));
  CHECK(post::gapped_permeability(2000, 60 * mm, 0) == 2000);
  CHECK(post::gapped_permeability(1e12, 60, 1, 1.5) == Approx(90)); // F le / g
  // lg = 1, A = 100 mm2, G = 20 mm.
  CHECK(post::mclyman_fringing(1 * mm, 100 * mm * mm, 20 * mm) == Approx(1.368888).margin(5e-7));
  CHECK(post::grown_pole_fringing(1, 10) == Approx(1.21));
  // By hand: 1 + (4 * 0.1 / pi)(1 + ln(5 pi)).
  CHECK(post::corner_fringing(1, 10, 10) == Approx(1.478006).margin(5e-7));
  for (const double gap : {0.01, 0.1, 0.5})
  {
    CAPTURE(gap); // fields spread: every factor is above 1 and grows with the gap
    CHECK(post::corner_fringing(gap, 10, 20) > 1.0);
    CHECK(post::corner_fringing(2 * gap, 10, 20) > post::corner_fringing(gap, 10, 20));
    CHECK(post::mclyman_fringing(2 * gap, 78, 20) > post::mclyman_fringing(gap, 78, 20));
  }
}

namespace
{
solver::Problem two_rods(double gap, double second_diameter, double shift)
{
  solver::Problem problem = block_coil(8.8 * mm, 8.8 * mm, 76 * mm, 100);
  add_part(problem, "upper", mesh::Rod{8 * mm, 40 * mm}, 500.0);
  add_part(problem, "lower", mesh::Rod{second_diameter, 40 * mm}, 500.0);
  problem.scene.parts[0].centre = 20 * mm + gap / 2 + shift;
  problem.scene.parts[1].centre = -20 * mm - gap / 2 + shift;
  return problem;
}
} // namespace

TEST_CASE("two rods in one coil are offered the formulas of a gap", "[formulas]")
{
  const auto list = post::formulas(two_rods(0.4 * mm, 8 * mm, 0));
  const auto bare = named(list, "gapped rod, no fringing");
  CHECK(bare.holds);
  // Written out apart: mu_e of 80.4 mm, demagnetised as one rod.
  const double whole = 80.4 / (80 / 500.0 + 0.4);
  const double factor = post::cylinder_factors(80.4 / 8, whole).magnetometric;
  const double gain = whole / (1 + factor * (whole - 1)) - 1;
  CHECK(bare.value ==
        Approx(value(two_rods(0.4 * mm, 8 * mm, 0), "air coil, sheet, exact") +
               post::sheet_inductance({.diameter = 8 * mm, .length = 76 * mm, .turns = 100}, gain))
            .epsilon(1e-9));
  for (const char* name :
       {"gapped rod, corner fringing", "gapped rod, fringing by winding", "gapped rod, grown pole"})
  {
    CHECK(named(list, name).value > bare.value);
    CHECK(named(list, name).holds);
  }
  const auto why = [](const solver::Problem& problem)
  { return named(post::formulas(problem), "gapped rod, no fringing").why; };
  CHECK(why(two_rods(2 * mm, 8 * mm, 0)) == "for a gap below D/5");
  CHECK(why(two_rods(0.4 * mm, 8 * mm, 10 * mm)) == "for a coil over both rods");
  CHECK_FALSE(lists(two_rods(0.4 * mm, 7 * mm, 0), "gapped rod, no fringing"));
  CHECK_FALSE(lists(two_rods(0, 8 * mm, 0), "gapped rod, no fringing"));
  solver::Problem third = two_rods(0.4 * mm, 8 * mm, 0);
  add_part(third, "sleeve", mesh::Tube{10 * mm, 12 * mm, 80 * mm}, 500.0);
  CHECK_FALSE(lists(third, "gapped rod, no fringing"));
}
