// |B| on the pixels of the frame, and the picture of it in bands of colour.
#pragma once

#include "post/drawing/frame.hpp"

#include <span>
#include <vector>

namespace post::drawing
{

/// @brief One value a pixel of the whole frame, both halves; NaN where the sample has no triangle.
struct Raster
{
  int width = 0;
  int height = 0;
  std::vector<float> flux_density; ///< |B| [T], row by row from the top.
};

/// @brief |B| at the middle of every pixel, linear in each triangle.
Raster raster(const Sample& sample, const Frame& frame, double pixels_per_point);

/// @brief The value that `part` (0 to 1) of the covered pixels stay below; 0 with none covered.
double quantile(const Raster& raster, double part);

/// @brief Bands of equal ratio, edges at the preferred numbers R10 [ISO 3] of some unit.
struct Scale
{
  std::vector<double> edges; ///< Ascending [T]; weaker and stronger fields have bands of their own.
  double unit = 1.0;         ///< [T]
  std::string unit_name;
  std::string quantity = "flux density |B|"; ///< What the key says.
  bool even = false;                         ///< Bands of equal width, every edge labelled.
  /// @brief 0 below the first edge, edges.size() above the last.
  int band(double flux_density) const;
};

/// @brief Reaches up to all but the strongest 0.5 % of the area, so that a peak at a corner does
///        not set it, and down over one to three decades as the field needs.
Scale scale(const Raster& raster);

/// @brief The picture; one colour a band of the scale, white where nothing is known.
Image coloured(const Raster& raster, const Scale& scale, std::span<const Colour> colours);

} // namespace post::drawing
