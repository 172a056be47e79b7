// From the reference triangle to (s, z): straight, or bent along curved edges by a smooth blend.
//
// F = sum lambda_i v_i + sum_edges lambda_i lambda_j E(t), t = (1 + lambda_j - lambda_i) / 2, where
// the edge's curve is its chord plus t (1 - t) E(t) [Gordon-Hall 1973].
#pragma once

#include "mesh/mesh.hpp"

#include <Eigen/Core>

#include <array>
#include <vector>

namespace mesh
{

/// @brief E(t) of one bent edge, a -> b, as Chebyshev coefficients on [0, 1]; rows s, z.
///
/// Degree 13 on arcs of at most 45 degrees holds them to about 1e-13 of their radius.
struct Bend
{
  static constexpr int terms = 14;
  Eigen::Matrix<double, 2, terms> coefficients = Eigen::Matrix<double, 2, terms>::Zero();
  struct Value
  {
    Eigen::Vector2d value;
    Eigen::Vector2d slope;
  };
  Value at(double t) const;
};
Bend bend(const Mesh& mesh, Edge edge);

/// @brief The bends of all curved edges of one mesh.
struct Bends
{
  std::vector<Bend> list;
  EdgeMap<int> of;
};
Bends bends(const Mesh& mesh);

struct ElementMap
{
  std::array<Eigen::Vector2d, 3> corners; ///< (s, z)
  std::array<const Bend*, 3> bends{};     ///< Edges (0,1) (1,2) (2,0); null where straight.
  std::array<bool, 3> reversed{};         ///< Whether the bend runs against the local edge.

  bool straight() const { return !bends[0] && !bends[1] && !bends[2]; }
  struct Place
  {
    Eigen::Vector2d point;    ///< (s, z)
    Eigen::Matrix2d jacobian; ///< Columns: d/d lambda_1, d/d lambda_2.
  };
  Place at(const std::array<double, 3>& lambda) const;
};

/// @brief Map of one triangle; it points into `bends`, which must outlive it.
ElementMap element_map(const Mesh& mesh, const Bends& bends, int triangle);
/// @brief Whether a triangle of these vertices, its edges bent as the mesh says, would fold over.
bool would_fold(const Mesh& mesh, const std::array<int, 3>& vertices);
/// @brief Whether the bent triangle folds over: its Jacobian is not positive everywhere looked at.
bool folded(const ElementMap& map);

/// @brief Point and tangent of a mesh edge at t, from local end to end, in (s, z).
struct EdgePlace
{
  Eigen::Vector2d point;
  Eigen::Vector2d tangent;
};
EdgePlace edge_place(const ElementMap& map, int local_edge, double t);

} // namespace mesh
