// Reference points of elements with their shape functions, computed once a kind and kept.
#pragma once

#include "solver/form.hpp"
#include "solver/quadrature.hpp"

namespace solver
{

struct ReferencePoints
{
  TriangleRule rule;
  ShapeTable shapes;
};
/// @brief Order p, n x n points collapsed at a local vertex; lives as long as the program.
const ReferencePoints& reference_points(int p, int n, int corner);

/// @brief Constant gradient rows and Jacobian of a straight triangle.
struct StraightGradient
{
  Eigen::Matrix2d gradient; ///< Rows: d/ds, d/dz from d/dlambda_1, d/dlambda_2.
  double determinant = 0.0;
};
StraightGradient straight_gradient(const mesh::ElementMap& map);

} // namespace solver
