// Random numbers of our own against other libraries' functions and against closed forms.
#include "post/draws.hpp"

#include "drawing_lots.hpp"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <catch2/catch.hpp>

namespace
{

using namespace post_tests;
using post::Spread;
using post::UncertainInput;

/// Largest distance of a sample's distribution from the true one.
template <class Distribution>
double kolmogorov(std::vector<double> values, const Distribution& distribution)
{
  std::sort(values.begin(), values.end());
  double worst = 0.0;
  for (std::size_t i = 0; i < values.size(); ++i)
  {
    const double p = distribution(values[i]);
    const auto M = static_cast<double>(values.size());
    worst = std::max({worst, p - static_cast<double>(i) / M, static_cast<double>(i + 1) / M - p});
  }
  return worst * std::sqrt(static_cast<double>(values.size()));
}

} // namespace

TEST_CASE("the logarithm of our own is the library's to round-off", "[uncertainty]")
{
  for (double x = 1e-300; x < 1e300; x *= 3.7)
  {
    CHECK(post::reproducible_logarithm(x) == Approx(std::log(x)).epsilon(4e-16).margin(4e-16));
  }
  CHECK(post::reproducible_logarithm(1.0) == 0.0);
}

TEST_CASE("the normal's quantile is that of another library", "[uncertainty]")
{
  // AS 241 claims 1 in 1e16 relative; ours loses a few units of the last place in the tails.
  const boost::math::normal_distribution<double> normal;
  for (int i = 1; i < 2000; ++i)
  {
    const double p = i / 2000.0;
    CHECK(post::normal_quantile(p) ==
          Approx(boost::math::quantile(normal, p)).epsilon(2e-15).margin(1e-16));
  }
  for (double p = 0.1; p > 1e-300; p *= 0.03) // through both tails' formulas
  {
    CHECK(post::normal_quantile(p) == Approx(boost::math::quantile(normal, p)).epsilon(2e-15));
  }
}

TEST_CASE("each spread is drawn from its own distribution", "[uncertainty]")
{
  // The limit is exceeded once in a thousand seeds [Kolmogorov's limiting distribution at 1.95].
  const auto values = [](const UncertainInput& input)
  { return post::outputs(std::vector{input}, first, 200000, 5); };
  CHECK(kolmogorov(values({"x", 1.0, Spread::uniform, 2.0}),
                   [](double x) { return (x + 1.0) / 4.0; }) < 1.95);
  CHECK(kolmogorov(values({"x", 1.0, Spread::normal, 2.0}),
                   [](double x) { return normal_distribution((x - 1.0) / 2.0); }) < 1.95);
  CHECK(kolmogorov(values({"x", 1.0, Spread::triangular, 2.0}),
                   [](double x)
                   {
                     const double t = (x - 1.0) / 2.0;
                     const double tail = 0.5 * (1.0 - std::abs(t)) * (1.0 - std::abs(t));
                     return t < 0.0 ? tail : 1.0 - tail;
                   }) < 1.95);
  CHECK(kolmogorov(values({"x", 1.0, Spread::arcsine, 2.0}), [](double x)
                   { return 0.5 + std::asin((x - 1.0) / 2.0) / std::numbers::pi; }) < 1.95);
  for (const double nu : {2.5, 4.0, 30.0})
  {
    const boost::math::students_t_distribution<double> student(nu);
    CAPTURE(nu);
    CHECK(kolmogorov(values({"x", 1.0, Spread::normal, 2.0, nu}),
                     [&](double x) { return boost::math::cdf(student, (x - 1.0) / 2.0); }) < 1.95);
  }
}

TEST_CASE("the same seed gives the same bits, another seed others", "[uncertainty]")
{
  const std::vector<UncertainInput> inputs = {{"a", 1.0, Spread::uniform, 0.1},
                                              {"b", 1.0, Spread::normal, 0.1},
                                              {"c", 1.0, Spread::normal, 0.1, 5.0},
                                              {"d", 1.0, Spread::triangular, 0.1},
                                              {"e", 1.0, Spread::arcsine, 0.1}};
  const auto once = post::outputs(inputs, sum, 1000, 42);
  CHECK(once == post::outputs(inputs, sum, 1000, 42));
  CHECK(once != post::outputs(inputs, sum, 1000, 43));
  const auto more = post::outputs(inputs, sum, 2000, 42); // draws are added at the end
  CHECK(std::equal(once.begin(), once.end(), more.begin()));
  // Recorded once on x86-64: other machines of the kind must give the same bits.
  CHECK(once[0] == 0x1.4748f38e4facap+2);
  CHECK(once[999] == 0x1.47ecb022a23ffp+2);
}
