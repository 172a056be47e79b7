// Monotone cubics: exact at nodes and for straight lines, no overshoot, order of convergence.
#include "solver/interpolation.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>
#include <stdexcept>
#include <vector>

namespace
{

/// Largest error over [0, 1] of a curve through n + 1 even nodes.
template <class Function> double worst(const Function& f, int n)
{
  std::vector<double> x, y;
  for (int i = 0; i <= n; ++i)
  {
    x.push_back(static_cast<double>(i) / n);
    y.push_back(f(x.back()));
  }
  double error = 0.0;
  for (int k = 0; k <= 50 * n; ++k)
  {
    const double at = static_cast<double>(k) / (50.0 * n);
    error = std::max(error, std::abs(solver::monotone_cubic(x, y, at) - f(at)));
  }
  return error;
}

/// As worst(), without the first and the last interval.
template <class Function> double worst_inside(const Function& f, int n)
{
  std::vector<double> x, y;
  for (int i = -2; i <= n + 2; ++i)
  {
    x.push_back(static_cast<double>(i) / n);
    y.push_back(f(x.back()));
  }
  double error = 0.0;
  for (int k = 0; k <= 50 * n; ++k)
  {
    const double at = static_cast<double>(k) / (50.0 * n);
    error = std::max(error, std::abs(solver::monotone_cubic(x, y, at) - f(at)));
  }
  return error;
}

} // namespace

TEST_CASE("a monotone cubic goes through its points and keeps its ends", "[interpolation]")
{
  const std::vector<double> x = {0.1, 0.3, 1.0, 1.1, 4.0}, y = {1.0, 1.5, 1.6, 7.0, 7.0};
  for (std::size_t i = 0; i < x.size(); ++i)
  {
    CHECK(solver::monotone_cubic(x, y, x[i]) == y[i]);
  }
  CHECK(solver::monotone_cubic(x, y, -1.0) == 1.0);
  CHECK(solver::monotone_cubic(x, y, 9.0) == 7.0);
}

TEST_CASE("a straight line stays straight on uneven nodes", "[interpolation]")
{
  const std::vector<double> x = {0.0, 0.2, 0.3, 1.7}, y = {1.0, 0.6, 0.4, -2.4};
  for (double at = 0.0; at <= 1.7; at += 0.05)
  {
    CHECK(solver::monotone_cubic(x, y, at) == Approx(1.0 - 2.0 * at).margin(1e-14));
  }
  const std::vector<double> two = {1.0, 3.0}, ends = {5.0, 9.0};
  CHECK(solver::monotone_cubic(two, ends, 1.5) == Approx(6.0).epsilon(1e-14));
}

TEST_CASE("monotone points give a monotone curve, whatever their steps", "[interpolation]")
{
  std::mt19937 lots(7); // its numbers are fixed by the standard
  const auto step = [&lots]
  { return std::pow(10.0, -4.0 * static_cast<double>(lots()) / 4294967296.0); };
  for (int run = 0; run < 200; ++run)
  {
    const double direction = run % 2 == 0 ? 1.0 : -1.0;
    std::vector<double> x = {0.0}, y = {0.0};
    for (int i = 0; i < 6; ++i)
    {
      x.push_back(x.back() + step());
      y.push_back(y.back() + (lots() % 5 == 0 ? 0.0 : direction * step()));
    }
    double before = y.front();
    for (int k = 1; k <= 600; ++k)
    {
      const double now = solver::monotone_cubic(x, y, x.back() * k / 600.0);
      CHECK(direction * (now - before) >= -1e-12); // round-off of numbers up to 6
      before = now;
    }
  }
}

TEST_CASE("an extremum of the points is one of the curve", "[interpolation]")
{
  const std::vector<double> x = {0.0, 1.0, 2.0, 3.0}, y = {0.0, 1.0, 0.5, 0.9};
  for (double at = 0.0; at <= 3.0; at += 0.01)
  {
    const double value = solver::monotone_cubic(x, y, at);
    CHECK((value >= 0.0 && value <= 1.0));
    CHECK((at < 1.0 || at > 3.0 || value >= 0.5));
  }
}

TEST_CASE("a smooth rising curve is met to third order inside, to second at the ends",
          "[interpolation]")
{
  // Harmonic means differ from the slope by O(h^2), so the cubic by O(h^3); the end slope is a
  // secant, off by O(h) [Fritsch-Butland 1984, from memory; the orders are measured here].
  const auto f = [](double x) { return std::exp(1.5 * x); };
  CHECK(std::log2(worst_inside(f, 40) / worst_inside(f, 80)) == Approx(3.0).margin(0.2));
  CHECK(std::log2(worst(f, 40) / worst(f, 80)) == Approx(2.0).margin(0.2));
}

TEST_CASE("points that make no curve are refused", "[interpolation]")
{
  const std::vector<double> one = {1.0}, two = {1.0, 2.0}, three = {1.0, 2.0, 3.0};
  CHECK_THROWS_AS(solver::monotone_cubic(one, one, 1.0), std::invalid_argument);
  CHECK_THROWS_AS(solver::monotone_cubic(two, three, 1.0), std::invalid_argument);
}
