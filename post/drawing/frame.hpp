// Which piece of the half-plane is shown, which way round, and where it lies on the sheet.
#pragma once

#include "mesh/layout.hpp"
#include "post/drawing/canvas.hpp"
#include "post/sample.hpp"

namespace post::drawing
{

/// @brief The full section, mirrored at the axis. Long bodies lie: then z runs to the right.
struct Frame
{
  bool lying = false;
  double r_max = 0.0; ///< Shown on both sides of the axis [m].
  double z_low = 0.0; ///< [m]
  double z_high = 0.0;
  Box box; ///< On the sheet [pt].
  double points_per_metre = 0.0;

  /// @brief Place on the sheet; negative r is the mirrored half.
  Spot spot(mesh::Point point) const;
  /// @brief The other half's place of the same point.
  Spot mirrored(Spot spot) const;
  /// @brief The box in the half-plane, r >= 0.
  mesh::Extent extent() const { return {{0.0, z_low}, {r_max, z_high}}; }
};

/// @brief Box around all bodies and conductors, the whole sample where there are none.
mesh::Extent extent(const mesh::Layout& layout, const Sample& sample);

/// @brief Bodies in the middle with room for the field around them, aspect 1:1 to 3:1, never
///        more than the sample covers.
/// @param room  Where the picture may lie; the box touches its top and is centred in its width.
Frame frame(const mesh::Layout& layout, const Sample& sample, const Box& room);

/// @brief Corners of a conductor's section [m]; a round one as a polygon, a sheet as two points.
std::vector<mesh::Point> corners(const mesh::Conductor& conductor);
/// @brief Corners of an outline [m], arcs cut into pieces of at most 4 degrees.
std::vector<mesh::Point> corners(const mesh::Outline& outline);

} // namespace post::drawing
