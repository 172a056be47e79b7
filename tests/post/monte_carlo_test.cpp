// What a run of outputs is summed up to, open ends included, and how the first order compares.
//
// Tolerances are four standard errors of the run; seeds are fixed.
#include "post/monte_carlo.hpp"

#include "drawing_lots.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

namespace
{

using namespace post_tests;
using post::Spread;
using post::UncertainInput;

} // namespace

TEST_CASE("ends of the interval converge with the square root of the draws", "[uncertainty]")
{
  const std::vector<UncertainInput> inputs = {{"x", 0.0, Spread::normal, 1.0}};
  const double end = post::coverage_factor(0.95);
  const auto scatter = [&](std::size_t draws)
  {
    constexpr int runs = 60;
    double squares = 0.0, told = 0.0;
    for (int run = 0; run < runs; ++run)
    {
      const auto result = drawn(inputs, first, draws, 100 + static_cast<std::uint64_t>(run));
      squares += std::pow(result.symmetric.upper - end, 2) / runs;
      told += result.symmetric_error.upper / runs;
    }
    return std::pair(std::sqrt(squares), told);
  };
  const auto [coarse, coarse_told] = scatter(1000);
  const auto [fine, fine_told] = scatter(64000);
  CAPTURE(coarse, coarse_told, fine, fine_told);
  // 60 runs give a root mean square within 10 %, hence the rate within 0.034 in log2 per 6 steps.
  CHECK(std::log2(coarse / fine) / 6.0 == Approx(0.5).margin(0.1));
  CHECK(fine == Approx(std::sqrt(0.025 * 0.975 / 64000.0) / 0.05845).epsilon(0.3));
  CHECK(fine_told == Approx(fine).epsilon(0.3)); // the error told is the error made
}

TEST_CASE("ranks are those of the standard", "[uncertainty]")
{
  // [JCGM 101:2008, 7.7.2], M = 100, p = 0.95: q = 95, r = (100 - 95 + 1) / 2 = 3, end y(98).
  std::vector<double> values;
  for (int i = 100; i >= 1; --i)
  {
    values.push_back(i);
  }
  const auto odd = post::summary(values);
  CHECK(odd.symmetric.lower == 3.0);
  CHECK(odd.symmetric.upper == 98.0);
  CHECK(odd.median == 50.0);
  CHECK(odd.mean == 50.5);
  CHECK(odd.standard_uncertainty == Approx(std::sqrt(100.0 * 101.0 / 12.0)).epsilon(1e-14));
  // p = 0.9: q = 90, r = 5, end y(95).
  const auto even = post::summary(values, 0.9);
  CHECK(even.symmetric.lower == 5.0);
  CHECK(even.symmetric.upper == 95.0);
  // The shortest of 90 steps where the lowest values lie close: 90 of the first 91.
  values.back() = 2.0 - 1e-3;
  CHECK(post::summary(values, 0.9).shortest.lower == 2.0 - 1e-3);
}

TEST_CASE("an end of the interval is infinite where more than its share of draws is",
          "[uncertainty]")
{
  // Even in (0, 1), endless above 1 - open: quantiles are the probabilities themselves.
  const auto open_above = [](double open)
  {
    const std::vector<UncertainInput> inputs = {{"x", 0.5, Spread::uniform, 0.5}};
    return drawn(inputs, [open](std::span<const double> x)
                 { return x[0] > 1.0 - open ? post::endless : x[0]; });
  };
  const auto a_few = open_above(0.01);
  CHECK_FALSE(a_few.mean);
  CHECK_FALSE(a_few.standard_uncertainty);
  CHECK(static_cast<double>(a_few.plus_infinite) == Approx(1e4).margin(4 * 100.0));
  CHECK(a_few.symmetric.upper == Approx(0.975).margin(4 * 1.6e-4));
  const auto more = open_above(0.04);
  CHECK(more.symmetric.upper == post::endless);
  CHECK(more.symmetric.lower == Approx(0.025).margin(4 * 1.6e-4));
  CHECK(more.symmetric_error.upper == 0.0);
  CHECK(std::isfinite(more.shortest.upper));
  CHECK(more.shortest.upper - more.shortest.lower == Approx(0.95).margin(1e-3));
  const auto many = open_above(0.3);
  CHECK(many.shortest.upper == post::endless);
  CHECK(many.shortest.lower == Approx(0.05).margin(4 * 2.2e-4)); // all that may lie below
  CHECK(many.median == Approx(0.5).margin(4 * 5e-4));
  const auto all = open_above(1.0);
  CHECK(all.symmetric.lower == post::endless);
  CHECK(all.median == post::endless);
  CHECK(all.plus_infinite == million);
}

