// Coils in air against closed forms and quadratures that share nothing with the field solver.
#include "outside_check.hpp"

#include "reference/loops.hpp"
#include "reference/thick_coils.hpp"

#include <cmath>
#include <numbers>

using namespace outside;

namespace
{

mesh::Winding block(const std::string& name, const reference::Section& s)
{
  return {name, s.turns, mesh::Block{2 * s.r_inner, 2 * s.r_outer, s.z_high - s.z_low},
          (s.z_low + s.z_high) / 2};
}

} // namespace

TEST_CASE("current sheets hold Lorenz's value in their bracket", "[outside]")
{
  // Lorenz 1879; Nagaoka 1909: exact for a sheet, drawn as a sheet.
  const double accuracy = 1e-5;
  for (const auto& [radius, length] : {std::pair{5.5, 50.0}, {10.0, 20.0}, {10.0, 2.0}})
  {
    CAPTURE(radius, length);
    const auto problem = coils(
        {{"coil", 100, mesh::Block{2 * radius * mm, 2 * radius * mm, length * mm}, 0}}, accuracy);
    const double truth = reference::current_sheet(radius * mm, length * mm, 100);
    check_inside(solved(problem).windings[0].inductance, truth, 1e-12 * truth, accuracy);
  }
}

TEST_CASE("thin coils approach their sheet in proportion to their thickness", "[outside][slow]")
{
  const double sheet = reference::current_sheet(10 * mm, 20 * mm, 10);
  std::vector<double> deficit;
  for (const double c : {1.0, 0.1, 0.01})
  {
    const auto problem =
        coils({{"coil", 10, mesh::Block{(20 - c) * mm, (20 + c) * mm, 20 * mm}, 0}}, 1e-6);
    const post::Bounded L = solved(problem).windings[0].inductance;
    CHECK(L.upper < sheet);
    deficit.push_back((sheet - L.value) / c);
  }
  // Rest of second order in c/l: at most c/l of the first; at 0.01 mm the bracket's 1e-6 of L is
  // one per cent of the deficit.
  CHECK(deficit[1] / deficit[0] == Approx(1.0).epsilon(0.05));
  CHECK(deficit[2] / deficit[1] == Approx(1.0).epsilon(0.015));
}

TEST_CASE("thick coils hold the Bessel integral in their bracket", "[outside]")
{
  // Brooks's coil, a small square, a long coil, a flat disc [Lyle 1914; Conway 2007].
  const double accuracy = 1e-6;
  for (const reference::Section& s :
       {reference::Section{10 * mm, 20 * mm, -5 * mm, 5 * mm, 1},
        reference::Section{10 * mm, 12 * mm, 0, 2 * mm, 1},
        reference::Section{5.5 * mm, 7.5 * mm, -25 * mm, 25 * mm, 100},
        reference::Section{5 * mm, 20 * mm, -1 * mm, 1 * mm, 30}})
  {
    CAPTURE(s.r_inner, s.r_outer);
    const double truth = reference::thick_self(s);
    check_inside(solved(coils({block("coil", s)}, accuracy)).windings[0].inductance, truth,
                 1e-9 * truth, accuracy);
  }
}

