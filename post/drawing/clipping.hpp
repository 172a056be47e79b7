// Lines and areas cut at a box, so that nothing far off the sheet reaches the drawing library.
#pragma once

#include "post/drawing/canvas.hpp"

#include <span>
#include <vector>

namespace post::drawing
{

/// @brief The pieces of a chain that lie in the box [Liang & Barsky 1984].
std::vector<Line> clipped_line(std::span<const Spot> chain, const Box& box);

/// @brief The part of a closed line's area in the box [Sutherland & Hodgman 1974]; pieces may hang
///        together by threads along the rim.
Line clipped_area(const Line& area, const Box& box);

} // namespace post::drawing
