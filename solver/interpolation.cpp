// Hermite cubics with slopes limited by harmonic means.
#include "solver/interpolation.hpp"

#include <algorithm>
#include <stdexcept>

namespace solver
{

namespace
{

/// Slope at an inner point: weighted harmonic mean of the secants, 0 at an extremum
/// [Fritsch-Butland 1984]; at the ends the secant itself.
double slope(std::span<const double> x, std::span<const double> y, std::size_t i)
{
  const auto secant = [&](std::size_t k) { return (y[k + 1] - y[k]) / (x[k + 1] - x[k]); };
  if (i == 0)
    return secant(0);
  if (i + 1 == x.size())
    return secant(i - 1);
  const double before = secant(i - 1), after = secant(i);
  if (before * after <= 0.0)
    return 0.0;
  const double h0 = x[i] - x[i - 1], h1 = x[i + 1] - x[i];
  return 3.0 * (h0 + h1) / ((2.0 * h1 + h0) / before + (h1 + 2.0 * h0) / after);
}

} // namespace

std::vector<double> monotone_slopes(std::span<const double> x, std::span<const double> y)
{
  std::vector<double> list;
  for (std::size_t i = 0; i < x.size(); ++i)
    list.push_back(slope(x, y, i));
  return list;
}

double monotone_cubic(std::span<const double> x, std::span<const double> y, double at)
{
  if (x.size() < 2 || x.size() != y.size())
    throw std::invalid_argument("interpolation needs as many x as y, at least two");
  if (at <= x.front())
    return y.front();
  if (at >= x.back())
    return y.back();
  const auto i = static_cast<std::size_t>(std::upper_bound(x.begin(), x.end(), at) - x.begin()) - 1;
  const double h = x[i + 1] - x[i], t = (at - x[i]) / h, u = 1.0 - t;
  return y[i] * u * u * (1.0 + 2.0 * t) + y[i + 1] * t * t * (3.0 - 2.0 * t) +
         h * t * u * (slope(x, y, i) * u - slope(x, y, i + 1) * t);
}

} // namespace solver
