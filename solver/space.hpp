// One continuous space over the whole half-plane: triangles of order p inside the box, outward ray
// elements of order p x q beyond it, zero at infinity.
//
// Numbering only; which equation is solved on it is decided elsewhere. The flux function uses the
// degrees of freedom off the axis, potentials use all.
#pragma once

#include "mesh/element_map.hpp"
#include "mesh/mesh.hpp"

#include <vector>

namespace solver
{

/// @brief The part of space beyond one box edge: x = y / t from the box middle, y on the edge.
struct Exterior
{
  mesh::Edge edge;
  int edge_index = 0;
};

struct Space
{
  mesh::Mesh mesh;
  mesh::Bends bends;
  int order = 0;     ///< p in the triangles and along box edges.
  int ray_order = 0; ///< q along the rays.
  int edge_count = 0;
  int count = 0;                                  ///< All degrees of freedom.
  std::vector<std::array<int, 3>> triangle_edges; ///< Global edge of local edges (0,1) (1,2) (2,0).
  std::vector<Exterior> exteriors;
  std::vector<int> ray_of_vertex; ///< First ray degree of freedom of a box vertex, else -1.
  std::vector<bool> on_axis;      ///< One a degree of freedom.
  std::vector<bool> on_mirror;    ///< The same, at the plane where a halved mesh ends.
};

/// @brief Space of order p; q = p + 2.
Space space(mesh::Mesh mesh, int order);

/// @brief Global indices of an element's functions, with the sign each takes there.
struct Gather
{
  std::vector<int> index;
  std::vector<double> sign;
};
Gather triangle_gather(const Space& space, int triangle);
/// @brief Functions ordered ray function by ray function, p + 1 edge functions each.
Gather exterior_gather(const Space& space, int exterior);

} // namespace solver
