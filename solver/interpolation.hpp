// Curves through tabulated points that keep their monotony.
#pragma once

#include <span>

namespace solver
{

/// @brief Piecewise cubic through (x, y) that overshoots nowhere [Fritsch & Carlson 1980].
/// @param x  Ascending, as many as y, at least 2; beyond the ends the end's value is kept.
double monotone_cubic(std::span<const double> x, std::span<const double> y, double at);

} // namespace solver
