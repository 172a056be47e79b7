// Where labels go, so that none covers another and each points at what it names.
#pragma once

#include "post/drawing/bodies.hpp"

#include <span>
#include <string>
#include <vector>

namespace post::drawing
{

/// @brief Middles of intervals of the given widths in [low, high]: in the given order, `gap`
///        apart at least, and as near to `wanted` as can be (least squares).
/// @return Empty where they do not fit.
std::vector<double> spread(std::span<const double> widths, std::span<const double> wanted,
                           double low, double high, double gap);

/// @brief A name beside the picture and the place in the body that its leader ends at.
struct Label
{
  std::string words;
  double x = 0.0; ///< Middle of the words [pt].
  Spot target;    ///< In the body [pt].
};

/// @brief Labels in one row above the box, and what their short forms mean where names did not
///        fit: "1", "2" ... with one line of `legend` each.
struct Labels
{
  std::vector<Label> row;
  std::vector<std::string> legend;
};

/// @brief Labels for every body that shows anywhere in the box.
Labels labels(std::span<const Body> bodies, const Frame& frame, Canvas& canvas, const Font& font);

} // namespace post::drawing
