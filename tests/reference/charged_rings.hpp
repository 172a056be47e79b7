// Capacitances of charged bodies by answers from outside: rings by their integral equation, pairs
// of balls by images.
#pragma once

#include <Eigen/Core>

#include <vector>

namespace reference
{

/// @brief A conducting ring of round section about the axis.
struct ChargedRing
{
  double loop_radius = 0.0;
  double section_radius = 0.0;
  double z = 0.0;
};

/// @brief Maxwell's capacitance coefficients over the permittivity [m]: charge i at unit potential
///        of ring j, the others at zero.
///
/// Surface charge against the potential of charged circles, r' K / (pi D); `points` even nodes
/// round each section, the logarithm by its own weights [Kress 2014, section 12.3, from memory], so
/// that digits double with the points.
Eigen::MatrixXd ring_capacitances(const std::vector<ChargedRing>& rings, int points);

/// @brief The same of two equal balls [Smythe 1950, section 5.08, from memory; images].
Eigen::Matrix2d ball_capacitances(double radius, double distance);

} // namespace reference
