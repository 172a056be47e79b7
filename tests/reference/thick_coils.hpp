// Coils of rectangular section and uniform current density in air, by their Bessel integral.
#pragma once

namespace reference
{

/// @brief Section r_inner < r_outer, z_low < z_high [m] with its turns.
struct Section
{
  double r_inner = 0.0;
  double r_outer = 0.0;
  double z_low = 0.0;
  double z_high = 0.0;
  double turns = 1.0;
};

/// @brief Mutual inductance [H] of two sections; they may overlap or be the same.
///
/// @f[ M = \frac{\pi\mu_0 N_1 N_2}{c_1 c_2 l_1 l_2} \int_0^\infty
///     \frac{P_1 P_2}{k^4} Z \, dk, \quad P = \int_{k r_i}^{k r_o} x J_1(x) dx, \quad
///     Z = \int\!\!\int e^{-k|z-z'|} dz\,dz' @f]
///
/// [Lyle 1914; Conway 2007]. Gauss panels of at most half a period up to k = 4000 / r_outer; the
/// mean of what lies beyond is added, as it still counts in the ninth digit.
double thick_mutual(const Section& first, const Section& second);
/// @brief thick_mutual() of a section with itself [H].
double thick_self(const Section& section);

/// @brief The same self inductance [H] by another road: coaxial_circles() over the section twice.
///
/// Inner integral in triangles about the outer point, where the kernel is only logarithmic.
/// Relative error below 1e-10 for square sections, 1e-9 for ones 25 times as long as thick.
double thick_self_direct(const Section& section);

} // namespace reference
