// Local refinement: a finer mesh from a mesh and marks, conforming, curves followed.
#pragma once

#include "mesh/mesh.hpp"

#include <vector>

namespace mesh
{

/// @brief Ratio of the geometric grading towards a corner: the inner layer's share of an edge.
inline constexpr double corner_ratio = 0.17;
/// @brief The same where curves touch: between two circles a straight diagonal stays clear of both
///        only while the ratio is at least a half.
inline constexpr double touch_ratio = 0.5;

/// @brief What to make smaller.
struct Marks
{
  std::vector<int> halvings; ///< One a triangle; triangles at a corner with layers are left out.
  std::vector<int> layers;   ///< One a vertex: so many cuts of its triangles towards it.
};

/// @brief The mesh with marked triangles bisected at their longest edge, neighbours following so
///        that no edge hangs, and graded towards marked corners.
///
/// Longest-edge bisection with propagation [Rivara 1984]: angles stay bounded away from zero.
/// Grading cuts every edge at the corner at `corner_ratio`, so it touches no triangle but those
/// around the corner.
Mesh refined(const Mesh& mesh, const Marks& marks);

} // namespace mesh
