// The propagation of a fit on responses with closed forms: values, ends, budgets, what is
// impossible.
//
// Sources of the expected numbers: the inverse of each closed form, derived beside its test. Ends
// drawn are compared with the closed form of the very same draws, so that nothing is left to
// chance; "to round-off" is 1e-9, as ln u of a reading has some 1e-15 / s.
#include "post/fit.hpp"

#include "hand_response.hpp"

#include <catch2/catch.hpp>

namespace
{

using namespace post_tests;
using post::endless;
using post::Spread;
using post::UncertainInput;

const std::vector<double> nodes = logarithmic(1.0, 1e5, 241);

/// Ends of f over the draws a fit makes of these inputs; the bracket comes last.
post::Interval drawn_ends(std::vector<UncertainInput> inputs, const post::Model& f,
                          double bracket = 0.0)
{
  inputs.push_back({"bracket", 0.0, Spread::uniform, bracket});
  const post::FitOptions usual;
  return post::summary(post::outputs(inputs, f, usual.draws, usual.seed), usual.coverage).symmetric;
}

/// L = 2 uH * u^s
post::Response power(double s)
{
  return response(nodes, [s](double u) { return 2e-6 * std::pow(u, s); });
}

/// L = 500 uH * u / (u + 20)
constexpr double most = 500e-6, half_way = 20.0;
double saturating(double u)
{
  return most * u / (u + half_way);
}
double saturating_inverse(double L)
{
  return half_way * L / (most - L);
}

post::FitResult fitted(const post::Response& one, const post::FitReading& read,
                       const post::FitQuestion& asked = question(), bool loss = false)
{
  return post::fit(asked, {&one, 1}, {&read, 1}, loss);
}

} // namespace

TEST_CASE("a power law is turned round exactly", "[fit]")
{
  // L = 2 uH sqrt(u): u = (L / 2 uH)^2, du / u = 2 dL / L; a central difference of a square is
  // exact.
  const double L = 14.5e-6, u = std::pow(L / 2e-6, 2);
  const auto read = reading(L, 0.01);
  const post::FitResult result = fitted(power(0.5), read);
  REQUIRE(result.unknown.value);
  CHECK(*result.unknown.value == Approx(u).epsilon(1e-9));
  REQUIRE(result.unknown.first);
  CHECK(result.unknown.first->standard_uncertainty ==
        Approx(2.0 * u * 0.01 / std::sqrt(3.0)).epsilon(1e-6)); // differences lose 1e-9 / 1e-3
  const auto ends = drawn_ends({read.inductance},
                               [](std::span<const double> x) { return std::pow(x[0] / 2e-6, 2); });
  CHECK(result.unknown.interval.lower == Approx(ends.lower).epsilon(1e-9));
  CHECK(result.unknown.interval.upper == Approx(ends.upper).epsilon(1e-9));
  // A rising function keeps quantiles: 2.5 % of a uniform reading lie below L (1 - 0.95 * 0.01).
  // Four standard errors of that rank are 4 sqrt(0.025 * 0.975 / 1e5) * 2 * 0.01 = 4e-5.
  CHECK(result.unknown.interval.lower == Approx(u * std::pow(1 - 0.0095, 2)).epsilon(1e-4));
  CHECK(result.unknown.interval.upper == Approx(u * std::pow(1 + 0.0095, 2)).epsilon(1e-4));
  CHECK(result.sensitivity == Approx(0.5).epsilon(1e-9));
  CHECK(result.spread == Approx(0.0).margin(1e-12));
  CHECK_FALSE(result.impossible);
  CHECK_FALSE(result.imaginary);
}

