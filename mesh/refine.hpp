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

/// @brief Marked triangles made smaller: those at a corner vertex by grading towards it, as many
///        layers as their level, the others by one longest-edge bisection, neighbours following so
///        that no edge hangs.
///
/// Longest-edge bisection with propagation [Rivara 1984]: angles stay bounded away from zero.
/// Grading cuts every edge at the corner at `corner_ratio`, so it touches no triangle but those
/// around the corner.
/// @param levels  One a triangle; 0 leaves it alone.
Mesh refined(const Mesh& mesh, const std::vector<int>& levels);

} // namespace mesh
