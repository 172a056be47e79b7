// Inductances for every value of a few permeabilities, from a few solutions on one mesh.
//
// The problem is affine in each region's reluctivity (flux side) and permeability (potential side),
// so fields at a few permeabilities span those at all others to many digits. Both bounds are
// minimised over the spanned fields, which stay admissible: the bracket holds for the true
// inductance at every permeability, whether the snapshots were well chosen or not [Prager-Synge
// 1947; reduced basis: Rozza-Huynh-Patera 2008].
#pragma once

#include "solver/problem.hpp"

#include <Eigen/Core>

#include <span>
#include <string>
#include <vector>

namespace solver
{

/// @brief A material whose permeability is left open, and the range the model is to serve.
struct VariedMaterial
{
  std::string material;
  double from = 1.0; ///< Relative, > 0.
  double to = 1.0;   ///< > from
};

/// @brief Inductance of one winding at some permeabilities, with its guaranteed bracket [H].
struct ReducedInductance
{
  double lower = 0.0;
  double upper = 0.0;
  /// d L / d ln mu, one a varied material: twice the energy in it at 1 A [H].
  std::vector<double> slope;
  double value() const { return 0.5 * (lower + upper); }
};

/// @brief A page of numbers: small matrices, first of what stays fixed, then one a varied material.
struct ReducedWinding
{
  std::string name;
  std::vector<Eigen::MatrixXd> flux;  ///< int nu0 B_i.B_j over each material's regions [H].
  Eigen::VectorXd load;               ///< l(psi_i) at 1 A [H].
  std::vector<Eigen::MatrixXd> field; ///< int mu0 H_i.H_j; H_0 carries the current, others none.
};

struct ReducedModel
{
  std::vector<VariedMaterial> varied;
  std::vector<ReducedWinding> windings;
  double accuracy_met = 0.0; ///< Largest relative half-width over the permeabilities tried.
  bool accuracy_reached = false;
  double geometry_error = 0.0; ///< As in Solution.
  int snapshots = 0;
  int unknowns = 0; ///< Of both systems of one snapshot.
};

/// @brief Builds the model; every inductance in the ranges is to have the problem's accuracy.
///
/// Snapshots are chosen where the bracket is widest on a logarithmic grid; where a snapshot's own
/// bracket is too wide, the mesh is refined for its permeability.
/// @param threads  As in solve().
/// @throws std::invalid_argument for a scene without windings, an unknown material or an empty
///         range.
ReducedModel reduced_model(const Problem& problem, std::vector<VariedMaterial> varied,
                           int threads = 1);

/// @brief Bounds at one set of permeabilities, one a varied material, any value > 0.
ReducedInductance inductance(const ReducedWinding& winding, std::span<const double> permeability);

} // namespace solver
