// The weighted-diffusion form of every problem here: element matrices for a coefficient of one.
//
// Flux-like unknowns carry the weight 1/r, potential-like ones the weight r; in (s, z), s = r^2:
//   over_r:   2 pi int (2 u_s v_s + u_z v_z / (2 s)) ds dz      (flux function, current function)
//   times_r:  2 pi int (2 s u_s v_s + u_z v_z / 2) ds dz        (magnetic, electric, heat)
// Material coefficients multiply these, so nothing here knows what they are.
#pragma once

#include "solver/space.hpp"

#include <Eigen/Core>

#include <stdexcept>
#include <vector>

namespace solver
{

enum class Weight
{
  over_r,
  times_r
};

/// @brief One evaluation point of an element: place, physical gradient table, 2 pi x volume weight.
struct ElementPoint
{
  double s = 0.0;      ///< [m^2]
  double z = 0.0;      ///< [m]
  double weight = 0.0; ///< Of ds dz, without 2 pi.
  int column = 0;      ///< In the tables below.
};

/// @brief Shape functions of one element at all its points; one column a point.
struct ElementTable
{
  std::vector<ElementPoint> points;
  Eigen::MatrixXd value;
  Eigen::MatrixXd d_s; ///< d/ds
  Eigen::MatrixXd d_z; ///< d/dz
};

/// @brief How closely 1/s is to be integrated: to solve, or to bracket (round-off).
enum class Care
{
  solving,
  bracketing
};
/// @brief Thrown where refinement bent a triangle over itself: no admissible field on such a mesh.
struct FoldedElement : std::runtime_error
{
  FoldedElement() : std::runtime_error("a bent mesh triangle folds over") {}
};
ElementTable triangle_table(const Space& space, int triangle, Care care);
/// @brief The same for the part of space beyond a box edge; points carry their true (s, z).
ElementTable exterior_table(const Space& space, int exterior, Care care);

/// @brief Symmetric element matrix of the form with coefficient 1.
Eigen::MatrixXd element_matrix(const ElementTable& table, Weight weight);

} // namespace solver
