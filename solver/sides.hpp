// Both fields of every source on one mesh: the flux function and the potential.
//
// The element matrices of coefficient one are worked out once and serve any permeabilities, so that
// a family of materials on one mesh costs one factorisation each.
#pragma once

#include "mesh/layout.hpp"
#include "solver/equation.hpp"
#include "solver/factor.hpp"
#include "solver/form.hpp"
#include "solver/source.hpp"

#include <Eigen/Core>

#include <memory>
#include <optional>
#include <span>
#include <vector>

namespace solver
{

/// @brief Sources of a scene on a space: one a winding at 1 A, then the background if there is one.
std::vector<Source> sources(const Space& space, const mesh::Layout& layout, int windings,
                            std::optional<double> background);

/// @brief Element matrices of both forms with coefficient 1: triangles, then exteriors.
struct UnitMatrices
{
  std::vector<Eigen::MatrixXd> over_r;  ///< Of the flux function.
  std::vector<Eigen::MatrixXd> times_r; ///< Of the potential.
};
UnitMatrices unit_matrices(const Space& space);

/// @brief The same, inner functions eliminated.
struct UnitElements
{
  std::vector<Condensed<double>> over_r, times_r;
};
/// @param before  A space of the same order with its elements, or null: what both have is not
/// worked
///                out again.
UnitElements unit_elements(const Space& space, int threads, const Space* before = nullptr,
                           const UnitElements* known = nullptr);

/// @brief What a family of solutions on one space shares.
struct Shared
{
  const Space& space;
  const mesh::Layout& layout;
  std::span<const Source> sources;
  std::shared_ptr<const UnitElements> unit;
};

struct Sides
{
  Eigen::MatrixXd flux;      ///< Flux function psi = r A_phi, one column a source [Wb / 2 pi].
  Eigen::MatrixXd potential; ///< Continuous part of the scalar potential [A].
  Eigen::MatrixXd flux_load; ///< flux_load() of each source.
  int unknowns = 0;          ///< Of both systems.
  double assemble = 0.0;     ///< Wall-clock seconds.
  double factor = 0.0;
};

/// @brief Factors of the two equations: ordered once for all permeabilities on one mesh.
struct SideFactors
{
  Factor flux, potential;
};

/// @brief Solves both equations for one permeability a region.
/// @param factors  Of any mesh and permeabilities, or fresh; here those of this mesh.
/// @throws std::runtime_error when a factorisation fails.
Sides both_sides(const Shared& shared, std::span<const double> permeability, int threads,
                 SideFactors& factors);

} // namespace solver
