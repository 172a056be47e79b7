// Reference points of elements with their shape functions, computed once a kind and kept.
#pragma once

#include "solver/form.hpp"
#include "solver/quadrature.hpp"

namespace solver
{

/// @brief Shape functions of a triangle of order p at barycentric points.
ShapeTable shape_table(int p, const std::vector<std::array<double, 3>>& points);

struct ReferencePoints
{
  TriangleRule rule;
  ShapeTable shapes;
};
/// @brief Order p on triangle_rule(outward, across, corner); lives as long as the program.
const ReferencePoints& reference_points(int p, int outward, int across, int corner);

/// @brief How often an element counts: twice where the mesh is halved, for its mirror image.
double images(const Space& space);

/// @brief Constant gradient rows and Jacobian of a straight triangle.
struct StraightGradient
{
  Eigen::Matrix2d gradient; ///< Rows: d/ds, d/dz from d/dlambda_1, d/dlambda_2.
  double determinant = 0.0;
};
StraightGradient straight_gradient(const mesh::ElementMap& map);

} // namespace solver
