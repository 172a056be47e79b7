// What of each body is not hidden by another, for labels to point at.
#pragma once

#include "post/drawing/bodies.hpp"

#include <span>
#include <vector>

namespace post::drawing
{

/// @brief Where a body can be pointed at: by column the row of the middle of its topmost run,
/// of a winding the run's edge.
struct Visible
{
  int body = 0;         ///< Index into the bodies.
  std::vector<int> row; ///< -1: not in this column. One a point of the box's width.
                        ///< Of a body with a part in each half only one part counts, by turns
                        ///< the right and the left, so that leaders reach what lies near.
  double middle = 0.0;  ///< Mean of its columns.
  double top = 0.0;     ///< Least row.
};

/// @brief All bodies that show in the box at all; later bodies lie over earlier ones.
std::vector<Visible> visible(std::span<const Body> bodies, const Box& box);

} // namespace post::drawing
