// Which triangles of a mesh lie inside a toroid's winding, and what does not conduct among them.
#pragma once

#include "solver/space.hpp"

#include <span>
#include <vector>

namespace solver
{

struct ToroidParts
{
  std::vector<bool> counts;   ///< One a triangle: inside the winding, hollows included.
  std::vector<bool> conducts; ///< One a triangle.
  /// One a triangle: number of the connected body without conductivity it belongs to, -1 in
  /// conductors. Body 0 is all that reaches the winding: the current function is known there.
  std::vector<int> body;
  std::vector<int> vertex_body; ///< One a vertex: of a body it lies in or on, else -1.
  int bodies = 1;
  std::vector<int> fixed; ///< A vertex of each connected conductor.
};

/// @param conductivity  One a region [S/m]; region 0 is air.
ToroidParts toroid_parts(const Space& space, std::span<const double> conductivity);

} // namespace solver