TEST_CASE("the budget of a sharp sample is that of its power law", "[fit]")
{
  // ln u = (ln L - xi * 0.004 - bracket) / s: contributions to u / u of reading, dimension,
  // bracket.
  auto one = power(0.8);
  add_dimension(one, 0.004, 0.0);
  one.half_width.assign(nodes.size(), 2e-4);
  const UncertainInput diameter{"parts.core.diameter", 6e-3, Spread::uniform, 5e-5};
  const post::FitResult result =
      fitted(one, reading(50e-6, 2e-3, Spread::normal), question({diameter}));
  const double u = std::pow(25.0, 1.0 / 0.8);
  const double own[] = {2e-3 / 0.8, 0.004 / std::sqrt(3.0) / 0.8, 2e-4 / std::sqrt(3.0) / 0.8};
  const double sum = own[0] * own[0] + own[1] * own[1] + own[2] * own[2];
  REQUIRE(result.budget.size() == 3);
  const char* names[] = {"reading", "parts.core.diameter", "field solution (bracket)"};
  for (std::size_t i = 0; i < 3; ++i)
  {
    CAPTURE(i);
    CHECK(result.budget[i].input == names[i]);
    // Central differences of a tenth of u: (0.1 * 0.002 / 0.8)^2 / 6, below 1e-7.
    CHECK(result.budget[i].contribution == Approx(u * own[i]).epsilon(1e-6));
    CHECK(result.budget[i].share == Approx(own[i] * own[i] / sum).epsilon(1e-6));
  }
  CHECK(result.bracket == 2e-4);
  REQUIRE(result.unknown.agreement);
}

TEST_CASE("near saturation the upper end is open and the lower one exact", "[fit]")
{
  // Read at u = 5000, with 1 %: L (1 + 0.0095) is beyond what any u gives.
  const double L = saturating(5000.0);
  const auto one = response(nodes, saturating);
  const auto read = reading(L, 0.01);
  const post::FitResult result = fitted(one, read);
  CHECK(result.unknown.interval.upper == endless);
  const double top = saturating(nodes.back());
  const auto ends = drawn_ends({read.inductance}, [top](std::span<const double> x)
                               { return x[0] > top ? endless : saturating_inverse(x[0]); });
  // Between nodes 5 % apart, a cubic through four in ln L is good to some 1e-5 here.
  CHECK(result.unknown.interval.lower == Approx(ends.lower).epsilon(3e-5));
  CHECK(result.unknown.interval.lower ==
        Approx(saturating_inverse(0.9905 * L)).epsilon(2e-3)); // 4 errors of the rank, times 1 / s
  CHECK(result.unknown.drawn.plus_infinite > 0);
  REQUIRE(result.unknown.value);
  CHECK(*result.unknown.value == Approx(5000.0).epsilon(1e-3));
  CHECK(result.sensitivity == Approx(half_way / (5000.0 + half_way)).epsilon(2e-2)); // differences
  // The budget is then of ln L: the reading alone.
  REQUIRE(result.budget.size() == 2);
  CHECK(result.budget[0].share == Approx(1.0).epsilon(1e-12));
  CHECK(result.budget[0].contribution == Approx(0.01 / std::sqrt(3.0)).epsilon(1e-4));
}

TEST_CASE("near the least the lower end is open and the upper one exact", "[fit]")
{
  const double L = saturating(1.001);
  const auto one = response(nodes, saturating);
  const auto read = reading(L, 0.01);
  const post::FitResult result = fitted(one, read);
  CHECK(result.unknown.interval.lower == -endless);
  const auto ends =
      drawn_ends({read.inductance}, [](std::span<const double> x)
                 { return x[0] < saturating(1.0) ? -endless : saturating_inverse(x[0]); });
  CHECK(result.unknown.interval.upper == Approx(ends.upper).epsilon(1e-6));
}

TEST_CASE("a reading beyond what a geometry allows is impossible, with the right limit", "[fit]")
{
  const auto one = response(nodes, saturating);
  const post::FitResult below = fitted(one, reading(0.9 * saturating(1.0), 0.01));
  REQUIRE(below.impossible);
  CHECK(below.impossible->below);
  CHECK(below.impossible->limit == Approx(saturating(1.0)).epsilon(1e-12));
  CHECK(below.impossible->at == 1.0);
  CHECK(below.impossible->reached == 0.9 * saturating(1.0));
  CHECK(below.budget.empty());
  const post::FitResult above = fitted(one, reading(1.1 * most, 0.01));
  REQUIRE(above.impossible);
  CHECK_FALSE(above.impossible->below);
  CHECK(above.impossible->limit == Approx(saturating(1e5)).epsilon(1e-12));
  CHECK(above.impossible->at == Approx(1e5).epsilon(1e-12));
  // Within its tolerance of the most it is not impossible.
  CHECK_FALSE(fitted(one, reading(1.005 * most, 0.01)).impossible);
}

