// The closed forms of coils; each equation stands with its source in the header.
#include "post/coil_forms.hpp"

#include "post/thick_mean.hpp"
#include "solver/problem.hpp"

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

/// mu0 a N^2, the unit of all short coils.
double unit(const CoilShape& coil)
{
  return mu0 * coil.diameter / 2.0 * square(coil.turns);
}

/// Turns a hand formula in microhenries and inches into SI.
constexpr double microhenries_per_inch = 1e-6 / 0.0254;

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

double short_sheet_coefficient(double ratio)
{
  const double y = 1.0 / square(ratio); // l^2/4a^2
  const double L = std::log(4.0 * ratio);
  return 2.0 / (pi * ratio) * (L - 0.5 + y / 8.0 * (L + 0.25));
}

double long_sheet_coefficient(double ratio)
{
  return 1.0 - 4.0 * ratio / (3.0 * pi) + square(ratio) / 8.0 - square(square(ratio)) / 64.0;
}

double wheeler_coefficient(double ratio)
{
  const double b = 2.0 / ratio; // l/a
  return b / pi * (std::log1p(pi / b) + 1.0 / (2.3 + 1.6 * b + 0.44 * b * b));
}

double sheet_inductance(const CoilShape& coil, double coefficient)
{
  const double area = pi * square(coil.diameter) / 4.0;
  return mu0 * square(coil.turns) * area / coil.length * coefficient;
}

double thick_coil(const CoilShape& coil)
{
  if (coil.thickness <= 0.0)
  {
    return sheet_inductance(coil, sheet_coefficient(coil.diameter / coil.length));
  }
  return square(coil.turns) * thick_mean(coil.diameter / 2.0, coil.thickness, coil.length);
}

double thick_sheet(const CoilShape& coil)
{
  const double sheet = sheet_inductance(coil, sheet_coefficient(coil.diameter / coil.length));
  if (coil.thickness <= 0.0)
  {
    return sheet;
  }
  const double R = rectangle_mean_distance(coil.thickness, coil.length);
  return sheet - unit(coil) * (std::log(R / coil.length) + 1.5);
}

double thick_ring(const CoilShape& coil)
{
  const double R = rectangle_mean_distance(coil.thickness, coil.length);
  return unit(coil) * (std::log(4.0 * coil.diameter / R) - 2.0);
}

double square_coil(const CoilShape& coil)
{
  const double b = std::sqrt(coil.length * coil.thickness);
  const double q = square(2.0 * b / coil.diameter); // b^2/a^2
  const double L = std::log(4.0 * coil.diameter / (std::numbers::sqrt2 * b));
  return unit(coil) * ((1.0 + q / 24.0) * L - 0.848340 + 0.8162 * q / 16.0);
}

double brooks_coil(const CoilShape& coil)
{
  return 1.6994e-6 * coil.diameter / 2.0 * square(coil.turns);
}

double thick_wheeler(const CoilShape& coil)
{
  const double a = coil.diameter / 2.0;
  return 0.8 * microhenries_per_inch * square(a * coil.turns) /
         (6.0 * a + 9.0 * coil.length + 10.0 * coil.thickness);
}

double flat_wheeler(const CoilShape& coil)
{
  const double a = coil.diameter / 2.0;
  return microhenries_per_inch * square(a * coil.turns) / (8.0 * a + 11.0 * coil.thickness);
}

double brooks_turner(const CoilShape& coil)
{
  const double l = coil.length;
  const double c = coil.thickness;
  const double R = (coil.diameter + c) / 2.0;
  const double first = (10.0 * l + 12.0 * c + 2.0 * R) / (10.0 * l + 10.0 * c + 1.4 * R);
  const double second = 0.5 * std::log10(100.0 + 14.0 * R / (2.0 * l + 3.0 * c));
  return unit(coil) * pi * coil.diameter / 2.0 / (l + c + R) * first * second;
}

double rectangle_mean_distance(double width, double height)
{
  const double x = width / height;
  const double logs = square(x) * std::log1p(1.0 / square(x)) + std::log1p(square(x)) / square(x);
  const double angles = x * std::atan(1.0 / x) + std::atan(x) / x;
  return std::hypot(width, height) * std::exp(-logs / 12.0 + 2.0 / 3.0 * angles - 25.0 / 12.0);
}

} // namespace post
