// The guarantee: energies of both solutions and the gap between them, summed element by element.
//
// For linear statics lower <= true <= lower + gap with constant 1 [Prager-Synge 1947,
// Hammond-Penman 1976]; the gap is a sum of squares, so it never loses its sign, and its share in
// each element is where to refine.
#pragma once

#include "mesh/layout.hpp"
#include "solver/form.hpp"
#include "solver/source.hpp"

#include <Eigen/Core>

#include <span>
#include <vector>

namespace solver
{

struct Bracket
{
  Eigen::MatrixXd gap;          ///< int mu (H_i - nu B_i).(H_j - nu B_j), sources by sources [J].
  Eigen::MatrixXd flux_energy;  ///< int nu B_i.B_j, background left out [J]
  Eigen::MatrixXd field_energy; ///< int mu H_i.H_j, background left out [J]
  Eigen::VectorXd lower;        ///< 2 l(psi) - a(psi, psi), one a source [J at 1 A^2]
  Eigen::MatrixXd triangle_gap; ///< Triangles by sources.
  Eigen::MatrixXd exterior_gap; ///< Exterior elements by sources.
  std::vector<Eigen::MatrixXd> region_flux;  ///< flux_energy by region.
  std::vector<Eigen::MatrixXd> region_field; ///< field_energy by region.
  /// @brief Mean of both in one region.
  Eigen::MatrixXd region_energy(std::size_t region) const
  {
    return 0.5 * (region_flux[region] + region_field[region]);
  }
};

/// @param flux       Coefficients of the flux functions, one column a source.
/// @param potential  Coefficients of the continuous part of the potentials.
/// @param loads      flux_load() of each source.
/// @param threads    More than 1: two halves of the triangles at once; the sums are the same.
Bracket bracket(const Space& space, const mesh::Layout& layout, std::span<const Source> sources,
                std::span<const double> permeability, const Eigen::MatrixXd& flux,
                const Eigen::MatrixXd& potential, const Eigen::MatrixXd& loads, int threads = 1);

} // namespace solver