TEST_CASE("a reading is impossible where the whole interval lies beyond", "[fit]")
{
  // 2.4 standard uncertainties above the most: 0.8 % of the draws are possible, less than 2.5 %.
  const auto one = response(nodes, saturating);
  const double top = saturating(nodes.back());
  CHECK(fitted(one, reading(top / (1.0 - 2.4 * 0.01), 0.01, Spread::normal)).impossible);
  const post::FitResult possible =
      fitted(one, reading(top / (1.0 - 1.5 * 0.01), 0.01, Spread::normal));
  CHECK_FALSE(possible.impossible);
  CHECK(std::isfinite(possible.unknown.interval.lower));
  CHECK_FALSE(possible.unknown.value); // the estimate itself is beyond
}

TEST_CASE("of several impossible readings the farthest is told", "[fit]")
{
  const std::vector<post::Response> two = {response(nodes, saturating, "one"),
                                           response(nodes, saturating, "other")};
  std::vector<post::FitReading> reads = {reading(1.1 * most, 0.01), reading(1.5 * most, 0.01)};
  reads[1].winding = 1;
  const post::FitResult result = post::fit(question(), two, reads, false);
  REQUIRE(result.impossible);
  CHECK(result.impossible->reading == 1);
  CHECK(result.impossible->reached == 1.5 * most);
}

TEST_CASE("a falling response is turned round too", "[fit]")
{
  // A gap: L = 100 uH / (1 + g / 0.2 mm), so g = 0.2 mm (100 uH / L - 1).
  const auto gaps = logarithmic(1e-5, 2e-3, 241);
  const auto one = response(gaps, [](double g) { return 100e-6 / (1.0 + g / 2e-4); });
  const auto inverse = [](double L) { return 2e-4 * (100e-6 / L - 1.0); };
  const auto read = reading(60e-6, 0.01);
  const post::FitResult result = fitted(one, read);
  REQUIRE(result.unknown.value);
  CHECK(*result.unknown.value == Approx(inverse(60e-6)).epsilon(1e-6));
  const auto ends =
      drawn_ends({read.inductance}, [&](std::span<const double> x) { return inverse(x[0]); });
  CHECK(result.unknown.interval.lower == Approx(ends.lower).epsilon(1e-6));
  CHECK(result.unknown.interval.upper == Approx(ends.upper).epsilon(1e-6));
  const post::FitResult above = fitted(one, reading(110e-6, 0.01));
  REQUIRE(above.impossible);
  CHECK_FALSE(above.impossible->below);
  CHECK(above.impossible->at == Approx(1e-5));
  const post::FitResult below = fitted(one, reading(5e-6, 0.01));
  REQUIRE(below.impossible);
  CHECK(below.impossible->below);
  CHECK(below.impossible->at == Approx(2e-3));
  // Open where the reading is within its tolerance of the largest inductance: a gap of at most ...
  CHECK(fitted(one, reading(95e-6, 0.01)).unknown.interval.lower == -endless);
}

TEST_CASE("two readings are weighted by how sharply each tells the unknown", "[fit]")
{
  // ln L_k = a + s_k ln u, u_k relative: least squares, x = sum s (ln r - a) / u^2 / sum s^2 / u^2.
  const std::vector<post::Response> two = {power(0.9), power(0.3)};
  std::vector<post::FitReading> reads = {reading(20e-6, 0.01), reading(4.5e-6, 0.004)};
  reads[1].winding = 1;
  const double s[] = {0.9, 0.3}, u[] = {0.01, 0.004}, y[] = {std::log(10.0), std::log(2.25)};
  double above = 0.0, below = 0.0;
  for (int k = 0; k < 2; ++k)
  {
    above += s[k] * y[k] / (u[k] * u[k]);
    below += s[k] * s[k] / (u[k] * u[k]);
  }
  const double x = above / below;
  const post::FitResult result = post::fit(question(), two, reads, false);
  REQUIRE(result.unknown.value);
  CHECK(*result.unknown.value == Approx(std::exp(x)).epsilon(1e-9));
  REQUIRE(result.unknown.first);
  CHECK(result.unknown.first->standard_uncertainty / std::exp(x) ==
        Approx(1.0 / std::sqrt(3.0 * below)).epsilon(1e-4)); // second order: (0.1 u)^2
  CHECK(result.spread ==
        Approx(std::abs(y[0] - s[0] * x - y[1] + s[1] * x)).epsilon(1e-9)); // what is left over
}

