// The promise of the bracket on 300 and more random scenes.
#include "mesh/clashes.hpp"
#include "reference/thick_coils.hpp"
#include "solver/random_scenes.hpp"
#include "solver/solution.hpp"
#include "solver/solve.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

namespace
{

struct Ends
{
  double lower = 0.0;
  double upper = 0.0;
};

/// Solves and checks what must hold of every single bracket.
Ends checked_bracket(solver::Problem problem, double accuracy)
{
  problem.accuracy = accuracy;
  const solver::Solution solution = solver::solve(problem);
  const solver::Bracket& b = solution.bracket;
  CAPTURE(accuracy, solution.accuracy_met, solution.limit);
  CHECK(solution.accuracy_reached);
  CHECK(b.gap(0, 0) >= 0.0);
  CHECK(b.lower[0] > 0.0);
  // int mu H^2 is the upper bound by another road; the two agree only if curl H = J exactly.
  // 1e-11: round-off of sums over up to 1e5 unknowns.
  CHECK(std::abs(b.field_energy(0, 0) - b.lower[0] - b.gap(0, 0)) <= 1e-11 * b.lower[0]);
  return {b.lower[0], b.lower[0] + b.gap(0, 0)};
}

/// Curved bodies: both brackets hold the true value but for the stated geometry allowance.
constexpr double geometry_allowance = 1e-11;

bool overlap(Ends a, Ends b)
{
  return a.lower <= b.upper * (1.0 + geometry_allowance) &&
         b.lower <= a.upper * (1.0 + geometry_allowance);
}

/// Two accuracies of the same scene, and the scene with more permeable bodies.
void check_scenes(unsigned first, int wanted, double coarse, double fine)
{
  int checked = 0;
  for (unsigned seed = first; checked < wanted; ++seed)
  {
    solver::Problem problem = random_scenes::problem(seed);
    if (!mesh::clashes(problem.scene).empty())
      continue;
    ++checked;
    CAPTURE(seed);
    const Ends wide = checked_bracket(problem, coarse), narrow = checked_bracket(problem, fine);
    CHECK(overlap(wide, narrow));
    problem.materials["m"].permeability *= 1.7;
    problem.materials["n"].permeability *= 1.3;
    const Ends more = checked_bracket(problem, coarse);
    CHECK(more.upper >= narrow.lower);
  }
}

} // namespace

TEST_CASE("brackets hold on the first hundred random scenes", "[bracket][random]")
{
  check_scenes(0, 100, 3e-3, 5e-4);
}

TEST_CASE("brackets hold on the second hundred random scenes", "[bracket][random]")
{
  check_scenes(1000, 100, 3e-3, 5e-4);
}

TEST_CASE("brackets hold on the third hundred random scenes", "[bracket][random]")
{
  check_scenes(2000, 100, 3e-3, 5e-4);
}

TEST_CASE("brackets of random scenes hold from 1e-4 to 1e-6 too", "[slow][bracket][random]")
{
  check_scenes(5000, 100, 1e-4, 1e-6);
}

TEST_CASE("random block coils in air hold the Bessel integral's value", "[bracket][random]")
{
  int checked = 0;
  for (unsigned seed = 0; checked < 30; ++seed)
  {
    solver::Problem problem = random_scenes::problem(seed);
    const auto* block = std::get_if<mesh::Block>(&problem.scene.windings[0].build);
    // The reference is stated to 1e-9 for sections at most 25 times longer than thick.
    if (!block || block->outer_diameter == block->inner_diameter ||
        block->length > 12.0 * (block->outer_diameter - block->inner_diameter))
      continue;
    ++checked;
    problem.scene.parts.clear();
    const Ends ends = checked_bracket(problem, 1e-6);
    const double truth =
        reference::thick_self({0.5 * block->inner_diameter, 0.5 * block->outer_diameter, 0.0,
                               block->length, problem.scene.windings[0].turns});
    CAPTURE(seed, ends.lower / truth - 1.0, ends.upper / truth - 1.0);
    CHECK(ends.lower <= truth * (1.0 + 2e-9));
    CHECK(ends.upper >= truth * (1.0 - 2e-9));
  }
}

TEST_CASE("rods reach every accuracy from 1e-3 to 1e-6, brackets overlapping", "[bracket][long]")
{
  for (const double permeability : {5.0, 700.0, 1e5})
    for (const double length : {5e-3, 100e-3})
    {
      solver::Problem problem;
      problem.materials["m"] = {.permeability = permeability};
      problem.scene.parts.push_back({"a", mesh::Rod{10e-3, length}, "m"});
      problem.scene.windings.push_back({"coil", 100.0, mesh::Block{12e-3, 13e-3, 0.7 * length}});
      CAPTURE(permeability, length);
      Ends before{0.0, std::numeric_limits<double>::infinity()};
      for (const double accuracy : {1e-3, 1e-4, 1e-5, 1e-6})
      {
        const Ends now = checked_bracket(problem, accuracy);
        CHECK(overlap(before, now));
        before = now;
      }
    }
}
