// One mesh of an electrostatic problem: potential, charges, the field D that carries them, the gap.
#pragma once

#include "solver/electric.hpp"

namespace solver
{

/// @brief Both fields of every case on one mesh.
struct ElectricMesh
{
  Eigen::MatrixXd potential; ///< One column a case [V].
  Eigen::MatrixXd flux;      ///< Continuous part of the flux function of D [C / 2 pi].
  Eigen::MatrixXd voltage;   ///< Electrodes by cases [V].
  Eigen::MatrixXd charge;    ///< Electrodes by cases [C].
  Eigen::VectorXd energy;    ///< int eps |E|^2, one a case [J].
  Eigen::MatrixXd gap;       ///< int |D - eps E|^2 / eps, triangles then exteriors, by cases [J].
  int unknowns = 0;
};

ElectricMesh electric_mesh(const ElectricProblem& problem, const Space& space);

} // namespace solver
