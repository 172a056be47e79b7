// One mesh of a toroid's core: the current function, the equilibrated electric field, residuals.
#pragma once

#include "solver/toroid.hpp"

namespace solver
{

/// @brief Forms carry 2 pi, as all here do: Z of one turn is `form` / (4 pi^2).
struct ToroidMesh
{
  Eigen::VectorXcd share;
  std::complex<double> form; ///< 2 pi int (rho / r) grad u.grad u + j omega mu u u / r, u = share.
  Eigen::VectorXd eta;       ///< Of rho grad u against the electric field, one an element.
  Eigen::VectorXd zeta;      ///< Of mu u against what that field's curl needs.
  std::vector<double> region_loss; ///< Real part of the form with conj u, one a region.
  int unknowns = 0;
};

/// @param given  Materials, frequency and space filled.
ToroidMesh toroid_mesh(const ToroidCore& given);

} // namespace solver
