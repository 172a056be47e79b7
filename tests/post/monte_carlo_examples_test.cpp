// Drawing against the worked examples of [JCGM 101:2008, 9].
//
// The standard's printed values are from memory; each is derived again in closed form or by a
// deterministic quadrature. Tolerances are four standard errors of the run, from the exact density
// or from the standard deviation; seeds are fixed, so that a test passes always or never.
#include "post/monte_carlo.hpp"

#include "drawing_lots.hpp"

#include <algorithm>
#include <boost/math/distributions/non_central_chi_squared.hpp>
#include <boost/math/quadrature/gauss.hpp>
#include <catch2/catch.hpp>

namespace
{

using namespace post_tests;
using boost::math::quadrature::gauss;
using post::Spread;
using post::UncertainInput;

/// Where a growing function reaches a level, between two bounds.
template <class Function>
double level(const Function& function, double wanted, double low, double high)
{
  for (int i = 0; i < 60; ++i)
  {
    const double middle = 0.5 * (low + high);
    (function(middle) < wanted ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

double mean_of(const post::MonteCarlo& result)
{
  REQUIRE(result.mean);
  return *result.mean;
}

double uncertainty_of(const post::MonteCarlo& result)
{
  REQUIRE(result.standard_uncertainty);
  return *result.standard_uncertainty;
}

} // namespace

TEST_CASE("four normals added have the interval of a normal", "[uncertainty]")
{
  // [JCGM 101:2008, 9.2.2]: u = 2.0, interval +-3.92; density at the ends 0.0292.
  const std::vector<UncertainInput> inputs(4, {"x", 0.0, Spread::normal, 1.0});
  const auto result = drawn(inputs, sum);
  CHECK(mean_of(result) == Approx(0.0).margin(4 * 2.0 / 1000.0));
  CHECK(uncertainty_of(result) == Approx(2.0).margin(4 * 2.0 / std::sqrt(2e6)));
  const double error = std::sqrt(0.025 * 0.975 / 1e6) / 0.0292;
  CHECK(result.symmetric.lower == Approx(-3.92).margin(4 * error));
  CHECK(result.symmetric.upper == Approx(3.92).margin(4 * error));
  CHECK(result.symmetric_error.lower == Approx(error).epsilon(0.2));
  CHECK(result.symmetric_error.upper == Approx(error).epsilon(0.2));
}

TEST_CASE("four rectangles added have a narrower interval than a normal", "[uncertainty]")
{
  // [JCGM 101:2008, 9.2.3]: +-3.88. The tail of four is t^4 / 24, t in half-widths from the end:
  // t = 0.6^(1/4), so that the end is (2 - t) 2 sqrt 3 = 3.879; density there t^3 / 6 / (2 sqrt 3).
  const double t = std::pow(0.6, 0.25);
  const double end = (2.0 - t) * 2.0 * std::sqrt(3.0);
  CHECK(end == Approx(3.88).margin(0.005));
  const std::vector<UncertainInput> inputs(4, {"x", 0.0, Spread::uniform, std::sqrt(3.0)});
  const auto result = drawn(inputs, sum);
  const double density = t * t * t / 6.0 / (2.0 * std::sqrt(3.0));
  const double error = std::sqrt(0.025 * 0.975 / 1e6) / density;
  CHECK(result.symmetric.lower == Approx(-end).margin(4 * error));
  CHECK(result.symmetric.upper == Approx(end).margin(4 * error));
}

TEST_CASE("one wide rectangle among narrow ones gives nearly its own interval", "[uncertainty]")
{
  // [JCGM 101:2008, 9.2.4]: +-17.0, against +-19.9 of the first order. Exactly: the wide one's
  // distribution averaged over the narrow three's density, that of three rectangles.
  const double a = std::sqrt(3.0), wide = 10.0 * a;
  const auto three = [a](double s)
  {
    const double t = std::abs(s) / (2.0 * a);
    return (t < 0.5 ? 0.75 - t * t : t < 1.5 ? 0.5 * (1.5 - t) * (1.5 - t) : 0.0) / (2.0 * a);
  };
  const auto distribution = [&](double y)
  {
    const auto integrand = [&](double s)
    { return three(s) * std::clamp((y - s + wide) / (2.0 * wide), 0.0, 1.0); };
    double p = 0.0;
    for (int panel = -300; panel < 300; ++panel) // kinks lie within panels: error below 1e-6
    {
      p += gauss<double, 7>::integrate(integrand, panel * a / 100.0, (panel + 1) * a / 100.0);
    }
    return p;
  };
  const double end = level(distribution, 0.975, 0.0, 20.0);
  CHECK(end == Approx(17.0).margin(0.05));
  std::vector<UncertainInput> inputs(4, {"x", 0.0, Spread::uniform, a});
  inputs[3].width = wide;
  const auto result = drawn(inputs, sum);
  const double density = (distribution(end + 0.1) - distribution(end - 0.1)) / 0.2;
  const double error = std::sqrt(0.025 * 0.975 / 1e6) / density;
  CHECK(result.symmetric.upper == Approx(end).margin(4 * error));
  CHECK(result.symmetric.lower == Approx(-end).margin(4 * error));
  const auto compared = post::agreement(*post::first_order(inputs, sum), result);
  CHECK(compared.tolerance == 5.0); // u = 1 x 10^1
  CHECK(compared.agree);
  CHECK_FALSE(post::agreement(*post::first_order(inputs, sum), result, 2).agree); // 0.5
}

namespace
{

/// [JCGM 101:2008, 9.3]: masses in mg, densities in kg/m^3.
const std::vector<UncertainInput> weighing = {{"reference", 100000.0, Spread::normal, 0.050},
                                              {"added", 1.234, Spread::normal, 0.020},
                                              {"air", 1.20, Spread::uniform, 0.10},
                                              {"weight", 8000.0, Spread::uniform, 1000.0},
                                              {"reference density", 8000.0, Spread::uniform, 50.0}};

double mass_beyond_nominal(std::span<const double> x)
{
  return (x[0] + x[1]) * (1.0 + (x[2] - 1.2) * (1.0 / x[3] - 1.0 / x[4])) - 100000.0;
}

/// P(output <= y): normal for given densities, averaged over these by Gauss points.
double weighing_distribution(double y)
{
  const double u = std::hypot(0.050, 0.020);
  const auto given = [&](double air, double weight, double reference)
  {
    const double factor = 1.0 + (air - 1.2) * (1.0 / weight - 1.0 / reference);
    return normal_distribution((y + 100000.0 - 100001.234 * factor) / (u * factor));
  };
  return gauss<double, 30>::integrate(
             [&](double air)
             {
               return gauss<double, 30>::integrate(
                          [&](double weight)
                          {
                            return gauss<double, 7>::integrate(
                                       [&](double reference)
                                       { return given(air, weight, reference); },
                                       7950.0, 8050.0) /
                                   100.0;
                          },
                          7000.0, 9000.0) /
                      2000.0;
             },
             1.1, 1.3) /
         0.2;
}

} // namespace

TEST_CASE("a calibrated mass has the Monte Carlo uncertainty the first order misses",
          "[uncertainty]")
{
  // First order: sensitivities to the densities vanish or nearly so; u = sqrt(0.05^2 + 0.02^2).
  const auto first_order = post::first_order(weighing, mass_beyond_nominal);
  REQUIRE(first_order);
  CHECK(first_order->standard_uncertainty == Approx(0.0539).margin(0.00005));
  // Exact moments: E[air'^2] = 0.1^2 / 3, and those of 1/density over an even density.
  const auto mean_inverse = [](double low, double high)
  { return std::log(high / low) / (high - low); };
  const double difference = 1.0 / (7000.0 * 9000.0) + 1.0 / (7950.0 * 8050.0) -
                            2.0 * mean_inverse(7000.0, 9000.0) * mean_inverse(7950.0, 8050.0);
  const double u = std::sqrt(0.0029 + 1e10 * 0.01 / 3.0 * difference);
  CHECK(u == Approx(0.0754).margin(0.0001)); // printed; 0.0029 = 0.05^2 + 0.02^2
  const double low = level(weighing_distribution, 0.025, 0.8, 1.2);
  const double high = level(weighing_distribution, 0.975, 1.2, 1.7);
  // Printed: 1.084 and 1.385, which were drawn too; the upper one is 0.0014 off the quadrature.
  CHECK(low == Approx(1.0844).margin(0.0001));
  CHECK(high == Approx(1.3836).margin(0.0001));

  const auto result = drawn(weighing, mass_beyond_nominal);
  CHECK(mean_of(result) == Approx(1.234).margin(4 * u / 1000.0));
  CHECK(uncertainty_of(result) == Approx(u).margin(4 * u / 1000.0));
  const auto error = [](double end)
  {
    const double density =
        (weighing_distribution(end + 1e-4) - weighing_distribution(end - 1e-4)) / 2e-4;
    return std::sqrt(0.025 * 0.975 / 1e6) / density;
  };
  CHECK(result.symmetric.lower == Approx(low).margin(4 * error(low)));
  CHECK(result.symmetric.upper == Approx(high).margin(4 * error(high)));
  const auto compared = post::agreement(*first_order, result, 2);
  CHECK(compared.tolerance == Approx(0.0005).epsilon(1e-12));
  CHECK_FALSE(compared.agree);
}

TEST_CASE("two squares added have the mean and interval of a chi-square", "[uncertainty]")
{
  // [JCGM 101:2008, 9.4], no correlation: y = x1^2 + x2^2, u = 0.005. y / u^2 is a non-central
  // chi-square with 2 degrees: mean u^2 (2 + l), deviation u^2 sqrt(4 + 4 l), l = (x1 / u)^2.
  const auto squares = [](std::span<const double> x) { return x[0] * x[0] + x[1] * x[1]; };
  struct Case
  {
    double x1, mean, deviation; // printed, in 1e-6
  };
  for (const Case& printed : {Case{0.0, 50.0, 50.0}, {0.010, 150.0, 112.0}, {0.050, 2550.0, 502.0}})
  {
    CAPTURE(printed.x1);
    const double l = printed.x1 * printed.x1 / 25e-6;
    CHECK(25.0 * (2.0 + l) == Approx(printed.mean).margin(0.5));
    CHECK(25.0 * std::sqrt(4.0 + 4.0 * l) == Approx(printed.deviation).margin(0.5));
    const std::vector<UncertainInput> inputs = {{"x1", printed.x1, Spread::normal, 0.005},
                                                {"x2", 0.0, Spread::normal, 0.005}};
    const auto result = drawn(inputs, squares);
    CHECK(1e6 * mean_of(result) == Approx(25.0 * (2.0 + l)).margin(4e-3 * printed.deviation));
    CHECK(1e6 * uncertainty_of(result) ==
          Approx(25.0 * std::sqrt(4.0 + 4.0 * l)).epsilon(4 * 2e-3));
    if (l > 0.0)
    {
      const boost::math::non_central_chi_squared_distribution<double> exact(2.0, l);
      for (const auto& [p, end] :
           {std::pair(0.025, result.symmetric.lower), std::pair(0.975, result.symmetric.upper)})
      {
        const double quantile = boost::math::quantile(exact, p);
        const double error = std::sqrt(0.025 * 0.975 / 1e6) / boost::math::pdf(exact, quantile);
        CHECK(end / 25e-6 == Approx(quantile).margin(4 * error));
      }
    }
  }
}

TEST_CASE("the shortest interval of a falling density begins at its start", "[uncertainty]")
{
  // [JCGM 101:2008, 9.4.2.2]: at x1 = 0, exponential with mean 2 u^2: [0, 150], in closed form
  // [0, -2 u^2 ln 0.05]; the symmetric one runs from -2 u^2 ln 0.975 to -2 u^2 ln 0.025.
  const std::vector<UncertainInput> inputs(2, {"x", 0.0, Spread::normal, 0.005});
  const auto result =
      drawn(inputs, [](std::span<const double> x) { return x[0] * x[0] + x[1] * x[1]; });
  const auto error = [](double p) // of the exponential's quantile, times 1e6
  { return 50.0 * std::sqrt((1.0 - p) / p / 1e6); };
  CHECK(1e6 * result.shortest.lower == Approx(0.0).margin(0.1));
  CHECK(1e6 * result.shortest.upper == Approx(-50.0 * std::log(0.05)).margin(4 * error(0.05)));
  CHECK(-50.0 * std::log(0.05) == Approx(150.0).margin(0.5));
  CHECK(1e6 * result.symmetric.lower == Approx(-50.0 * std::log(0.975)).margin(4 * error(0.975)));
  CHECK(1e6 * result.symmetric.upper == Approx(-50.0 * std::log(0.025)).margin(4 * error(0.025)));
  CHECK(1e6 * result.median == Approx(50.0 * std::numbers::ln2).margin(4 * error(0.5)));
}
