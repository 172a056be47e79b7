// Transforms of even random bits; see the header for why they are our own.
#include "post/draws.hpp"

#include <array>
#include <cassert>
#include <cmath>
#include <numbers>

namespace post
{
namespace
{

using Coefficients = std::array<double, 8>; // from the constant up

double polynomial(const Coefficients& coefficients, double x)
{
  double sum = 0.0;
  for (auto c = coefficients.rbegin(); c != coefficients.rend(); ++c)
  {
    sum = sum * x + *c;
  }
  return sum;
}

struct Ratio
{
  Coefficients over;
  Coefficients under;
  double at(double x) const { return polynomial(over, x) / polynomial(under, x); }
};

// [Wichura 1988]; from memory, held against another library's quantile by test.
constexpr Ratio central = {
    {3.3871328727963666080e0, 1.3314166789178437745e2, 1.9715909503065514427e3,
     1.3731693765509461125e4, 4.5921953931549871457e4, 6.7265770927008700853e4,
     3.3430575583588128105e4, 2.5090809287301226727e3},
    {1.0, 4.2313330701600911252e1, 6.8718700749205790830e2, 5.3941960214247511077e3,
     2.1213794301586595867e4, 3.9307895800092710610e4, 2.8729085735721942674e4,
     5.2264952788528545610e3}};
constexpr Ratio tail = {
    {1.42343711074968357734e0, 4.63033784615654529590e0, 5.76949722146069140550e0,
     3.64784832476320460504e0, 1.27045825245236838258e0, 2.41780725177450611770e-1,
     2.27238449892691845833e-2, 7.74545014278341407640e-4},
    {1.0, 2.05319162663775882187e0, 1.67638483018380384940e0, 6.89767334985100004550e-1,
     1.48103976427480074590e-1, 1.51986665636164571966e-2, 5.47593808499534494600e-4,
     1.05075007164441684324e-9}};
constexpr Ratio far_tail = {
    {6.65790464350110377720e0, 5.46378491116411436990e0, 1.78482653991729133580e0,
     2.96560571828504891230e-1, 2.65321895265761230930e-2, 1.24266094738807843860e-3,
     2.71155556874348757815e-5, 2.01033439929228813265e-7},
    {1.0, 5.99832206555887937690e-1, 1.36929880922735805310e-1, 1.48753612908506148525e-2,
     7.86869131145613259100e-4, 1.84631831751005468180e-5, 1.42151175831644588870e-7,
     2.04426310338993978564e-15}};

} // namespace

double reproducible_logarithm(double x)
{
  assert(x > 0.0 && std::isfinite(x));
  int exponent = 0;
  double fraction = std::frexp(x, &exponent); // exact
  if (fraction < 0.5 * std::numbers::sqrt2)
  {
    fraction *= 2.0;
    --exponent;
  }
  // ln m = 2 artanh s, s = (m - 1) / (m + 1); |s| < 0.172, so that s^24 / 25 is below round-off.
  const double s = (fraction - 1.0) / (fraction + 1.0);
  double sum = 0.0;
  for (int power = 23; power >= 1; power -= 2)
  {
    sum = sum * s * s + 1.0 / power;
  }
  return exponent * std::numbers::ln2 + 2.0 * s * sum;
}

double normal_quantile(double p)
{
  const double q = p - 0.5;
  if (std::abs(q) <= 0.425)
  {
    return q * central.at(0.180625 - q * q);
  }
  const double r = std::sqrt(-reproducible_logarithm(q < 0.0 ? p : 1.0 - p));
  const double x = r <= 5.0 ? tail.at(r - 1.6) : far_tail.at(r - 5.0);
  return q < 0.0 ? -x : x;
}

double Draws::uniform()
{
  // 52 bits and a half of the next: never 0 or 1, all exact.
  return (static_cast<double>(_generator() >> 12) + 0.5) * 0x1p-52;
}

double Draws::normal()
{
  return normal_quantile(uniform());
}

double Draws::triangular()
{
  const double first = uniform();
  return first + uniform() - 1.0;
}

double Draws::arcsine()
{
  // A point even in the unit disc has an even angle t; cos 2t = (x^2 - y^2) / (x^2 + y^2).
  for (;;)
  {
    const double x = 2.0 * uniform() - 1.0;
    const double y = 2.0 * uniform() - 1.0;
    const double square = x * x + y * y;
    if (square <= 1.0 && square > 0.0)
    {
      return (x * x - y * y) / square;
    }
  }
}

double Draws::gamma(double shape)
{
  // [Marsaglia-Tsang 2000]
  const double d = shape - 1.0 / 3.0;
  const double c = 1.0 / std::sqrt(9.0 * d);
  for (;;)
  {
    const double x = normal();
    const double root = 1.0 + c * x;
    const double v = root * root * root;
    const double u = uniform();
    if (v > 0.0 &&
        reproducible_logarithm(u) < 0.5 * x * x + d * (1.0 - v + reproducible_logarithm(v)))
    {
      return d * v;
    }
  }
}

double Draws::student(double degrees_of_freedom)
{
  const double x = normal();
  const double chi_square = 2.0 * gamma(0.5 * degrees_of_freedom);
  return x * std::sqrt(degrees_of_freedom / chi_square);
}

} // namespace post
