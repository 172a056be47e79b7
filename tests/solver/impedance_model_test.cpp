// Impedances over complex permeabilities from few solutions: every disc holds the solved value.
#include "solver/harmonic.hpp"
#include "solver/impedance_model.hpp"

#include <catch2/catch.hpp>

#include <random>

using namespace solver;
using Complex = std::complex<double>;

namespace
{

constexpr double mm = 1e-3;

/// A coil and another about a rod in a sleeve, both lossy; the sleeve conducts.
Problem rod_in_sleeve(double accuracy, double frequency)
{
  Problem problem;
  problem.materials["rod"] = {.permeability = 300.0, .imaginary = 30.0};
  problem.materials["sleeve"] = {.permeability = 20.0, .imaginary = 4.0, .conductivity = 1e3};
  problem.scene.parts.push_back({"rod", mesh::Rod{8 * mm, 40 * mm}, "rod"});
  problem.scene.parts.push_back({"sleeve", mesh::Tube{16 * mm, 20 * mm, 30 * mm}, "sleeve"});
  problem.scene.windings.push_back({"coil", 50.0, mesh::Block{9 * mm, 11 * mm, 20 * mm}});
  problem.scene.windings.push_back(
      {"pick-up", 10.0, mesh::Block{12 * mm, 14 * mm, 5 * mm}, 6 * mm});
  problem.frequencies = {frequency};
  problem.accuracy = accuracy;
  return problem;
}

/// mu' from `low` to `high`, mu'' a tenth to the whole of it.
std::vector<std::vector<Complex>> lossy(double low, double high, int count)
{
  std::vector<std::vector<Complex>> list;
  for (int i = 0; i < count; ++i)
  {
    const double mu = low * std::pow(high / low, i / (count - 1.0));
    list.push_back({Complex(mu, -mu * (0.1 + 0.9 * (i % 7) / 6.0))});
  }
  return list;
}

} // namespace

TEST_CASE("impedances over a complex permeability lie in discs that hold the solved ones",
          "[harmonic][model]")
{
  const Problem problem = rod_in_sleeve(1e-3, 1e5);
  const auto points = lossy(2.0, 2000.0, 200);
  const ImpedanceModel model = impedance_model(problem, {"rod"}, points, 1);
  CHECK(model.accuracy_reached);
  CHECK(model.accuracy_met <= 1e-3);
  CHECK(model.span.states.size() <= 16);
  for (const std::size_t i : {std::size_t{3}, std::size_t{77}, std::size_t{123}, std::size_t{198}})
  {
    CAPTURE(points[i][0]);
    Problem one = problem;
    one.materials["rod"].permeability = points[i][0].real();
    one.materials["rod"].imaginary = -points[i][0].imag();
    one.accuracy = 1e-4;
    const Harmonic solved = solve_harmonic(one, 1e5);
    const SpanNumbers told = at(model.span, state(model, points[i]));
    CHECK(told.accuracy_met(1e5) <= 1e-3);
    for (Eigen::Index a = 0; a < 2; ++a)
      for (Eigen::Index b = 0; b < 2; ++b)
      {
        const double disc =
            2.0 * std::numbers::pi * 1e5 * std::sqrt(told.error_energy[a] * told.error_energy[b]);
        CHECK(std::abs(told.impedance(a, b) - solved.impedance(a, b)) <= disc + solved.disc(a, b));
      }
  }
}

TEST_CASE("two complex permeabilities are varied at once, at values never solved",
          "[harmonic][model]")
{
  const Problem problem = rod_in_sleeve(2e-3, 3e4);
  std::mt19937 random(5);
  std::uniform_real_distribution<double> even(0.0, 1.0);
  std::vector<std::vector<Complex>> points;
  for (int i = 0; i < 60; ++i)
  {
    const double rod = std::pow(10.0, 1.0 + 2.0 * even(random)), sleeve = 1.0 + 60.0 * even(random);
    points.push_back({Complex(rod, -rod * even(random)), Complex(sleeve, -sleeve * even(random))});
  }
  const ImpedanceModel model = impedance_model(problem, {"rod", "sleeve"}, points, 1);
  CHECK(model.accuracy_reached);
  for (const std::size_t i : {std::size_t{11}, std::size_t{42}})
  {
    Problem one = problem;
    one.materials["rod"].permeability = points[i][0].real();
    one.materials["rod"].imaginary = -points[i][0].imag();
    one.materials["sleeve"].permeability = points[i][1].real();
    one.materials["sleeve"].imaginary = -points[i][1].imag();
    const Harmonic solved = solve_harmonic(one, 3e4);
    const SpanNumbers told = at(model.span, state(model, points[i]));
    const double disc = 2.0 * std::numbers::pi * 3e4 * told.error_energy[0];
    CHECK(std::abs(told.impedance(0, 0) - solved.impedance(0, 0)) <= disc + solved.disc(0, 0));
  }
  // Far outside of what was asked for the disc is wide, and holds all the same.
  const std::vector<Complex> far{Complex(3e4, -1e4), Complex(500.0, 0.0)};
  Problem one = problem;
  one.materials["rod"].permeability = 3e4;
  one.materials["rod"].imaginary = 1e4;
  one.materials["sleeve"].permeability = 500.0;
  one.materials["sleeve"].imaginary = 0.0;
  const Harmonic solved = solve_harmonic(one, 3e4);
  const SpanNumbers told = at(model.span, state(model, far));
  CHECK(told.accuracy_met(3e4) > 2e-3);
  CHECK(std::abs(told.impedance(0, 0) - solved.impedance(0, 0)) <=
        2.0 * std::numbers::pi * 3e4 * told.error_energy[0] + solved.disc(0, 0));
}

TEST_CASE("threads change no number of a model of impedances", "[harmonic][model]")
{
  const Problem problem = rod_in_sleeve(1e-2, 1e5);
  const auto points = lossy(10.0, 500.0, 20);
  const ImpedanceModel one = impedance_model(problem, {"rod"}, points, 1),
                       two = impedance_model(problem, {"rod"}, points, 2);
  CHECK(at(one.span, state(one, points[9])).impedance ==
        at(two.span, state(two, points[9])).impedance);
  CHECK(one.accuracy_met == two.accuracy_met);
}

TEST_CASE("a model of impedances refuses what it is not made for", "[harmonic][model]")
{
  const auto points = lossy(10.0, 500.0, 3);
  Problem problem = rod_in_sleeve(1e-2, 1e5);
  CHECK_THROWS_AS(impedance_model(problem, {}, points), std::invalid_argument);
  CHECK_THROWS_AS(impedance_model(problem, {"rod"}, {}), std::invalid_argument);
  const ImpedanceModel model = impedance_model(problem, {"rod"}, points);
  CHECK_THROWS_AS(state(model, std::vector<Complex>(2, 1.0)), std::invalid_argument);
  problem.background = 1e-3;
  CHECK_THROWS_AS(impedance_model(problem, {"rod"}, points), std::invalid_argument);
  problem.background.reset();
  problem.frequencies.clear();
  CHECK_THROWS_AS(impedance_model(problem, {"rod"}, points), std::invalid_argument);
}
