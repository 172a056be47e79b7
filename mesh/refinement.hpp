// A mesh that grows: edges cut, triangles halved, graded or turned, its edge table kept up to date.
//
// The tool of refine.cpp and repair.cpp only; everyone else sees finished meshes.
#pragma once

#include "mesh/mesh.hpp"

#include <initializer_list>
#include <vector>

namespace mesh
{

class Refinement
{
public:
  explicit Refinement(const Mesh& mesh);

  /// @brief Bisects triangle k at its longest edge, after making that edge the neighbour's longest
  ///        too [Rivara 1984]; folds are mended at once, before an edge outside the body is cut
  ///        again.
  void bisect(int k);
  /// @brief Cuts every edge at the vertex at corner_ratio (touch_ratio where curves touch) from it.
  /// @param around  All triangles at the vertex.
  void grade(int vertex, const std::vector<int>& around);
  /// @brief Cuts the edge in the middle of its parameter and halves the triangles beside it; may
  ///        leave a bent triangle folded.
  void halve_at(Edge e);
  /// @brief Gives the two triangles at an edge the other diagonal of their quadrilateral.
  void swap_diagonal(Edge e);

  /// @brief Triangles at an edge, -1 where none.
  std::array<int, 2> beside(Edge e) const { return _sides.at(e); }
  /// @brief The triangle of the mesh begun with that k is a part of.
  std::size_t origin(std::size_t k) const { return static_cast<std::size_t>(_origin[k]); }
  /// @brief How often it was halved to make k, at the least.
  int halved(std::size_t k) const { return _halved[k]; }
  /// @brief Triangles made since the last call.
  std::vector<int> fresh();
  const Mesh& mesh() const { return _mesh; }
  Mesh finished() &&;

private:
  Mesh _mesh;
  EdgeMap<std::array<int, 2>> _sides;
  EdgeMap<bool> _outer;
  std::vector<int> _fresh;
  std::vector<int> _origin;
  std::vector<int> _halved;
  EdgeMap<int> _graded; ///< During one grade(): edge at the corner -> its new vertex.

  void bisect(int k, int& budget);
  bool halving_folds(int k, Edge e);
  void attach(int k);
  void detach(int k);
  int neighbour(int k, Edge e) const;
  Edge longest_edge(int k) const;
  int cut(Edge e, double t);
  void halve(int k, Edge e, int m);
  void replace(int k, std::initializer_list<Triangle> parts);
  int graded_point(int v, int other);
  void grade_triangle(int k, int v);
};

/// @brief Side i of a triangle, from its vertex i to the next.
inline Edge side(const Triangle& t, int i)
{
  return edge(t.vertices[i], t.vertices[(i + 1) % 3]);
}

} // namespace mesh
