// Plain triangles through the segments of a skeleton; the border to the mesh generator.
#pragma once

#include "mesh/skeleton.hpp"

#include <array>
#include <vector>

namespace mesh
{

struct Triangulation
{
  std::vector<Point> points; ///< The skeleton's nodes first, in their order.
  std::vector<std::array<int, 3>> triangles;
};

/// @brief Triangulates the box so that every segment is an edge, none cut.
/// @throws std::runtime_error naming what the mesh generator reported.
Triangulation triangulation(const Skeleton& skeleton);

} // namespace mesh