TEST_CASE("readings of one winding that contradict each other are told by their distance", "[fit]")
{
  const auto one = power(1.0);
  const std::vector<post::FitReading> reads = {reading(20e-6, 0.01), reading(22e-6, 0.01)};
  const post::FitResult result = post::fit(question(), {&one, 1}, reads, false);
  CHECK(result.spread == Approx(std::log(1.1)).epsilon(1e-9));
  REQUIRE(result.unknown.value);
  CHECK(*result.unknown.value == Approx(std::sqrt(10.0 * 11.0)).epsilon(1e-9));
}

TEST_CASE("dimensions move the answer by their linear and quadratic parts", "[fit]")
{
  auto one = power(0.8);
  add_dimension(one, 0.03, -0.01);
  add_dimension(one, -0.02, 0.0);
  const std::vector<UncertainInput> dimensions = {{"a", 10e-3, Spread::uniform, 0.1e-3},
                                                  {"b", 50.0, Spread::normal, 0.5}};
  const auto read = reading(40e-6, 0.005);
  const post::FitResult result = fitted(one, read, question(dimensions));
  const auto exact = [](std::span<const double> x)
  {
    // A normal dimension's step is twice its u: xi = (x - 50) / 1.
    const double a = (x[1] - 10e-3) / 0.1e-3, b = (x[2] - 50.0) / 1.0;
    return std::pow(x[0] / 2e-6 * std::exp(-0.03 * a + 0.01 * a * a + 0.02 * b), 1.0 / 0.8);
  };
  const auto ends = drawn_ends({read.inductance, dimensions[0], dimensions[1]}, exact);
  CHECK(result.unknown.interval.lower == Approx(ends.lower).epsilon(1e-9));
  CHECK(result.unknown.interval.upper == Approx(ends.upper).epsilon(1e-9));
  CHECK(*result.unknown.value == Approx(std::pow(20.0, 1.25)).epsilon(1e-9));
}

TEST_CASE("a lead is taken off, a bare coil is put in the place of its own computed value", "[fit]")
{
  auto one = power(1.0);
  auto read = reading(20.4e-6, 0.01);
  read.lead = UncertainInput{"lead", 0.4e-6, Spread::uniform, 0.1e-6};
  const post::FitResult led = fitted(one, read);
  CHECK(*led.unknown.value == Approx(10.0).epsilon(1e-9));
  const auto ends = drawn_ends({read.inductance, *read.lead},
                               [](std::span<const double> x) { return (x[0] - x[1]) / 2e-6; });
  CHECK(led.unknown.interval.lower == Approx(ends.lower).epsilon(1e-9));

  // 20 uH of sample, 2.5 uH read in air where 2 uH are computed: 19.5 uH are the coil's. The air
  // value moves with the dimension: 2 uH exp(0.05 xi + 0.01 xi^2).
  add_dimension(one, 0.02, 0.0);
  one.log_air = std::log(2e-6);
  one.air_linear = {0.05};
  one.air_quadratic = {0.01};
  read = reading(20e-6, 0.001);
  read.bare = UncertainInput{"bare", 2.5e-6, Spread::uniform, 0.1e-6};
  const UncertainInput dimension{"d", 1.0, Spread::uniform, 0.1};
  const post::FitResult bare = fitted(one, read, question({dimension}));
  CHECK(*bare.unknown.value == Approx(9.75).epsilon(1e-9));
  const auto moved = drawn_ends({read.inductance, *read.bare, dimension},
                                [](std::span<const double> x)
                                {
                                  const double xi = (x[2] - 1.0) / 0.1;
                                  const double air = 2e-6 * std::exp(0.05 * xi + 0.01 * xi * xi);
                                  return (x[0] - x[1] + air) / 2e-6 * std::exp(-0.02 * xi);
                                });
  CHECK(bare.unknown.interval.lower == Approx(moved.lower).epsilon(1e-9));
  CHECK(bare.unknown.interval.upper == Approx(moved.upper).epsilon(1e-9));

  // What is left after a lead may be nothing at all.
  read.bare.reset();
  read.lead = UncertainInput{"lead", 21e-6};
  const post::FitResult nothing = fitted(one, read, question({dimension}));
  REQUIRE(nothing.impossible);
  CHECK(nothing.impossible->below);
}

