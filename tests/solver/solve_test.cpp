// The driver: what it refuses, what accuracy it reaches from a cold start, where it stops.
#include "core_scenes.hpp"

#include "solver/solution.hpp"
#include "solver/solve.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <stdexcept>

using namespace solver;

namespace
{

Problem problem_of(const mesh::Scene& scene, double accuracy, double core = 80.0)
{
  Problem problem;
  problem.scene = scene;
  problem.materials = {{"core", {.permeability = core}}, {"dust", {.permeability = 6.0}}};
  problem.accuracy = accuracy;
  return problem;
}

double upper(const Bracket& b)
{
  return b.lower[0] + b.gap(0, 0);
}

} // namespace

TEST_CASE("nothing to solve and unknown materials are refused by name", "[solve]")
{
  Problem nothing;
  nothing.scene.parts = {scenes::rod(6, 20)};
  nothing.materials = {{"core", {.permeability = 80.0}}};
  CHECK_THROWS_AS(solve(nothing), std::invalid_argument);
  CHECK_THROWS_WITH(solve(nothing), "nothing to solve: no winding and no background field");
  Problem unknown = problem_of(scenes::all()[0].scene, 1e-3);
  unknown.scene.parts[0].material = "mystery";
  CHECK_THROWS_AS(solve(unknown), std::invalid_argument);
  CHECK_THROWS_WITH(solve(unknown), Catch::Contains("mystery"));
  CHECK_THROWS_AS(solve(Problem{}), std::invalid_argument);
}

TEST_CASE("every scene reaches its accuracy from a cold start, and brackets overlap",
          "[solve][long]")
{
  for (const scenes::Named& one : scenes::all())
  {
    CAPTURE(one.name);
    const Solution rough = solve(problem_of(one.scene, 1e-2)),
                   fine = solve(problem_of(one.scene, 1e-4));
    for (const Solution* s : {&rough, &fine})
    {
      CHECK(s->accuracy_reached);
      CHECK(s->limit.empty());
      CHECK(s->accuracy_met <= s->problem.accuracy);
      CHECK(s->unknowns > 0);
      for (Eigen::Index j = 0; j < s->bracket.lower.size(); ++j)
        CHECK(0.5 * s->bracket.gap(j, j) <=
              s->accuracy_met * (s->bracket.lower[j] + 0.5 * s->bracket.gap(j, j)) * 1.0000001);
    }
    for (Eigen::Index j = 0; j < rough.bracket.lower.size(); ++j)
    {
      // Widened by what misplaced curves can make.
      const double slack =
          (rough.geometry_error + fine.geometry_error) * std::abs(fine.bracket.lower[j]);
      CHECK(rough.bracket.lower[j] <= fine.bracket.lower[j] + fine.bracket.gap(j, j) + slack);
      CHECK(fine.bracket.lower[j] <= rough.bracket.lower[j] + rough.bracket.gap(j, j) + slack);
    }
  }
}

TEST_CASE("inductance grows with the permeability of the core", "[solve]")
{
  double before = 0.0;
  for (const double mu : {0.5, 1.0, 2.0, 30.0, 1000.0, 1e5})
  {
    const Solution s = solve(problem_of(scenes::all()[0].scene, 1e-3, mu));
    CAPTURE(mu);
    CHECK(s.accuracy_reached);
    CHECK(upper(s.bracket) > before);
    before = s.bracket.lower[0];
  }
}

TEST_CASE("what is solved from another solution is ordered once a mesh, and is the same to the bit",
          "[solve]")
{
  const mesh::Scene scene = scenes::all()[0].scene;
  const Solution start = solve(problem_of(scene, 1e-3, 80.0));
  Solution bare = start;
  bare.factors = nullptr;
  bare.unit = nullptr;
  REQUIRE(start.factors);
  const int before = start.factors->flux.orderings();
  const Problem other = problem_of(scene, 1e-3, 81.0);
  const Solution from = solve_from(other, start), again = solve_from(other, bare);
  REQUIRE(from.refinements == 0); // so that it is the same mesh
  CHECK(from.factors->flux.orderings() == before);
  CHECK(again.factors->flux.orderings() == 1);
  CHECK(from.flux == again.flux);
  CHECK(from.potential == again.potential);
  CHECK(from.bracket.gap == again.bracket.gap);
  // Finer meshes are ordered anew, on what the coarser one left.
  const Solution finer = solve_from(problem_of(scene, 1e-6, 8.0), from),
                 fresh = solve_from(problem_of(scene, 1e-6, 8.0), bare);
  REQUIRE(finer.refinements > 0);
  CHECK(finer.flux == fresh.flux);
  CHECK(finer.bracket.gap == fresh.bracket.gap);
}

TEST_CASE("brackets hold down to 1e-11, where they are still wider than round-off", "[solve][long]")
{
  double low = 0.0, high = 1.0;
  for (const double accuracy : {1e-5, 1e-8, 1e-11})
  {
    const Bracket b = solve(problem_of(scenes::all()[0].scene, accuracy)).bracket;
    CAPTURE(accuracy, b.lower[0], b.gap(0, 0));
    CHECK(b.gap(0, 0) <= 2.0 * accuracy * upper(b));
    CHECK(b.lower[0] <= high);
    CHECK(upper(b) >= low);
    // Upper bound by the field's own energy: the two sums agree far better than the gap is wide.
    CHECK(std::abs(b.field_energy(0, 0) - upper(b)) < 0.01 * b.gap(0, 0));
    low = std::max(low, b.lower[0]);
    high = std::min(high, upper(b));
  }
}

TEST_CASE("an accuracy beyond round-off ends at a floor that is told", "[solve][slow]")
{
  const Solution s = solve(problem_of(scenes::all()[0].scene, 1e-16));
  CAPTURE(s.accuracy_met, s.refinements, s.unknowns);
  CHECK_FALSE(s.accuracy_reached);
  CHECK_THAT(s.limit, Catch::Contains("round-off"));
  CHECK(s.accuracy_met < 1e-12); // what was reached is worth having
  CHECK(s.accuracy_met > 1e-16);
  CHECK(s.bracket.lower[0] > 0.0);
}

TEST_CASE("a background field that meets no body is solved at once", "[solve]")
{
  Problem problem = problem_of({{scenes::rod(6, 20)}, {}}, 1e-6, 1.0);
  problem.background = 1.0;
  const Solution s = solve(problem);
  CHECK(s.accuracy_reached);
  CHECK(s.refinements == 0);
  CHECK(s.bracket.lower[0] == 0.0);
}
