// The bands of |B|: preferred numbers, so that every edge is a round one.
#include "post/drawing/raster.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace post::drawing
{

namespace
{

constexpr double preferred[] = {1.0, 1.25, 1.6, 2.0, 2.5, 3.15, 4.0, 5.0, 6.3, 8.0}; // R10, ISO 3

/// @brief Member k of the series; k counts on over all decades.
double preferred_number(int k)
{
  const int decade = static_cast<int>(std::floor(k / 10.0));
  return preferred[k - 10 * decade] * std::pow(10.0, decade);
}

/// @brief The least k whose number is not below `value`.
int preferred_place(double value)
{
  int k = static_cast<int>(std::floor(10.0 * std::log10(value))) - 1;
  while (preferred_number(k) < value * (1.0 - 1e-9))
    ++k;
  return k;
}

} // namespace

int Scale::band(double flux_density) const
{
  return static_cast<int>(std::upper_bound(edges.begin(), edges.end(), flux_density) -
                          edges.begin());
}

Scale scale(const Raster& raster)
{
  const double strong = quantile(raster, 0.995);
  const double weak = quantile(raster, 0.05);
  Scale scale;
  const double top = strong > 0.0 ? strong : 1e-6; // no field at all: any scale will do
  std::tie(scale.unit, scale.unit_name) = top >= 1.0    ? std::pair{1.0, "T"}
                                          : top >= 1e-3 ? std::pair{1e-3, "mT"}
                                          : top >= 1e-6 ? std::pair{1e-6, "\u00B5T"}
                                                        : std::pair{1e-9, "nT"};
  const int last = preferred_place(top / scale.unit);
  const int first = weak > 0.0 ? preferred_place(weak / scale.unit) - 1 : last - 30;
  for (int k = std::clamp(first, last - 30, last - 10); k <= last; ++k)
    scale.edges.push_back(preferred_number(k) * scale.unit);
  return scale;
}

} // namespace post::drawing
