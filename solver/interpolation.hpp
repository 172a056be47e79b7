// Curves through tabulated points that keep their monotony.
#pragma once

#include <span>
#include <vector>

namespace solver
{

/// @brief Piecewise cubic through (x, y) that overshoots nowhere [Fritsch & Carlson 1980].
/// @param x  Ascending, as many as y, at least 2; beyond the ends the end's value is kept.
double monotone_cubic(std::span<const double> x, std::span<const double> y, double at);

/// @brief The slopes of that curve at its points; at the ends those of the secants.
std::vector<double> monotone_slopes(std::span<const double> x, std::span<const double> y);

} // namespace solver
