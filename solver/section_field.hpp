// A closed-form field inside each conductor section whose curl is exactly its current density.
//
// It is what makes the upper bound exact: rectangular sections H_z = J (r_outer - r); round ones
// J/2 times the rotated radius vector, whose trace is even along the circle; a solid turn adds a
// field of zero trace that turns the even density into C/r.
#pragma once

#include "mesh/layout.hpp"

#include <Eigen/Core>

namespace solver
{

/// @brief Current density of a section carrying `ampere_turns` [A] at (s, z) inside it [A/m^2].
double current_density(const mesh::Conductor& conductor, double ampere_turns, double s, double z);

/// @brief Particular field of the section as a form: H_r dr + H_z dz = h_s ds + h_z dz.
/// @return (h_s, h_z) [A/m^2, A/m]; curl H equals current_density exactly, and the trace along the
///         section's boundary is linear in the boundary's own parameter.
Eigen::Vector2d section_field(const mesh::Conductor& conductor, double ampere_turns, double s,
                              double z);

} // namespace solver
