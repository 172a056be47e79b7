// A field whose curl is a given polynomial current density in one triangle.
//
// In reference coordinates, where forms and densities pull back without factors: E = E_1 dl_1 + E_2
// dl_2 with d_1 E_2 - d_2 E_1 = q. By the homotopy of a cone from vertex 0, whose trace vanishes on
// the two edges there; gradients of edge functions make the trace on the third constant, so that
// one number, q's integral, carries it. Exact for every q of degree p.
#pragma once

#include "solver/form.hpp"

#include <Eigen/Core>

namespace solver
{

/// @brief For density functions N_i (the triangle's shape functions): functions by points.
struct EddyTable
{
  Eigen::MatrixXd E_1, E_2;
  Eigen::VectorXd integral;     ///< int N_i over the reference triangle: the trace on edge (1, 2).
  Eigen::MatrixXd inverse_mass; ///< Of int N_i N_j over the reference triangle.
};

/// @brief The table at an element's points; lives as long as the program.
const EddyTable& eddy_table(const ElementTable& table);

/// @brief Coefficients of the density nearest to the given one in the mean square.
/// @param density  Complex values at the points, per reference area (columns: fields).
Eigen::MatrixXcd density_coefficients(const ElementTable& table, const Eigen::MatrixXcd& density);

} // namespace solver
