// First-order propagation against worked examples of [JCGM 100:2008] and [JCGM 101:2008].
//
// Their printed values are from memory; each one asserted was derived again, in closed form, and
// the derivation stands beside it. Tolerances: half a unit of the last printed digit, else
// round-off.
#include "post/uncertainty.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

namespace
{

using post::Spread;
using post::UncertainInput;

double sum(std::span<const double> x)
{
  double total = 0.0;
  for (const double one : x)
  {
    total += one;
  }
  return total;
}

/// [JCGM 100:2008, H.1]: lengths in nm, temperatures in degC; the standard's own uncertainties.
const std::vector<UncertainInput> end_gauge = {
    {"standard", 50000623.0, Spread::normal, 25.0, 18.0},
    {"difference", 215.0, Spread::normal, 9.7, 25.6},
    {"expansion", 11.5e-6, Spread::uniform, 2e-6},
    {"temperature", -0.1, Spread::normal, 0.41},
    {"difference of expansion", 0.0, Spread::normal, 0.58e-6, 50.0},
    {"difference of temperature", 0.0, Spread::normal, 0.029, 2.0}};

double end_gauge_length(std::span<const double> x)
{
  return x[0] + x[1] - x[0] * (x[4] * x[3] + x[2] * x[5]);
}

} // namespace

TEST_CASE("coverage factors are those of the normal and of Student's t", "[uncertainty]")
{
  // t with 1 and 2 degrees of freedom in closed form: tan(pi p / 2), p sqrt(2 / (1 - p^2)).
  CHECK(post::coverage_factor(0.95, 1.0) ==
        Approx(std::tan(0.475 * std::numbers::pi)).epsilon(1e-12));
  CHECK(post::coverage_factor(0.95, 2.0) ==
        Approx(0.95 * std::sqrt(2.0 / (1.0 - 0.95 * 0.95))).epsilon(1e-12));
  // [JCGM 100:2008, table G.2], from memory, 2 decimals.
  CHECK(post::coverage_factor(0.95, 10.0) == Approx(2.23).margin(0.005));
  CHECK(post::coverage_factor(0.99, 16.0) == Approx(2.92).margin(0.005));
  // The normal's by its own integral.
  CHECK(std::erf(post::coverage_factor(0.95) / std::numbers::sqrt2) == Approx(0.95).epsilon(1e-14));
}

TEST_CASE("a half-width becomes a standard uncertainty by its distribution's second moment",
          "[uncertainty]")
{
  // Integrals of x^2 over the density: a^2/3, a^2/6, a^2/2.
  CHECK(post::standard_uncertainty({"a", 5.0, Spread::uniform, 3.0}) ==
        Approx(std::sqrt(3.0)).epsilon(1e-15));
  CHECK(post::standard_uncertainty({"a", 5.0, Spread::triangular, 3.0}) ==
        Approx(std::sqrt(1.5)).epsilon(1e-15));
  CHECK(post::standard_uncertainty({"a", 5.0, Spread::arcsine, 3.0}) ==
        Approx(std::sqrt(4.5)).epsilon(1e-15));
  CHECK(post::standard_uncertainty({"a", 5.0, Spread::normal, 3.0}) == 3.0);
}

TEST_CASE("four equal inputs added have twice the uncertainty of one", "[uncertainty]")
{
  // [JCGM 101:2008, 9.2.2]: u = 2.0, interval +-3.92.
  const std::vector<UncertainInput> inputs(4, {"x", 0.0, Spread::normal, 1.0});
  const auto result = post::first_order(inputs, sum);
  REQUIRE(result);
  CHECK(result->standard_uncertainty == Approx(2.0).epsilon(1e-12));
  CHECK(result->interval.lower == Approx(-3.92).margin(0.005));
  CHECK(result->interval.upper == -result->interval.lower);
  for (const post::Contribution& row : result->budget)
  {
    CHECK(row.share == Approx(0.25).epsilon(1e-12));
    CHECK(row.sensitivity == Approx(1.0).epsilon(1e-12));
  }
}

TEST_CASE("one wide rectangle among narrow ones is taken for a normal by the first order",
          "[uncertainty]")
{
  // [JCGM 101:2008, 9.2.4]: u = sqrt(103) = 10.1, interval +-19.9.
  std::vector<UncertainInput> inputs(4, {"x", 0.0, Spread::uniform, std::sqrt(3.0)});
  inputs[3].width *= 10.0;
  const auto result = post::first_order(inputs, sum);
  REQUIRE(result);
  CHECK(result->standard_uncertainty == Approx(std::sqrt(103.0)).epsilon(1e-12));
  CHECK(result->interval.upper == Approx(19.9).margin(0.05));
  CHECK(result->budget[3].share == Approx(100.0 / 103.0).epsilon(1e-12));
}

