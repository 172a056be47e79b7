// Fits of samples whose true permeability is known: the intervals keep the promise of 95 %.
//
// Each virtual sample is solved as it truly is, with a diameter, turns and a meter that are off by
// no more than the stated tolerances, and fitted as it is described. If a share of 0.95 is kept,
// fewer than 33 of 40 intervals hold the truth with a chance of 0.0007 (binomial); of 400 fewer
// than 366 or more than 393 with 0.0011 and 0.0002.
#include "post/fit.hpp"

#include "hand_response.hpp"
#include "solver/solution.hpp"
#include "solver/solve.hpp"

#include <catch2/catch.hpp>

#include <random>

namespace
{

using post::Spread;

constexpr double mm = 1e-3;

/// A tube of powder in a coil; only what the tolerances speak of can be chosen.
struct Sample
{
  double diameter = 20 * mm, turns = 80.0, permeability = 6.0;
};

solver::Problem tube(const Sample& sample, double accuracy)
{
  solver::Problem problem;
  problem.materials["powder"].permeability = sample.permeability;
  problem.scene.parts = {{"fill", mesh::Tube{8 * mm, sample.diameter, 40 * mm}, "powder", 0.0, {}}};
  problem.scene.windings = {{"coil", sample.turns, mesh::Block{22 * mm, 23 * mm, 30 * mm}, 0.0}};
  problem.accuracy = accuracy;
  return problem;
}

double inductance(const Sample& sample, double accuracy)
{
  const solver::Solution solution = solver::solve(tube(sample, accuracy));
  return solution.bracket.lower[0] + 0.5 * solution.bracket.gap(0, 0);
}

/// Within these: diameter and reading uniform, turns normal with k = 2.
constexpr double diameter_tolerance = 0.1 * mm, turns_tolerance = 0.5, reading_tolerance = 0.005;

post::FitQuestion described()
{
  post::FitQuestion made;
  made.key = "permeability";
  made.material = post::MaterialUnknown{"powder", [](double u) { return u; }};
  made.nodes = post_tests::logarithmic(1.0, 1e5, 241);
  made.dimensions = {{"diameter", Sample{}.diameter, Spread::uniform, diameter_tolerance},
                     {"turns", Sample{}.turns, Spread::normal, 0.5 * turns_tolerance}};
  made.problem = [](const post::Moved& moved)
  {
    Sample sample;
    if (moved.dimension)
      (*moved.dimension == 0 ? sample.diameter : sample.turns) = moved.value;
    return tube(sample, 1e-4);
  };
  return made;
}

/// How many of so many intervals hold the true permeability.
int covered(int samples)
{
  const post::FitQuestion question = described();
  const auto responses = post::responses(question, false, 1);
  std::mt19937 lots(20); // its numbers are fixed by the standard
  const auto even = [&lots] { return (static_cast<double>(lots()) + 0.5) / 4294967296.0; };
  const auto within = [&even](double half_width) { return half_width * (2.0 * even() - 1.0); };
  const double pi = std::acos(-1.0);
  post::FitOptions options;
  options.draws = 20000;
  int count = 0;
  for (int i = 0; i < samples; ++i)
  {
    Sample truly;
    truly.permeability = 2.0 * std::pow(10.0, even()); // 2 to 20
    truly.diameter += within(diameter_tolerance);
    truly.turns +=
        0.5 * turns_tolerance * std::sqrt(-2.0 * std::log(even())) * std::cos(2.0 * pi * even());
    const double true_L = inductance(truly, 1e-4);
    auto read = post_tests::reading(true_L, reading_tolerance);
    read.inductance.estimate += within(read.inductance.width);
    const auto interval =
        post::fit(question, responses, {&read, 1}, false, options).unknown.interval;
    count += interval.lower <= truly.permeability && truly.permeability <= interval.upper;
  }
  return count;
}

} // namespace

TEST_CASE("the true permeability lies in the interval about as often as promised", "[fit][long]")
{
  const int count = covered(40);
  CAPTURE(count);
  CHECK(count >= 33);
}

TEST_CASE("of many samples neither too few nor too many intervals hold the truth", "[fit][slow]")
{
  const int count = covered(400);
  CAPTURE(count);
  CHECK(count >= 366);
  CHECK(count <= 393);
}

TEST_CASE("a permeability is recovered within bracket over sensitivity", "[fit][long]")
{
  Sample sample;
  sample.permeability = 6.3;
  const post::FitQuestion question = [&]
  {
    post::FitQuestion made = described();
    made.dimensions.clear();
    return made;
  }();
  const auto responses = post::responses(question, false, 1);
  const auto read = post_tests::reading(inductance(sample, 1e-4), 0.0);
  const post::FitResult result = post::fit(question, responses, {&read, 1}, false);
  REQUIRE(result.unknown.value);
  CAPTURE(result.sensitivity, result.bracket);
  CHECK(result.sensitivity > 0.3);
  CHECK(result.bracket <= 1e-4);
  // One bracket of the reading's own solution, one of the response.
  const double slack = (1e-4 + result.bracket) / result.sensitivity;
  CHECK(*result.unknown.value == Approx(6.3).epsilon(slack));
  CHECK(result.unknown.interval.lower < 6.3 * (1.0 + 1e-4 / result.sensitivity));
  CHECK(result.unknown.interval.upper > 6.3 * (1.0 - 1e-4 / result.sensitivity));
  CHECK(result.unknown.interval.upper - result.unknown.interval.lower < 6.3 * 2.0 * slack);
}
