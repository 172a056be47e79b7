// One mesh of a harmonic problem: the flux function, the equilibrated field, both residuals.
#pragma once

#include "solver/harmonic.hpp"

namespace solver
{

struct OnMesh
{
  std::vector<Source> sources;
  Eigen::MatrixXcd flux;    ///< psi, one column a source; what the bodies change of a background.
  Eigen::MatrixXcd field;   ///< Continuous part of the potential.
  Eigen::MatrixXcd linkage; ///< l_i(u_j) + l_j(u_i) - a(u_i, u_j) at 1 A [H].
  Eigen::MatrixXd eta;      ///< int |mu| |H - nu B|^2 by element (triangles, exteriors) by winding.
  Eigen::MatrixXd zeta;     ///< int |J_H - J|^2 / (omega sigma), J = -j omega sigma A.
  double cosine = 1.0;      ///< Of half the largest loss angle of nu.
  std::vector<Eigen::VectorXcd> region_energy;
  std::vector<Eigen::VectorXd> region_loss;
  Eigen::MatrixXd winding_loss;
  std::vector<Eigen::MatrixXcd> strand_field;
  int unknowns = 0;
};

/// @param given  Problem, layout, materials, frequency and space filled.
OnMesh on_mesh(const Harmonic& given);

} // namespace solver
