// The flux lines of the picture: which levels, and their chains on the sheet.
#pragma once

#include "post/drawing/raster.hpp"

#include <vector>

namespace post::drawing
{

/// @brief Lines of equal flux, the same amount apart.
struct FluxPicture
{
  double step = 0.0;       ///< Between neighbours, a round number [Wb]; 0: no line.
  std::vector<Line> lines; ///< Both halves, on the sheet.
};

/// @brief Levels k * step, k not 0, over the flux that the frame shows: 12 to 30 of them, down to
///        6 where they would crowd to one black area in a slender body.
/// @param field  |B| in the same frame.
FluxPicture flux_picture(const Sample& sample, const Frame& frame, const Raster& field);

} // namespace post::drawing
