// The closed forms themselves; each equation stands with its source in the header.
#include "post/closed_forms.hpp"

#include "solver/problem.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace post
{
namespace
{
using solver::mu0;
using std::numbers::pi;

double square(double x)
{
  return x * x;
}
} // namespace

double sheet_coefficient(double ratio)
{
  // At both ends the closed form loses its digits to cancellation; its series don't.
  if (ratio < 0.01)
  {
    return 1.0 - 4.0 * ratio / (3.0 * pi) + square(ratio) / 8.0 - square(square(ratio)) / 64.0;
  }
  if (ratio > 100.0)
  {
    const double y = 1.0 / square(ratio);
    return 2.0 / (pi * ratio) * ((1.0 + y / 8.0) * std::log(4.0 * ratio) - 0.5 + y / 32.0);
  }
  const double kk = square(ratio) / (1.0 + square(ratio)); // k^2
  const double k = std::sqrt(kk);
  const double other = 1.0 / std::sqrt(1.0 + square(ratio)); // k'
  const double K = std::comp_ellint_1(k);
  const double E = std::comp_ellint_2(k);
  return 4.0 / (3.0 * pi * other) * (square(other) / kk * (K - E) + E - k);
}

double lundin_coefficient(double ratio)
{
  // Coefficients of the f1 fit re-read in print; those of the short coil from memory.
  const auto f1 = [](double x)
  { return (1.0 + 0.383901 * x + 0.017108 * x * x) / (1.0 + 0.258952 * x); };
  if (ratio <= 1.0)
  {
    return f1(square(ratio)) - 4.0 * ratio / (3.0 * pi);
  }
  const double y = 1.0 / square(ratio);
  const double polynomial = y * (0.093842 + y * (0.002029 - y * 0.000801));
  return 2.0 / (pi * ratio) * ((std::log(4.0 * ratio) - 0.5) * f1(y) + polynomial);
}

double sheet_inductance(const CoilShape& coil, double coefficient)
{
  const double area = pi * square(coil.diameter) / 4.0;
  return mu0 * square(coil.turns) * area / coil.length * coefficient;
}

double coaxial_circles(double a, double b, double z)
{
  const double kk = 4.0 * a * b / (square(a + b) + square(z));
  const double k = std::sqrt(std::min(kk, 1.0));
  const double K = std::comp_ellint_1(k);
  const double E = std::comp_ellint_2(k);
  return mu0 * std::sqrt(a * b) * ((2.0 / k - k) * K - 2.0 / k * E);
}

double ring_uniform(double a, double r)
{
  const double q = square(r / a);
  return mu0 * a * ((1.0 + q / 8.0) * std::log(8.0 * a / r) + q / 24.0 - 1.75);
}

double ring_kirchhoff(double a, double r)
{
  return mu0 * a * (std::log(8.0 * a / r) - 1.75);
}

double ring_solid(double a, double r)
{
  const double q = square(r / a);
  return mu0 * a * ((1.0 - q / 8.0) * std::log(8.0 * a / r) + 5.0 * q / 24.0 - 1.75);
}

double rosa_mutual(int turns)
{
  const double N = turns;
  double sum = 0.0;
  for (int n = 2; n < turns; ++n)
  {
    sum += (N - n) * std::log(static_cast<double>(n));
  }
  return -1.5 - N * std::log(N) + 1.5 * N + 2.0 * sum / N;
}

double rectangle_mean_distance(double width, double height)
{
  const double x = width / height;
  const double logs = square(x) * std::log1p(1.0 / square(x)) + std::log1p(square(x)) / square(x);
  const double angles = x * std::atan(1.0 / x) + std::atan(x) / x;
  return std::hypot(width, height) * std::exp(-logs / 12.0 + 2.0 / 3.0 * angles - 25.0 / 12.0);
}

double spheroid_factor(double aspect)
{
  const double e = square(aspect) - 1.0;
  if (std::abs(e) < 1e-3)
  {
    // Series about the sphere: both closed forms are 0/0 there.
    return 1.0 / 3.0 - e * (2.0 / 15.0 - e * (8.0 / 105.0 - e * 16.0 / 315.0));
  }
  if (aspect > 1.0)
  {
    return (aspect / std::sqrt(e) * std::acosh(aspect) - 1.0) / e;
  }
  return (1.0 - aspect / std::sqrt(-e) * std::acos(aspect)) / -e;
}

double sato_ishii_factor(double aspect)
{
  return 1.0 / (1.0 + 4.0 * aspect / std::sqrt(pi));
}

double burhans_factor(double aspect)
{
  return 0.37 * std::pow(aspect, -1.44);
}

double apparent_permeability(double permeability, double factor)
{
  return permeability / (1.0 + factor * (permeability - 1.0));
}

double coating_inductance(double permeability, double inner, double outer)
{
  return mu0 * (permeability - 1.0) * std::log(outer / inner) / (2.0 * pi);
}

} // namespace post
