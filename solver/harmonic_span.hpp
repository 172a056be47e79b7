// Impedances for any frequency and complex permeabilities from what a few solutions on one mesh
// span: small matrices, no mesh.
//
// The form is affine in each region's reluctivity and in omega. Flux functions joined by Galerkin's
// rule are admissible, and fields joined with weights of sum one carry the same currents, so the
// proof of the disc holds for any weights [DEVELOPERS.md, curves over frequency; reduced basis:
// Rozza-Huynh-Patera 2008].
#pragma once

#include "solver/harmonic_mesh.hpp"

#include <Eigen/Core>

#include <complex>
#include <vector>

namespace solver
{

/// @brief What a solution is for: all else is the same in a span.
struct HarmonicState
{
  double frequency = 0.0;                         ///< > 0 [Hz]
  std::vector<std::complex<double>> permeability; ///< Relative, mu' - j mu'', one a region.
};

/// @brief Inner products over one group of elements, snapshot after snapshot, 4 n columns each in
///        the order that Kept has.
struct SpanProducts
{
  Eigen::MatrixXd magnetic; ///< [J at 1 A^2, times the permeability]
  Eigen::MatrixXd eddy;     ///< [J s]
};

struct HarmonicSpan
{
  Eigen::Index sources = 0; ///< n
  std::vector<Group> groups;
  std::vector<SpanProducts> products;    ///< One a group.
  std::vector<HarmonicState> states;     ///< Of the snapshots.
  std::vector<Eigen::MatrixXcd> linkage; ///< l_i(u_j), one a snapshot [H].
};

/// @brief Weights of one source's real and imaginary parts, snapshot after snapshot.
struct SpanWeights
{
  Eigen::VectorXcd flux, field;
};

/// @brief What a span gives at a state.
struct SpanNumbers
{
  std::vector<SpanWeights> weights; ///< One a source.
  Eigen::MatrixXcd impedance;       ///< As in Harmonic [ohm].
  Eigen::VectorXd error_energy;     ///< As in Harmonic.
  /// @brief Largest radius of a disc over |Z_ii|.
  double accuracy_met(double frequency) const;
};
/// @throws std::logic_error without a snapshot.
SpanNumbers at(const HarmonicSpan& span, const HarmonicState& state);

/// @brief int H_i conj(H_j) over the plain sections of a winding, as Harmonic::strand_field.
std::complex<double> strand_field(const HarmonicSpan& span, const SpanNumbers& numbers, int winding,
                                  Eigen::Index i, Eigen::Index j);

/// @brief Columns of one source's flux densities in SpanProducts, real and imaginary parts in the
///        order of SpanWeights.
std::vector<Eigen::Index> flux_columns(const HarmonicSpan& span, Eigen::Index source);

} // namespace solver
