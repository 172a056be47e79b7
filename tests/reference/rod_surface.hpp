// The upper half of a rod's surface in panels, and how bound sources on it act on each other.
#pragma once

#include "reference/gauss_panels.hpp"
#include "reference/ring_fields.hpp"
#include "reference/rod_integral.hpp"

#include <Eigen/Core>

#include <vector>

namespace reference
{

/// @brief A node, placed from the upper edge so that distances keep their digits there.
struct SurfaceNode
{
  bool on_face = false; ///< On the end face, else on the side.
  double inward = 0.0;  ///< From the edge towards the axis.
  double down = 0.0;    ///< From the edge towards the middle.
  double weight = 0.0;  ///< Of the length along the outline.
};

/// @brief Panels over the side from the edge to the middle, then over the face to the axis.
///
/// Lengths in radii of the rod.
struct RodSurface
{
  /// @param loops  Circles outside the rod near which the field varies fast: (distance from the
  ///               side, height).
  RodSurface(double half_length, const std::vector<Field>& loops, const Fineness& fineness);

  double half_length;
  GaussRule rule;
  std::vector<Stretch> side; ///< By `down`.
  std::vector<Stretch> face; ///< By `inward`.
  std::vector<SurfaceNode> nodes;
};

/// @brief Mean field of both sides, normal (charge) or tangential (current), at every node.
struct Coupling
{
  Eigen::MatrixXd direct;   ///< By the sources of the same half, times their weights.
  Eigen::MatrixXd mirrored; ///< By equal ones of the other half.
};
Coupling coupling(const RodSurface& surface, Bound bound);

} // namespace reference