TEST_CASE("the loss of a winding is that of its material's imaginary part", "[fit]")
{
  // Z = j w C (mu' - j mu'')^s, so R = w C mu'^s s mu'' / mu' to first order in mu'' / mu'.
  const double s = 0.7, mu = 12.0, imaginary = 0.05, omega = 2.0 * std::acos(-1.0) * 10e3;
  const double L = 2e-6 * std::pow(mu, s);
  auto read = reading(L, 0.002);
  read.frequency = 10e3;
  const double R = omega * L * s * imaginary / mu;
  read.loss = UncertainInput{"resistance", R + 0.3, Spread::uniform, 0.02 * R};
  read.winding_loss = UncertainInput{"copper", 0.3, Spread::uniform, 0.01 * R};
  const post::FitResult result = fitted(power(s), read, question(), true);
  REQUIRE(result.imaginary);
  CHECK(*result.imaginary->value == Approx(imaginary).epsilon(1e-6)); // slope by differences
  REQUIRE(result.imaginary->first);
  CHECK(result.imaginary->first->standard_uncertainty / imaginary ==
        Approx(std::hypot(0.02, 0.01, 0.002 * (1.0 / s - 1.0)) / std::sqrt(3.0)).epsilon(1e-3));
  CHECK_FALSE(fitted(power(s), read, question(), false).imaginary);
  // Against the complex power itself: the next order is (mu'' / mu')^2, 2e-5.
  const std::complex<double> Z =
      std::complex<double>(0.0, omega) * 2e-6 * std::pow(std::complex<double>(mu, -imaginary), s);
  CHECK(R == Approx(Z.real()).epsilon(3e-5));
}

TEST_CASE("an input that a draw cannot tell from none leaves the budget at nothing", "[fit]")
{
  const auto one = power(1.0);
  auto read = reading(20e-6, 0.01);
  read.lead = UncertainInput{"lead", 0.0};
  const post::FitResult result = fitted(one, read);
  REQUIRE(result.budget.size() == 3);
  CHECK(result.budget[1].contribution == 0.0);
  CHECK(result.budget[2].contribution == 0.0);
}

TEST_CASE("a sample that does not answer at all is open both ways", "[fit]")
{
  auto flat = response(nodes, [](double) { return 1e-6; });
  flat.half_width.assign(nodes.size(), 1e-4);
  const post::FitResult result = fitted(flat, reading(1e-6, 0.01));
  CHECK_FALSE(result.impossible);
  CHECK(result.unknown.interval.lower == -endless);
  CHECK(result.unknown.interval.upper == endless);
}

TEST_CASE("what cannot be fitted is refused", "[fit]")
{
  const auto one = power(1.0);
  const std::vector<post::FitReading> none;
  CHECK_THROWS_AS(post::fit(question(), {&one, 1}, none, false), std::invalid_argument);
  auto astray = reading(1e-5, 0.01);
  astray.winding = 1;
  CHECK_THROWS_AS(fitted(one, astray), std::invalid_argument);
  const auto hump = response(nodes, [](double u) { return 1e-6 / (u + 1e4 / u); });
  CHECK_THROWS_WITH(fitted(hump, reading(4e-9, 0.01)),
                    "the inductance of coil both rises and falls with u: a reading would fit two "
                    "values of it");
  const std::vector<post::Response> two = {power(1.0), power(-1.0)};
  std::vector<post::FitReading> reads = {reading(1e-5, 0.01), reading(1e-7, 0.01)};
  reads[1].winding = 1;
  CHECK_THROWS_AS(post::fit(question(), two, reads, false), std::domain_error);
  // A dip no larger than the bracket is none.
  auto rough = power(1.0);
  rough.log_inductance[100] = rough.log_inductance[99] - 1e-6;
  rough.half_width.assign(nodes.size(), 1e-6);
  CHECK_NOTHROW(fitted(rough, reading(20e-6, 0.01)));
}
