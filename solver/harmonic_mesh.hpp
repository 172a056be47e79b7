// One mesh of a harmonic problem: the flux function, the equilibrated field, both residuals.
#pragma once

#include "solver/harmonic.hpp"

namespace solver
{

struct HarmonicFactors;

struct OnMesh
{
  std::vector<Source> sources;
  Eigen::MatrixXcd flux;    ///< psi, one column a source; what the bodies change of a background.
  Eigen::MatrixXcd field;   ///< Continuous part of the potential.
  Eigen::MatrixXcd linkage; ///< l_i(u_j) + l_j(u_i) - a(u_i, u_j) at 1 A [H].
  Eigen::MatrixXd eta;      ///< int |mu| |H - nu B|^2 by element (triangles, exteriors) by winding.
  Eigen::MatrixXd zeta;     ///< int |J_H - J|^2 / (omega sigma), J = -j omega sigma A.
  std::vector<Eigen::VectorXcd> region_energy;
  std::vector<Eigen::VectorXd> region_loss;
  Eigen::MatrixXd winding_loss;
  std::vector<Eigen::MatrixXcd> strand_field;
  int unknowns = 0;
};

/// @brief Problem, layout, frequency and what its materials are there; all else is left empty.
Harmonic harmonic_of(const Problem& problem, const mesh::Layout& layout, double frequency);

/// @brief Fills in the accuracy met: the widest disc relative to |Z|, and whether that is reached.
/// @throws std::runtime_error where it is not finite.
void judge(Harmonic& solved);

class FactorPool;
/// @brief solve_harmonic() beginning on start's mesh with factors of it.
Harmonic solve_harmonic(const Problem& problem, double frequency, const Harmonic& start,
                        FactorPool& pool);

/// @brief Cosine of half the largest loss angle.
double loss_cosine(const std::vector<std::complex<double>>& permeability);

/// @brief What a reduced model keeps of one solution: both fields at all points of every element,
///        each row times the root of its weight, so that inner products are energies.
struct Kept
{
  /// One an element, two rows a point (s, z). Columns: real parts, then imaginary ones, of all
  /// sources' flux densities b (energy int b.b dV); the same of fields h that carry their currents.
  std::vector<Eigen::MatrixXd> magnetic;
  /// One a triangle, empty where nothing conducts, one row a point. Columns likewise: (psi - w) / r
  /// times the root of sigma, then eddy currents of h over it.
  std::vector<Eigen::MatrixXd> eddy;
  Eigen::MatrixXcd linkage; ///< l_i(u_j) [H].
};

/// @param given  Problem, layout, materials, frequency and space filled.
/// @param kept     Filled too unless null.
/// @param factors  Of this mesh at another frequency, reused where not null.
OnMesh on_mesh(const Harmonic& given, Kept* kept = nullptr, HarmonicFactors* factors = nullptr);

/// @brief j omega l_i(u_j) [ohm] of the flux function alone, some triangles under a bias.
/// @param tangent  Real element matrices in place of those of nu, one a triangle; empty: of nu.
Eigen::MatrixXcd impedance_under_bias(const Harmonic& given,
                                      const std::vector<Eigen::MatrixXd>& tangent);

/// @brief Elements that share materials and the owner of their losses.
struct Group
{
  int region = 0;
  int winding = -1;   ///< Of the conductor the elements lie in.
  bool solid = false; ///< Of solid turns: losses are the winding's.
  bool plain = false; ///< Of a plain section, in which strands may lie.
  bool operator==(const Group&) const = default;
};
/// @brief One number an element into `groups`.
std::vector<int> element_groups(const Harmonic& given, std::vector<Group>& groups);

} // namespace solver
