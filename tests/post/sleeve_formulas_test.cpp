// Sleeves: estimates written out apart, and their order.

#include "post/formula_scenes.hpp"
#include "reference/loops.hpp"
#include "reference/magnetic_bodies.hpp"

#include <cmath>
#include <numbers>

using namespace formula_tests;

TEST_CASE("the sleeve's estimates bound a gain that grows with its wall", "[formulas]")
{
  double last = 0.0;
  for (const double wall : {0.1, 0.5, 1.0})
  {
    solver::Problem problem = block_coil(12 * mm, 14 * mm, 50 * mm, 100);
    add_part(problem, "sleeve", mesh::Tube{14 * mm, (14 + 2 * wall) * mm, 60 * mm}, 2000.0);
    const double floor = value(problem, "sleeve, magnetised evenly");
    const double ceiling = value(problem, "sleeve, free way back");
    const double air = value(problem, "air coil, thick, exact");
    CAPTURE(wall, air, floor, ceiling);
    CHECK(air < floor);
    CHECK(floor < ceiling);
    CHECK(floor - air > last);
    last = floor - air;
    CHECK(named(post::formulas(problem), "sleeve, magnetised evenly").holds);
  }
  solver::Problem thick = block_coil(12 * mm, 14 * mm, 50 * mm, 100);
  add_part(thick, "sleeve", mesh::Tube{14 * mm, 22 * mm, 60 * mm}, 2000.0);
  CHECK_FALSE(named(post::formulas(thick), "sleeve, magnetised evenly").holds);
}

TEST_CASE("a sleeve's even magnetisation is set by the coil's ends and its own factor",
          "[formulas]")
{
  // Written out apart for a sleeve as long as the coil: 50 mm, coil of 13 mm, sleeve 14/16 mm.
  solver::Problem problem = block_coil(12 * mm, 14 * mm, 50 * mm, 1);
  add_part(problem, "sleeve", mesh::Tube{14 * mm, 16 * mm, 50 * mm}, 1e9);
  const double area = std::numbers::pi * 6.5 * mm * 6.5 * mm;
  const double ends = 1 / (7.5 * mm) - 1 / (std::sqrt(7.5 * 7.5 + 50.0 * 50.0) * mm);
  const double h = area * ends / (2 * std::numbers::pi * 50 * mm * 50 * mm);
  const double wall = std::numbers::pi * (64 - 49) * mm * mm;
  const double factor = reference::spheroid_factor(50.0 / 16) * (64.0 - 49) / 64;
  CHECK(value(problem, "sleeve, magnetised evenly") - value(problem, "air coil, thick, exact") ==
        Approx(reference::mu0 * wall * 50 * mm * h * h / factor).epsilon(1e-7)); // 1/chi = 1e-9
}
