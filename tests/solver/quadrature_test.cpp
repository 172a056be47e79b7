// The Gauss rules: to which degree they are exact, and by how much they miss beyond it.
#include "solver/quadrature.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <numeric>

using solver::line_rule;
using solver::triangle_rule;

namespace
{

double power_integral(int n, int degree)
{
  const solver::LineRule& rule = line_rule(n);
  double sum = 0.0;
  for (int i = 0; i < n; ++i)
    sum += rule.weights[i] * std::pow(rule.points[i], degree);
  return sum;
}

/// Int of lambda_1^a lambda_2^b over the reference triangle by the rule.
double monomial_integral(const solver::TriangleRule& rule, int a, int b)
{
  double sum = 0.0;
  for (std::size_t i = 0; i < rule.points.size(); ++i)
    sum += rule.weights[i] * std::pow(rule.points[i][1], a) * std::pow(rule.points[i][2], b);
  return sum;
}

/// (n!)^4 / ((2n+1) ((2n)!)^2): what the n-point rule misses of int x^(2n) over [0, 1]
/// [Abramowitz-Stegun 1964, 25.4.30, from memory].
double first_miss(int n)
{
  return std::exp(4.0 * std::lgamma(n + 1.0) - 2.0 * std::lgamma(2.0 * n + 1.0)) / (2.0 * n + 1.0);
}

/// Int of 1/s over the reference triangle, s = 1 at vertex 1, 4 at vertex 2, 0 at vertex 0.
double inverse_integral(const solver::TriangleRule& rule)
{
  double sum = 0.0;
  for (std::size_t i = 0; i < rule.points.size(); ++i)
    sum += rule.weights[i] / (rule.points[i][1] + 4.0 * rule.points[i][2]);
  return sum;
}

} // namespace

TEST_CASE("a line rule of n points is exact to degree 2n - 1 and no further", "[quadrature]")
{
  for (const int n : {1, 2, 3, 5, 8, 13, 24, 64})
  {
    CAPTURE(n);
    // A sum of n products: round-off of a few n units.
    const double round_off = 4e-16 * (n + 4);
    for (int degree = 0; degree < 2 * n; ++degree)
      CHECK(power_integral(n, degree) == Approx(1.0 / (degree + 1)).epsilon(0).margin(round_off));
    if (n > 8)
      continue; // the miss drowns in round-off
    const double miss = 1.0 / (2 * n + 1) - power_integral(n, 2 * n);
    CHECK(miss == Approx(first_miss(n)).epsilon(1e-6).margin(round_off));
    CHECK(miss > 0.0);
  }
}

TEST_CASE("line points lie inside, mirror each other, and have positive weights", "[quadrature]")
{
  for (int n = 1; n <= 40; ++n)
  {
    const solver::LineRule& rule = line_rule(n);
    CAPTURE(n);
    CHECK(std::accumulate(rule.weights.begin(), rule.weights.end(), 0.0) ==
          Approx(1.0).epsilon(1e-14));
    for (int i = 0; i < n; ++i)
    {
      CHECK(rule.weights[i] > 0.0);
      CHECK(rule.points[i] > (i == 0 ? 0.0 : rule.points[i - 1]));
      CHECK(rule.points[i] + rule.points[n - 1 - i] == Approx(1.0).epsilon(1e-14));
      CHECK(rule.weights[i] == Approx(rule.weights[n - 1 - i]).epsilon(1e-12));
    }
  }
}

TEST_CASE("a triangle rule is exact to degree 2n - 2 at each corner and no further", "[quadrature]")
{
  for (int n = 1; n <= 9; ++n)
    for (int corner = 0; corner < 3; ++corner)
    {
      CAPTURE(n, corner);
      const solver::TriangleRule rule = triangle_rule(n, n, corner);
      REQUIRE(rule.points.size() == static_cast<std::size_t>(n * n));
      for (const auto& lambda : rule.points)
      {
        CHECK(lambda[0] + lambda[1] + lambda[2] == Approx(1.0).epsilon(1e-15));
        CHECK(std::min({lambda[0], lambda[1], lambda[2]}) > 0.0);
      }
      for (int a = 0; a <= 2 * n - 2; ++a)
        for (int b = 0; a + b <= 2 * n - 2; ++b)
        {
          // a! b! / (a + b + 2)!, so 1/2 for the weights alone.
          const double exact =
              std::exp(std::lgamma(a + 1.0) + std::lgamma(b + 1.0) - std::lgamma(a + b + 3.0));
          CHECK(monomial_integral(rule, a, b) == Approx(exact).epsilon(2e-13));
        }
      // (1 - lambda_corner)^(2n-1) times the Jacobian is x^(2n) across the corner.
      double sum = 0.0;
      for (std::size_t i = 0; i < rule.points.size(); ++i)
        sum += rule.weights[i] * std::pow(1.0 - rule.points[i][corner], 2 * n - 1);
      CHECK(1.0 / (2 * n + 1) - sum == Approx(first_miss(n)).epsilon(1e-6).margin(4e-15));
    }
}

TEST_CASE("points outward and across may differ in number: exact as the fewer are", "[quadrature]")
{
  for (const auto& [outward, across] : {std::pair{4, 9}, {9, 4}})
  {
    const solver::TriangleRule rule = triangle_rule(outward, across, 1);
    CHECK(rule.points.size() == 36);
    for (int a = 0; a <= 6; ++a)
      for (int b = 0; a + b <= 6; ++b)
      {
        const double exact =
            std::exp(std::lgamma(a + 1.0) + std::lgamma(b + 1.0) - std::lgamma(a + b + 3.0));
        CHECK(monomial_integral(rule, a, b) == Approx(exact).epsilon(2e-13));
      }
  }
  // Functions of the distance from the corner alone need no more than one point across.
  double sum = 0.0;
  const solver::TriangleRule ray = triangle_rule(9, 1, 1);
  for (std::size_t i = 0; i < ray.points.size(); ++i)
    sum += ray.weights[i] * std::pow(1.0 - ray.points[i][1], 16);
  CHECK(sum == Approx(1.0 / 18.0).epsilon(1e-13));
}

TEST_CASE("1/s is integrated spectrally when collapsed at the vertex on the axis", "[quadrature]")
{
  // int dx dy / ((1 - y) + 4 y) = ln 4 / 3. The pole of 1/(1 + 3 y) lies on the ellipse of rho = 3:
  // n points miss 2 Q_n / P_n (5/3) / 3 ~ (2 pi / 3) 3^-(2n+1) [Davis-Rabinowitz 1984, from
  // memory].
  const double exact = std::log(4.0) / 3.0;
  for (int n = 3; n <= 12; ++n)
  {
    CAPTURE(n);
    const double miss = exact - inverse_integral(triangle_rule(n, n, 0));
    const double told = 2.0 * std::numbers::pi / 3.0 * std::pow(3.0, -2 * n - 1);
    // Q_n / P_n has reached its limit to 1/n; 1e-15 is round-off.
    CHECK(miss == Approx(told).epsilon(0.3 / n).margin(1e-15));
  }
  // At another vertex the singularity is met side on, and the error falls only as a power of n.
  for (const int corner : {1, 2})
    CHECK(std::abs(exact - inverse_integral(triangle_rule(12, 12, corner))) > 1e-4);
}
