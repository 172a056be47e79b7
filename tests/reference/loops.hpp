// Circles and current sheets in air, exact: what the field solver is measured against.
//
// Independent of mesh/, solver/ and post/: closed forms over Boost.Math's elliptic integrals.
#pragma once

namespace reference
{

/// @brief Magnetic constant the check values use [H/m].
inline constexpr double mu0 = 1.25663706143591729539e-6;

/// @brief Mutual inductance [H] of coaxial circles of radii a, b at distance z [m].
///
/// mu0 sqrt(ab) [(2/k - k) K(k) - (2/k) E(k)], k^2 = 4ab / ((a+b)^2 + z^2) [Maxwell 1873, 701].
double coaxial_circles(double a, double b, double z);

/// @brief Inductance [H] of a cylindrical current sheet [Lorenz 1879; Nagaoka 1909].
double current_sheet(double radius, double length, double turns);

/// @brief How the current spreads over a round section.
enum class Spread
{
  even,   ///< Uniform density.
  inverse ///< ~ 1/distance from the axis: direct current in a solid ring.
};
/// @brief Inductance [H] of a ring of loop radius a and wire radius r [m], by quadrature.
///
/// Double integral of coaxial_circles() over the section, each inner one in polar coordinates
/// about the outer point, where the kernel is only logarithmic. Relative error below 2e-8.
double round_ring(double a, double r, Spread spread);

} // namespace reference