TEST_CASE("mutual inductances hold the same integral in their bracket", "[outside]")
{
  // Circles of Maxwell's worked size (25, 20, 10 cm), averaged over the drawn 4 mm sections; a coil
  // nested in another; two in one layer.
  const double accuracy = 1e-5;
  const reference::Section pairs[][2] = {
      {{248 * mm, 252 * mm, -2 * mm, 2 * mm, 1}, {198 * mm, 202 * mm, 98 * mm, 102 * mm, 1}},
      {{10 * mm, 12 * mm, -20 * mm, 20 * mm, 80}, {14 * mm, 18 * mm, -5 * mm, 9 * mm, 40}},
      {{10 * mm, 12 * mm, -20 * mm, 0, 40}, {10 * mm, 12 * mm, 1 * mm, 11 * mm, 20}}};
  for (const auto& [a, b] : pairs)
  {
    CAPTURE(a.r_inner, b.r_inner);
    const post::Result result = solved(coils({block("one", a), block("two", b)}, accuracy));
    const double M = reference::thick_mutual(a, b);
    const double scale = std::sqrt(reference::thick_self(a) * reference::thick_self(b));
    const post::Bounded& field = result.mutual[0][1];
    CAPTURE(M, field.lower, field.upper);
    CHECK(field.lower <= M + 1e-9 * M);
    CHECK(field.upper >= M - 1e-9 * M);
    CHECK((field.upper - field.lower) / 2 <= accuracy * scale); // accurate relative to sqrt(L1 L2)
    CHECK(result.mutual[1][0].value == field.value);
  }
  // Section effects on Maxwell's filament value itself, 248.787 nH: (4 mm / 112 mm)^2 / 24 = 5e-5.
  CHECK(reference::thick_mutual(pairs[0][0], pairs[0][1]) ==
        Approx(reference::coaxial_circles(0.25, 0.20, 0.10)).epsilon(5e-5));
}

TEST_CASE("rings of round wire hold the quadrature of both current laws", "[outside]")
{
  // Rayleigh & Niven's case, and direct current in a solid turn; truth by quadrature to 2e-8.
  const double accuracy = 1e-5;
  for (const double r : {1.0, 2.0})
  {
    for (const bool fine : {true, false})
    {
      CAPTURE(r, fine);
      mesh::RoundTurns turn{.wire_diameter = 2 * r * mm, .inner_diameter = (20 - 2 * r) * mm};
      turn.pitch = 2 * r * mm;
      turn.strand = fine ? mesh::Strand::fine : mesh::Strand::solid;
      const post::Result result = solved(coils({{"ring", 1, turn, 0}}, accuracy));
      const double truth = reference::round_ring(
          10 * mm, r * mm, fine ? reference::Spread::even : reference::Spread::inverse);
      check_inside(result.windings[0].inductance, truth, 3e-8 * truth, accuracy);
    }
  }
}

TEST_CASE("two coils of workshop problem 22 hold their energy in the bracket", "[outside]")
{
  // TEAM workshop problem 22 (geometry from memory), as an air-core check: 22.5 A/mm2 in opposite
  // senses; the truth by Bessel integrals is 179.866512 MJ.
  const double J = 22.5e6;
  const reference::Section inner{2 - 0.135, 2 + 0.135, -0.8, 0.8, 1};
  const reference::Section outer{3.08 - 0.197, 3.08 + 0.197, -0.239, 0.239, 1};
  const double I1 = J * 0.27 * 1.6;
  const double I2 = -J * 0.394 * 0.478;
  const double accuracy = 1e-6;
  const post::Result field =
      solved(coils({block("inner", inner), block("outer", outer)}, accuracy));
  const post::Bounded& L1 = field.windings[0].inductance;
  const post::Bounded& L2 = field.windings[1].inductance;
  const post::Bounded& M = field.mutual[0][1];
  const double lower = 0.5 * L1.lower * I1 * I1 + 0.5 * L2.lower * I2 * I2 + M.upper * I1 * I2;
  const double upper = 0.5 * L1.upper * I1 * I1 + 0.5 * L2.upper * I2 * I2 + M.lower * I1 * I2;
  const double truth = 0.5 * reference::thick_self(inner) * I1 * I1 +
                       0.5 * reference::thick_self(outer) * I2 * I2 +
                       reference::thick_mutual(inner, outer) * I1 * I2;
  CHECK(truth == Approx(179.8665e6).margin(50.0));
  CAPTURE(lower, truth, upper);
  CHECK(lower <= truth * (1 + 1e-9));
  CHECK(upper >= truth * (1 - 1e-9));
  CHECK(upper - lower < 1e-5 * truth); // the opposing terms add their widths
}
