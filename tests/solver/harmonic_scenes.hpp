// Random but reproducible scenes with lossy, conducting bodies and a frequency each.
#pragma once

#include "solver/harmonic.hpp"

namespace harmonic_scenes
{

/// @brief A scene of one of six kinds (rod, tube, shield, coated rod, solid turns, both).
///
/// mu' 1 to 1000, loss angles 0 to 80 degrees, conductivities 0.01 to 6e7 S/m, 100 Hz to 1 MHz;
/// a quarter of the materials without loss, a quarter without conductivity.
solver::Problem problem(unsigned seed);

/// @brief Loss of all regions and solid turns, one winding driven [W at 1 A].
double loss(const solver::Harmonic& solved, Eigen::Index driven);

} // namespace harmonic_scenes
