// The closed forms of rods and balls; each equation stands with its source in the header.
#include "post/rod_forms.hpp"

#include "post/rod_table.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

namespace post
{
namespace
{

using std::numbers::pi;

double square(double x)
{
  return x * x;
}

/// Slope at a point between two secants over h0 and h1 that keeps a curve through them monotone
/// [Fritsch & Carlson 1980], the weighted harmonic mean.
double monotone_slope(double h0, double h1, double secant0, double secant1)
{
  if (secant0 * secant1 <= 0.0)
  {
    return 0.0;
  }
  const double w0 = 2.0 * h1 + h0;
  const double w1 = h1 + 2.0 * h0;
  return (w0 + w1) / (w0 / secant0 + w1 / secant1);
}

/// Monotone cubic through (x, y) at a point within; x ascends.
double monotone_cubic(std::span<const double> x, std::span<const double> y, double at)
{
  const std::size_t n = x.size();
  const auto secant = [&](std::size_t i) { return (y[i + 1] - y[i]) / (x[i + 1] - x[i]); };
  const auto slope = [&](std::size_t i)
  {
    return i == 0 ? secant(0)
           : i == n - 1
               ? secant(n - 2)
               : monotone_slope(x[i] - x[i - 1], x[i + 1] - x[i], secant(i - 1), secant(i));
  };
  std::size_t i = 0;
  while (i + 2 < n && at > x[i + 1])
  {
    ++i;
  }
  const double h = x[i + 1] - x[i];
  const double t = (at - x[i]) / h;
  const double s = 1.0 - t;
  return y[i] * (1.0 + 2.0 * t) * s * s + y[i + 1] * (1.0 + 2.0 * s) * t * t +
         h * t * s * (slope(i) * s - slope(i + 1) * t);
}

/// A row's factor at a susceptibility, in its logarithm.
double logarithm_at(const CylinderRow& row, double susceptibility)
{
  const double last = table_susceptibilities.back();
  if (susceptibility >= last)
  {
    const double endless = row.back();
    return std::log(endless + (row[row.size() - 2] - endless) * last / susceptibility);
  }
  std::vector<double> x;
  std::vector<double> y;
  for (std::size_t i = 0; i < table_susceptibilities.size(); ++i)
  {
    x.push_back(std::log10(1.0 + table_susceptibilities[i]));
    y.push_back(std::log(row[i]));
  }
  return monotone_cubic(x, y, std::log10(1.0 + susceptibility));
}

double interpolated(std::span<const CylinderRow> table, double aspect, double susceptibility)
{
  std::vector<double> x;
  std::vector<double> y;
  for (std::size_t i = 0; i < table.size(); ++i)
  {
    x.push_back(std::log(table_aspects[i]));
    y.push_back(logarithm_at(table[i], susceptibility));
  }
  return std::exp(monotone_cubic(x, y, std::clamp(std::log(aspect), x.front(), x.back())));
}

} // namespace

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

double rhea_factor(double aspect, double permeability)
{
  return 0.28 / aspect - 0.0158 - 0.0915 / permeability +
         0.00063 * aspect / std::log10(permeability);
}

double bozorth_factor(double aspect)
{
  constexpr double chart[][2] = {{10, 0.0172}, {20, 0.00617}, {50, 0.00129}, {100, 0.00036}};
  const int i = aspect < 20.0 ? 0 : aspect < 50.0 ? 1 : 2;
  const auto& [x0, y0] = chart[i];
  const auto& [x1, y1] = chart[i + 1];
  return y0 * std::pow(y1 / y0, std::log(aspect / x0) / std::log(x1 / x0));
}

CylinderFactors cylinder_factors(double aspect, double permeability)
{
  const double susceptibility = std::max(0.0, permeability - 1.0);
  return {interpolated(ballistic_table, aspect, susceptibility),
          interpolated(magnetometric_table, aspect, susceptibility)};
}

double apparent_permeability(double permeability, double factor)
{
  return permeability / (1.0 + factor * (permeability - 1.0));
}

double ball_in_shell(double core_permeability, double shell_permeability, double ratio)
{
  const double c = core_permeability;
  const double s = shell_permeability;
  return 9.0 * c * s /
         ((c + 2.0 * s) * (s + 2.0) + 2.0 * ratio * ratio * ratio * (c - s) * (s - 1.0));
}

double cross_tube_shielding(double permeability, double ratio)
{
  return (square(permeability + 1.0) - square(ratio * (permeability - 1.0))) / (4.0 * permeability);
}

} // namespace post
