// Carries the current of every triangle to the axis along a tree of triangles.
#pragma once

#include "mesh/layout.hpp"
#include "solver/space.hpp"

#include <Eigen/Core>

#include <span>
#include <vector>

namespace solver
{

/// @brief Offsets of T in each triangle for given ampere-turns a conductor.
///
/// T = tau - d(sum offset_i lambda_i), tau the section field; tangential traces match across every
/// edge, jump by the sheet's current on sheets, and vanish on the box: curl T = J in all of space.
/// @return One triple a triangle [A].
std::vector<Eigen::Vector3d> current_offsets(const Space& space, const mesh::Layout& layout,
                                             std::span<const double> ampere_turns);

/// @brief The same for eddy currents, given by the circulation of their own field along each local
///        edge of each triangle, counter-clockwise; no sheets [A].
std::vector<Eigen::Vector3cd> eddy_offsets(const Space& space,
                                           std::span<const Eigen::Vector3cd> circulation);

/// @brief The same for a flux function whose charges leave through the box: rooted there, at one
///        edge, so that what is not prescribed to leave elsewhere leaves by it.
/// @param step  Charge of a triangle as minus the sum, and what is prescribed on outer edges, along
///              each local edge, counter-clockwise.
std::vector<Eigen::Vector3d> flux_offsets(const Space& space,
                                          std::span<const Eigen::Vector3d> step);

} // namespace solver
