// Time-harmonic fields: complex permeability and eddy currents, with a guaranteed disc around Z.
//
// exp(j omega t), peak values, mu = mu' - j mu''. Z is what one winding at 1 A shows but for its
// own wire's resistance; the true one lies in the disc [DEVELOPERS.md, the disc].
#pragma once

#include "solver/problem.hpp"
#include "solver/source.hpp"
#include "solver/space.hpp"

#include <Eigen/Core>

#include <complex>
#include <string>
#include <vector>

namespace solver
{

struct Harmonic
{
  Problem problem;
  mesh::Layout layout;
  double frequency = 0.0;                         ///< [Hz]
  std::vector<std::complex<double>> permeability; ///< Relative, one a region.
  std::vector<double> conductivity;               ///< One a region [S/m].
  Space space; ///< Of the half above the middle where its mesh is halved; field_at() knows all.
  std::vector<Source> sources; ///< One a winding at 1 A, then the background if there is one.
  Eigen::MatrixXcd flux;       ///< psi, one column a source; less the background's own [Wb / 2 pi].
  Eigen::MatrixXcd field;      ///< Continuous part of the potential.
  Eigen::MatrixXcd impedance;  ///< j omega (2 l - a), so that an inexact solve errs twice [ohm].
  Eigen::VectorXd error_energy; ///< Bound of int |nu| |B_e|^2 + omega sigma |A_e|^2 [J at 1 A^2].
  std::vector<Eigen::VectorXcd> region_energy; ///< int nu B.B, one a region, one a winding.
  std::vector<Eigen::VectorXd> region_loss;    ///< Loss at 1 A peak, one a region, a winding [W].
  Eigen::MatrixXd winding_loss; ///< In solid turns at 1 A peak, of windings by driven ones [W].
  /// int H_i conj(H_j) dV over a winding's plain section at 1 A, one a winding; the field its
  /// strands lie in, no bound of its own [A^2 m].
  std::vector<Eigen::MatrixXcd> strand_field;
  int refinements = 0;
  int unknowns = 0;          ///< Of the flux function (complex) and the potential (real).
  double accuracy_met = 0.0; ///< Largest disc radius over |Z_ii|.
  bool accuracy_reached = false;
  std::string limit; ///< Why it was not reached, in plain words.

  /// @brief Radius of the disc around impedance(i, j) that holds the true one [ohm].
  double disc(Eigen::Index i, Eigen::Index j) const;
};

/// @brief Solves at one frequency, refining until every disc is as small as asked.
/// @param frequency  > 0 [Hz].
/// @param start      A solution of the same scene whose mesh to begin on; null: a coarse one.
/// @throws std::invalid_argument without a winding, or for an unknown material.
/// @throws std::runtime_error when meshing or a factorisation fails.
Harmonic solve_harmonic(const Problem& problem, double frequency, const Harmonic* start = nullptr);

/// @brief A mesh of the whole scene on which every disc at that frequency is as small as asked.
/// @throws as solve_harmonic().
mesh::Mesh skin_mesh(const Problem& problem, double frequency);

/// @brief Complex flux density at a point for given currents, the background included [T].
struct HarmonicPoint
{
  std::complex<double> B_r, B_z;
  int region = 0;
};
HarmonicPoint field_at(const Harmonic& solution, const Eigen::VectorXd& currents,
                       mesh::Point point);

/// @brief Largest x + y with sqrt(c^2 x^2 + y^2) <= eta sqrt x + zeta sqrt y, never less.
///
/// x, y: energies of the error in B and in the eddy currents; eta, zeta: norms of the residual
/// field and of the eddy currents that differ from it; c: cosine of half the largest loss angle.
double error_bound(double eta, double zeta, double c);

} // namespace solver
