// How one line, band or set of points is told from the next: colour, and dashes or shape besides.
#pragma once

#include "post/drawing/canvas.hpp"

namespace post::drawing
{

/// @brief Colour of the k-th line and of the k-th set of points. Six that differ in lightness or
///        along blue-yellow, so that they stay apart without red or without green vision too,
///        each 3 : 1 against white; then they start again, with other dashes.
Colour series_colour(int k);

/// @brief The k-th line; no two of the first thirty are alike in both colour and dashes.
Pen series_pen(int k);

/// @brief A thin line beside the k-th, with one of three kinds of fine dashes.
Pen fine_pen(int k, int dashes);

/// @brief Tint of the k-th of `count` bands, from pale to deep in the colours of the pictures.
Colour band_colour(int k, int count);

/// @brief Mark of the k-th set of points: disc, square, triangle, diamond; white rim.
void draw_mark(Canvas& canvas, Spot middle, int k);

} // namespace post::drawing
