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

/// @brief One evaluation point of an element.
struct ElementPoint
{
  double s = 0.0;           ///< [m^2]
  double z = 0.0;           ///< [m]
  double weight = 0.0;      ///< Of ds dz, without 2 pi; the mirror image's included.
  Eigen::Matrix2d gradient; ///< Rows: d/ds, d/dz from the reference derivatives d1, d2.
};

/// @brief Shape functions at reference points: functions by points.
struct ShapeTable
{
  Eigen::MatrixXd value, d1, d2;
};

/// @brief One element's points, with the reference table they share with other elements.
struct ElementTable
{
  const ShapeTable* shapes = nullptr; ///< Lives as long as the program.
  std::vector<ElementPoint> points;   ///< One a column of the table.

  /// @brief d/ds and d/dz at every point of fields given by their coefficients, one row a field.
  struct Gradients
  {
    Eigen::MatrixXd d_s, d_z;
  };
  Gradients gradients(const Eigen::MatrixXd& coefficients) const;
  /// @brief sum over points of a d/ds + b d/dz of every function: the load of a vector field.
  Eigen::VectorXd tested(const Eigen::VectorXd& a, const Eigen::VectorXd& b) const;
};

/// @brief How closely 1/s is to be integrated: to solve, or to bracket (round-off).
enum class Care
{
  slopes, ///< To solve, and nothing but products of two derivatives.
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

/// @brief Symmetric element matrices of the form with coefficient 1.
Eigen::MatrixXd triangle_matrix(const Space& space, int triangle, Weight weight);
/// @brief 2 pi int u v / (2 s) ds dz: what conductivity adds to weight 1/r.
Eigen::MatrixXd triangle_reaction(const Space& space, int triangle);
Eigen::MatrixXd exterior_matrix(const Space& space, int exterior, Weight weight);

} // namespace solver
