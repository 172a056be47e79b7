// The flux lines of the picture: which levels, and their chains on the sheet.
#pragma once

#include "post/drawing/frame.hpp"

#include <vector>

namespace post::drawing
{

/// @brief Lines of equal flux, the same amount apart.
struct FluxPicture
{
  double step = 0.0;       ///< Between neighbours, a round number [Wb]; 0: no line.
  std::vector<Line> lines; ///< Both halves, on the sheet.
};

/// @brief About 16 to 40 levels k * step, k not 0, over the flux that the frame shows.
FluxPicture flux_picture(const Sample& sample, const Frame& frame);

} // namespace post::drawing
