// What stands around the picture: colour key, scale bar, axis.
#pragma once

#include "post/drawing/frame.hpp"
#include "post/drawing/raster.hpp"

#include <span>

namespace post::drawing
{

/// @brief A slim bar of the bands with round numbers below and its caption above; pointed ends
///        stand for all that is weaker or stronger.
void draw_key(Canvas& canvas, const Box& where, const Scale& scale,
              std::span<const Colour> colours);

/// @brief A bar of 1, 2 or 5 times a power of ten long, in mm, m or um; at most `width` points.
void draw_scale_bar(Canvas& canvas, Spot left, double width, double points_per_metre);

/// @brief The centre line as a long-dash-dot line beyond the box, marked z and r.
void draw_axis(Canvas& canvas, const Frame& frame);

} // namespace post::drawing