TEST_CASE("an end may be open below, or both", "[uncertainty]")
{
  std::vector<double> values(1000);
  for (std::size_t i = 0; i < values.size(); ++i)
  {
    values[i] = i < 200 ? -post::endless : static_cast<double>(i);
  }
  const auto below = post::summary(values);
  CHECK(below.symmetric.lower == -post::endless);
  CHECK(below.symmetric.upper == 974.0);
  CHECK(below.shortest.lower == -post::endless);
  CHECK(below.shortest.upper == 950.0);
  CHECK(below.minus_infinite == 200);
  std::fill(values.begin() + 900, values.end(), post::endless);
  const auto both = post::summary(values);
  CHECK(both.shortest.lower == -post::endless);
  CHECK(both.shortest.upper == post::endless);
}

TEST_CASE("the tolerance of the comparison is half a unit of the last digit that matters",
          "[uncertainty]")
{
  // [JCGM 101:2008, 7.9.2], examples 1 to 3: 0.00035 g to 2 digits, to 1, and 2 K.
  const auto tolerance = [](double u, int digits)
  {
    post::FirstOrder first_order;
    first_order.standard_uncertainty = u;
    return post::agreement(first_order, post::MonteCarlo{}, digits).tolerance;
  };
  CHECK(tolerance(0.00035, 2) == Approx(0.000005).epsilon(1e-12));
  CHECK(tolerance(0.00035, 1) == Approx(0.00005).epsilon(1e-12));
  CHECK(tolerance(2.0, 1) == Approx(0.5).epsilon(1e-12));
  CHECK(tolerance(0.0996, 1) == Approx(0.05).epsilon(1e-12)); // rounds to 0.1
  CHECK(tolerance(0.0996, 2) == Approx(0.005).epsilon(1e-12));
  CHECK(tolerance(0.0, 1) == 0.0);
}

TEST_CASE("first order and Monte Carlo agree on a linear model and say when that is not resolved",
          "[uncertainty]")
{
  const std::vector<UncertainInput> inputs(4, {"x", 0.0, Spread::normal, 1.0});
  const auto first_order = post::first_order(inputs, sum);
  const auto fine = post::agreement(*first_order, drawn(inputs, sum), 2);
  CHECK(fine.tolerance == Approx(0.05).epsilon(1e-12));
  CHECK(fine.agree);
  CHECK(fine.resolved);
  // Twice the standard error of an end [7.9.4]; 1e6 draws, density 0.0292 at the ends.
  CHECK(fine.noise == Approx(2.0 * std::sqrt(0.025 * 0.975 / 1e6) / 0.0292).epsilon(0.2));
  CHECK_FALSE(post::agreement(*first_order, drawn(inputs, sum, 1000), 2).resolved);
  // An open end never agrees.
  post::MonteCarlo open = drawn(inputs, sum, 1000);
  open.symmetric.upper = post::endless;
  CHECK_FALSE(post::agreement(*first_order, open).agree);
  CHECK(post::agreement(*first_order, open).upper_gap == post::endless);
}

TEST_CASE("draws that cannot be are refused in words", "[uncertainty]")
{
  const std::vector<UncertainInput> wild = {{"gauge", 1.0, Spread::normal, 0.1, 2.0}};
  CHECK_THROWS_WITH(post::outputs(wild, first, 10, 1),
                    "gauge: Student's t has a variance only with more than 2 degrees of freedom, "
                    "got 2");
  const std::vector<UncertainInput> sound = {{"x", 1.5, Spread::uniform, 0.0}};
  CHECK_THROWS_WITH(post::outputs(
                        sound, [](std::span<const double>) { return std::nan(""); }, 10, 1),
                    "the model gives no number for the inputs 1.5");
  CHECK_THROWS_WITH(post::summary({1.0, 2.0, 3.0}), "3 draws are too few for a coverage of 0.95");
  CHECK_THROWS_WITH(post::summary({}), "0 draws are too few for a coverage of 0.95");
  CHECK_THROWS_WITH(post::summary({1.0, std::nan("")}),
                    "the outputs hold a value that is no number");
  CHECK_THROWS_WITH(post::summary({1.0, 2.0}, 0.0), "a coverage lies between 0 and 1, e.g. 0.95");
  CHECK_THROWS_WITH(post::agreement({}, {}, 0),
                    "at least one digit of an uncertainty is significant");
}
