// When refining has to stop short of the asked accuracy, and what is never promised.
#pragma once

#include "mesh/mesh.hpp"

#include <string>
#include <vector>

namespace solver
{

/// @brief Relative round-off of the sums in a bracket: the identity upper - lower = gap holds to a
///        tenth of it.
inline constexpr double round_off = 1e-13;

/// @brief Bound of the relative change of L that misplaced arcs can make.
///
/// Arcs are followed to 4e-16 of their distance R from the axis; a map of space that moves them
/// back changes lengths by e = 4e-16 R / l at most, l the lesser of the radius and half the
/// clearance, and inductances by 9 e [DEVELOPERS.md, geometry]. The shortest mesh edge stands for
/// the clearance.
double curve_error(const mesh::Mesh& mesh);

/// @brief Why to stop short of the asked accuracy, or nothing while refinement still pays.
/// @param widths  Half-widths of the bracket on every mesh so far.
std::string floor_met(int refinements, int unknowns, const std::vector<double>& widths);

} // namespace solver
