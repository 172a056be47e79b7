// Electrostatics about the axis: conductors at given potentials, dielectrics, a bracket on the
// capacitance.
//
// The potential side bounds the energy from above; a field D of exact charges and no divergence
// between the conductors bounds it from below [DEVELOPERS.md, capacitance]. Knows no winding and no
// material: post/capacitance says which body is a conductor at what potential.
#pragma once

#include "mesh/mesh.hpp"
#include "solver/space.hpp"

#include <Eigen/Core>

#include <string>
#include <vector>

namespace solver
{

/// @brief Electric constant [F/m], CODATA 2018.
inline constexpr double epsilon0 = 8.8541878128e-12;

/// @brief Potentials of the electrodes; groups of them float, without a net charge.
struct ElectricCase
{
  Eigen::VectorXd held;     ///< One an electrode [V].
  Eigen::MatrixXd floating; ///< Electrodes by groups: what a group's own potential of 1 V adds.
};

struct ElectricProblem
{
  mesh::Mesh mesh;                    ///< A coarse one to begin on.
  std::vector<double> permittivity;   ///< Relative, one a region.
  std::vector<int> region_electrode;  ///< Electrode a region is, -1 for a dielectric.
  std::vector<int> section_electrode; ///< Electrode a conductor's section is, likewise.
  std::vector<ElectricCase> cases;
  double accuracy = 1e-3; ///< Asked relative half-width of each case's bracket.
};

struct Electric
{
  Space space;
  Eigen::MatrixXd potential;    ///< One column a case [V].
  Eigen::MatrixXd flux;         ///< Continuous part of the flux function of D [C / 2 pi].
  Eigen::MatrixXd voltage;      ///< Of electrodes by cases, the floating ones' found [V].
  Eigen::MatrixXd charge;       ///< Of electrodes by cases [C]; no bound of its own.
  Eigen::VectorXd lower, upper; ///< Bounds of twice the energy, one a case [J].
  int refinements = 0;
  int unknowns = 0; ///< Of both systems.
  double accuracy_met = 0.0;
  bool accuracy_reached = false;
  std::string limit; ///< Why it was not reached, in plain words.
};

/// @brief The electrode each triangle belongs to, -1 between them.
std::vector<int> electrodes(const mesh::Mesh& mesh, const ElectricProblem& problem);

/// @brief Pairs of different electrodes that touch, the lower number first, each once.
std::vector<std::array<int, 2>> contacts(const mesh::Mesh& mesh, const ElectricProblem& problem);

/// @brief Solves until every case's bracket is as narrow as asked, or a floor is met.
/// @throws std::invalid_argument where electrodes of different potentials touch.
/// @throws std::runtime_error when a factorisation fails; NotEnoughMemory before the first mesh.
Electric solve_electric(const ElectricProblem& problem);

} // namespace solver
