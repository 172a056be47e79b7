// Static fields of charged circles, current circles and current sheets about the axis.
//
// Lengths in any one unit; closed forms over Boost.Math's Carlson integrals.
#pragma once

namespace reference
{

/// @brief Radial and axial component.
struct Field
{
  double r = 0.0;
  double z = 0.0;
};

/// @brief A target point seen from a circle about the axis.
///
/// The differences are given apart, so that they keep their digits close to an edge.
struct Sight
{
  double source = 0.0;  ///< Radius of the circle.
  double target = 0.0;  ///< Radius of the point, not zero.
  double outward = 0.0; ///< target - source.
  double upward = 0.0;  ///< Height of the point above the circle.
};

/// @brief -grad of int rho dl / (4 pi R) of a circle with unit line density of charge.
///
/// With D^2 = (r + r')^2 + z^2, d^2 = (r - r')^2 + z^2 and K, E of 1 - k^2 = d^2 / D^2:
/// F_r = r'/(2 pi r D) [K + (r^2 - r'^2 - z^2) E / d^2], F_z = r' z E / (pi D d^2); derivable from
/// the potential r' K / (pi D).
Field charged_circle(const Sight& sight);

/// @brief H of a circle that carries the unit current.
///
/// H_z = [K + (r'^2 - r^2 - z^2) E / d^2] / (2 pi D),
/// H_r = z / (2 pi r D) [-K + (r^2 + r'^2 + z^2) E / d^2] [Smythe 1950, from memory].
Field current_circle(const Sight& sight);

/// @brief H per current per length of a sheet about the axis, off the sheet.
///
/// [Derby & Olbert 2010] eqs. 2 to 6, from memory; the test holds it against current_circle().
Field sheet_field(double radius, double z_low, double z_high, double r, double z);

} // namespace reference
