// What drives a field: the currents of one winding, or a uniform axial background.
//
// The potential side needs a field T with curl T = J. T is kept as a circulation along mesh edges,
// carried from each current-carrying triangle to the axis along a tree of triangles, plus the
// closed-form section field inside conductors.
#pragma once

#include "mesh/layout.hpp"
#include "solver/form.hpp"

#include <Eigen/Core>

#include <span>
#include <vector>

namespace solver
{

struct Source
{
  std::vector<double> ampere_turns; ///< One a conductor [A].
  double background = 0.0;          ///< Uniform axial flux density far away [T].
  std::vector<Eigen::Vector3d>
      offset; ///< T = section field - d(sum offset_i lambda_i), per triangle.
};

/// @brief 1 A in every turn of one winding.
Source winding_source(const Space& space, const mesh::Layout& layout, int winding);
/// @brief Uniform axial field of flux density B0 [T].
Source background_source(const Space& space, const mesh::Layout& layout, double B0);

/// @brief All at once, each times its current: at least one source.
Source combined(std::span<const Source> sources, const Eigen::VectorXd& currents);

/// @brief Right-hand side of the flux function's equation, one entry a degree of freedom:
///        2 pi int J v dr dz, less what the background already satisfies.
Eigen::VectorXd flux_load(const Space& space, const mesh::Layout& layout, const Source& source,
                          std::span<const double> permeability);
/// @brief Right-hand side of the potential's equation: int mu (T + H0) . grad v.
Eigen::VectorXd potential_load(const Space& space, const mesh::Layout& layout, const Source& source,
                               std::span<const double> permeability);

} // namespace solver