TEST_CASE("the end gauge has the budget of the standard's first example", "[uncertainty]")
{
  const auto result = post::first_order(end_gauge, end_gauge_length, 0.99);
  REQUIRE(result);
  CHECK(result->value == 50000838.0);
  // Contributions 25, 9.7, 0, 0, 2.9 and 16.6 nm: their squares add up to 1002 nm^2, u = 32 nm.
  const double printed[] = {25.0, 9.7, 0.0, 0.0, 2.9, 16.6};
  for (std::size_t i = 0; i < end_gauge.size(); ++i)
  {
    CAPTURE(end_gauge[i].name);
    // Half a unit of the last digit, and what 0.029 degC was rounded by.
    CHECK(result->budget[i].contribution == Approx(printed[i]).margin(0.08));
  }
  CHECK(result->standard_uncertainty == Approx(31.7).margin(0.05));
  // 31.7^4 / (25^4/18 + 9.7^4/25.6 + 2.9^4/50 + 16.6^4/2) = 16.8; printed 16.7, taken as 16.
  CHECK(result->degrees_of_freedom == Approx(16.75).margin(0.1));
  CHECK(result->coverage_factor == Approx(2.92).margin(0.005));
  const double expanded = result->interval.upper - result->value;
  CHECK(expanded == Approx(93.0).margin(0.6)); // printed from the rounded 32 nm
}

TEST_CASE("the difference of the end gauges has the degrees of freedom of its three parts",
          "[uncertainty]")
{
  // [JCGM 100:2008, H.1.3.2, H.1.6]: 5.8 (24), 3.9 (5) and 6.7 nm (8) make 9.7 nm with 25.6.
  const std::vector<UncertainInput> parts = {{"readings", 215.0, Spread::normal, 5.8, 24.0},
                                             {"random", 0.0, Spread::normal, 3.9, 5.0},
                                             {"systematic", 0.0, Spread::normal, 6.7, 8.0}};
  const auto result = post::first_order(parts, sum);
  REQUIRE(result);
  CHECK(result->standard_uncertainty == Approx(9.7).margin(0.05));
  const double u4 = std::pow(5.8 * 5.8 + 3.9 * 3.9 + 6.7 * 6.7, 2);
  const double nu =
      u4 / (std::pow(5.8, 4) / 24.0 + std::pow(3.9, 4) / 5.0 + std::pow(6.7, 4) / 8.0);
  CHECK(result->degrees_of_freedom == Approx(nu).epsilon(1e-9));
  CHECK(nu == Approx(25.6).margin(0.2)); // the standard's from the rounded 9.7
}

TEST_CASE("whole degrees of freedom lose none to round-off", "[uncertainty]")
{
  // Two equal contributions with 5 degrees each have 10.
  const std::vector<UncertainInput> inputs = {{"a", 0.0, Spread::normal, 0.1, 5.0},
                                              {"b", 0.0, Spread::normal, 0.1, 5.0}};
  const auto result = post::first_order(inputs, sum);
  REQUIRE(result);
  CHECK(result->coverage_factor == Approx(post::coverage_factor(0.95, 10.0)).epsilon(1e-12));
  // A share of 0.3 has 10/(0.49 + 0.09) = 17.24 degrees: 17 count.
  const std::vector<UncertainInput> uneven = {{"a", 0.0, Spread::normal, std::sqrt(0.7), 10.0},
                                              {"b", 0.0, Spread::normal, std::sqrt(0.3), 10.0}};
  const auto lower = post::first_order(uneven, sum);
  REQUIRE(lower);
  CHECK(lower->coverage_factor == Approx(post::coverage_factor(0.95, 17.0)).epsilon(1e-12));
}

