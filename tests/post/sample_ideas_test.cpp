// Which sample would tell more: the intervals against bisection on full solutions.
#include "post/sample_ideas.hpp"

#include "solver/solution.hpp"
#include "solver/solve.hpp"

#include <catch2/catch.hpp>

#include <cmath>

namespace
{

constexpr double mm = 1e-3, accuracy = 1e-4;

/// A rod of 6 mm, 24 mm long, about which a coil of `coil` mm lies.
solver::Problem rod(double permeability, double coil = 20 * mm, double bore = 8 * mm)
{
  solver::Problem problem;
  problem.materials["core"].permeability = permeability;
  problem.scene.parts = {{"rod", mesh::Rod{6 * mm, 24 * mm}, "core", 0.0, {}}};
  problem.scene.windings = {{"coil", 50.0, mesh::Block{bore, bore + 1 * mm, coil}, 0.0}};
  problem.accuracy = accuracy;
  return problem;
}

post::Interval bracket(double permeability)
{
  const solver::Solution solution = solver::solve(rod(permeability));
  return {solution.bracket.lower[0], solution.bracket.lower[0] + solution.bracket.gap(0, 0)};
}

/// Where the middle of the bracket has that inductance, by bisection on full solutions.
double crossing(double L, double from, double to)
{
  for (int i = 0; i < 22; ++i)
  {
    const double at = std::sqrt(from * to);
    const post::Interval is = bracket(at);
    (0.5 * (is.lower + is.upper) < L ? from : to) = at;
  }
  return std::sqrt(from * to);
}

} // namespace

TEST_CASE("the interval of the sample as it is holds what full solutions give", "[fit][long]")
{
  const double assumed = 8.0, tolerance = 0.01;
  const auto ideas = post::sample_ideas(rod(1.0), "core", 0, assumed, tolerance, 1);
  REQUIRE(ideas.size() == 5);
  const post::SampleIdea& own = ideas.front();
  CHECK(own.what == "this sample");
  CHECK(own.bounded);
  const post::Interval is = bracket(assumed);
  CHECK(own.inductance == Approx(0.5 * (is.lower + is.upper)).epsilon(2 * accuracy));
  // The interval is for certain, so it is wider, by two brackets of 1e-4 over the sensitivity.
  const double low = crossing(own.inductance * (1.0 - tolerance), 4.0, assumed);
  const double high = crossing(own.inductance * (1.0 + tolerance), assumed, 16.0);
  const double sensitivity = std::log((1.0 + tolerance) / (1.0 - tolerance)) / std::log(high / low);
  CAPTURE(low, high, sensitivity);
  const double slack = 4 * accuracy / sensitivity; // two brackets, each of the two solvers
  CHECK(own.interval.lower == Approx(low).epsilon(slack));
  CHECK(own.interval.upper == Approx(high).epsilon(slack));
  CHECK(own.interval.lower < low * (1.0 + 2 * accuracy / sensitivity));
  CHECK(own.interval.upper > high * (1.0 - 2 * accuracy / sensitivity));
}

TEST_CASE("a longer rod tells more, a closed ring passes the tolerance on", "[fit][long]")
{
  const double assumed = 300.0;
  const auto ideas = post::sample_ideas(rod(1.0), "core", 0, assumed, 0.005, 1);
  REQUIRE(ideas.size() == 5);
  CHECK(ideas[1].what == "the part 2 times as long (48 mm)");
  CHECK(ideas[2].what == "the part 4 times as long (96 mm)");
  CHECK(ideas[3].what == "the coil short (2.4 mm) and at the middle");
  CHECK(ideas[4].what == "a closed ring of its section and length");
  CHECK(ideas[1].interval.lower > ideas[0].interval.lower);
  CHECK(ideas[2].interval.lower > ideas[1].interval.lower);
  CHECK(ideas[1].inductance > ideas[0].inductance);
  for (const auto& idea : ideas)
  {
    CAPTURE(idea.what);
    CHECK(idea.interval.lower < assumed);
    CHECK(idea.interval.upper > assumed);
  }
  CHECK(ideas[4].interval.lower == Approx(assumed * 0.995).epsilon(1e-14));
  CHECK(ideas[4].interval.upper == Approx(assumed * 1.005).epsilon(1e-14));
  CHECK_FALSE(ideas[4].bounded);
  // mu0 mu N^2 A / l
  const double pi = std::acos(-1.0);
  CHECK(ideas[4].inductance ==
        Approx(4e-7 * pi * assumed * 2500.0 * pi * 9e-6 / 24e-3).epsilon(1e-9)); // mu0 is 4 pi 1e-7
}

TEST_CASE("an end that no permeability reaches is endless", "[fit][long]")
{
  const auto ideas = post::sample_ideas(rod(1.0), "core", 0, 5000.0, 0.02, 1);
  CHECK(ideas[0].interval.upper == post::endless);
  CHECK(std::isfinite(ideas[0].interval.lower));
}

TEST_CASE("a thing that cannot be built is no idea", "[fit][long]")
{
  // A plug behind the rod: twice as long it would swallow a thin one, run into a thick one.
  const double thickness = GENERATE(6 * mm, 8 * mm);
  solver::Problem problem = rod(1.0, 2 * mm);
  problem.scene.parts.push_back({"plug", mesh::Rod{thickness, 4 * mm}, "air", 16 * mm, {}});
  const auto ideas = post::sample_ideas(problem, "core", 0, 20.0, 0.01, 1);
  // And the coil is short and at the middle already.
  REQUIRE(ideas.size() == 2);
  CHECK(ideas[0].what == "this sample");
  CHECK(ideas[1].what == "a closed ring of its section and length");
  // No rod or tube of the material: no idea at all.
  CHECK(post::sample_ideas(problem, "paste", 0, 20.0, 0.01, 1).empty());
}

TEST_CASE("a coil that another winding keeps from the middle stays where it is", "[fit][long]")
{
  solver::Problem problem = rod(1.0, 6 * mm);
  problem.scene.windings[0].centre = 8 * mm;
  problem.scene.windings.push_back({"pick-up", 10.0, mesh::Block{8 * mm, 9 * mm, 2 * mm}, 0.0});
  const auto ideas = post::sample_ideas(problem, "core", 0, 20.0, 0.01, 1);
  REQUIRE(ideas.size() == 4);
  CHECK(ideas[2].what == "the part 4 times as long (96 mm)");
  CHECK(ideas[3].what == "a closed ring of its section and length");
}

TEST_CASE("a rod with a winding behind it cannot be longer", "[fit][long]")
{
  solver::Problem problem = rod(1.0, 2 * mm);
  problem.scene.windings.push_back({"pick-up", 10.0, mesh::Block{5 * mm, 8 * mm, 2 * mm}, 16 * mm});
  const auto ideas = post::sample_ideas(problem, "core", 0, 20.0, 0.01, 1);
  REQUIRE(ideas.size() == 2);
  CHECK(ideas[1].what == "a closed ring of its section and length");
}

TEST_CASE("an exact reading still leaves what the bracket leaves open", "[fit][long]")
{
  const auto ideas = post::sample_ideas(rod(1.0), "core", 0, 300.0, 0.0, 1);
  for (const std::size_t i : {0u, 1u, 2u, 3u})
  {
    CAPTURE(ideas.at(i).what);
    CHECK(ideas.at(i).interval.lower < 300.0);
    CHECK(ideas.at(i).interval.upper > 300.0);
  }
}