TEST_CASE("given sensitivities give the same as differences of a linear model", "[uncertainty]")
{
  const std::vector<UncertainInput> inputs = {{"a", 2.0, Spread::triangular, 0.3},
                                              {"b", -1.0, Spread::arcsine, 0.2}};
  const double c[] = {3.0, -4.0};
  const auto given = post::first_order(inputs, 10.0, c);
  const auto differences =
      post::first_order(inputs, [](std::span<const double> x) { return 3.0 * x[0] - 4.0 * x[1]; });
  REQUIRE(differences);
  CHECK(given.value == 10.0);
  CHECK(given.standard_uncertainty == Approx(differences->standard_uncertainty).epsilon(1e-12));
  CHECK(given.budget[1].sensitivity == -4.0);
  CHECK(given.budget[1].contribution == Approx(4.0 * 0.2 / std::numbers::sqrt2).epsilon(1e-14));
}

TEST_CASE("differences give a curved model's slope within a hundredth of u squared",
          "[uncertainty]")
{
  // (f(x+h) - f(x-h)) / 2h of exp is exp(x) sinh(h) / h, here h = u / 10 = 0.02.
  const std::vector<UncertainInput> inputs = {{"x", 1.0, Spread::normal, 0.2}};
  const auto result =
      post::first_order(inputs, [](std::span<const double> x) { return std::exp(x[0]); });
  REQUIRE(result);
  CHECK(result->budget[0].sensitivity ==
        Approx(std::exp(1.0) * std::sinh(0.02) / 0.02).epsilon(1e-12));
}

TEST_CASE("an exact input has no part in the uncertainty", "[uncertainty]")
{
  const std::vector<UncertainInput> exact = {{"x", 3.0, Spread::uniform, 0.0}};
  const auto result = post::first_order(exact, sum);
  REQUIRE(result);
  CHECK(result->standard_uncertainty == 0.0);
  CHECK(result->interval.lower == 3.0);
  CHECK(result->interval.upper == 3.0);
  CHECK(result->budget[0].share == 0.0);
  CHECK(post::first_order({}, sum)->interval.upper == 0.0);
}

TEST_CASE("where the model ends on one side, the slope is taken from the other", "[uncertainty]")
{
  const std::vector<UncertainInput> inputs = {{"x", 1.0, Spread::normal, 0.1}};
  const auto open_above = [](std::span<const double> x)
  { return x[0] > 1.0 ? post::endless : 2.0 * x[0]; };
  const auto open_below = [](std::span<const double> x)
  { return x[0] < 1.0 ? -post::endless : 3.0 * x[0]; };
  CHECK(post::first_order(inputs, open_above)->budget[0].sensitivity == Approx(2.0).epsilon(1e-12));
  CHECK(post::first_order(inputs, open_below)->budget[0].sensitivity == Approx(3.0).epsilon(1e-12));
}

TEST_CASE("where the model has no finite value about the estimate, there is no first order",
          "[uncertainty]")
{
  const std::vector<UncertainInput> inputs = {{"x", 1.0, Spread::normal, 0.1}};
  CHECK_FALSE(post::first_order(inputs, [](std::span<const double>) { return post::endless; }));
  CHECK_FALSE(post::first_order(inputs, [](std::span<const double> x)
                                { return x[0] == 1.0 ? 5.0 : post::endless; }));
}

TEST_CASE("inputs that cannot be are refused by name", "[uncertainty]")
{
  CHECK_THROWS_WITH(
      post::standard_uncertainty({"gap", 1.0, Spread::uniform, -0.1}),
      "gap: an estimate is finite, and its width finite and not negative, got 1 +- -0.1");
  CHECK_THROWS_WITH(
      post::standard_uncertainty({"gap", post::endless, Spread::uniform, 0.1}),
      "gap: an estimate is finite, and its width finite and not negative, got inf +- 0.1");
  CHECK_THROWS_WITH(post::standard_uncertainty({"gap", 1.0, Spread::normal, 0.1, 0.5}),
                    "gap: degrees of freedom are at least 1, got 0.5");
}

TEST_CASE("a model without a number, sensitivities too few and coverages beyond 1 are refused",
          "[uncertainty]")
{
  const std::vector<UncertainInput> inputs = {{"x", 1.5, Spread::normal, 0.1}};
  CHECK_THROWS_WITH(post::first_order(inputs, [](std::span<const double>) { return std::nan(""); }),
                    "the model gives no number for the inputs 1.5");
  CHECK_THROWS_WITH(post::first_order(inputs, 1.0, std::span<const double>()),
                    "1 inputs have 0 sensitivities");
  CHECK_THROWS_WITH(post::first_order(inputs, sum, 1.0),
                    "a coverage lies between 0 and 1, e.g. 0.95");
  CHECK_THROWS_WITH(post::coverage_factor(0.95, 0.9), "degrees of freedom are at least 1");
}
