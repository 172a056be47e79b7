// Closed forms and published fits as plain functions of numbers: no scene, no units but SI.
//
// post/formula_*.cpp choose among them for a case and say where each holds. Keys of the
// citations are resolved in DEVELOPERS.md.
#pragma once

#include "mesh/scene.hpp"

namespace post
{

/// @brief Thin cylindrical coil: mean diameter and length [m], number of turns.
struct CoilShape
{
  double diameter = 0.0;
  double length = 0.0;
  double thickness = 0.0; ///< Radial [m].
  double turns = 0.0;
  double centre = 0.0; ///< Axial position of the middle [m].
};

/// @brief K in L = mu0 N^2 pi a^2 K / l of a current sheet, exact [Lorenz 1879; Nagaoka 1909].
/// @param ratio  Diameter over length, > 0.
double sheet_coefficient(double ratio);
/// @brief K by two rational fits that meet at l = D, good to 3e-6 [Lundin 1985].
double lundin_coefficient(double ratio);
/// @brief Inductance [H] of the coil's mean sheet with coefficient K.
double sheet_inductance(const CoilShape& coil, double coefficient);

/// @brief M [H] of two coaxial circles of radii a, b at distance z [m] [Maxwell 1873, art. 701].
double coaxial_circles(double a, double b, double z);

/// @brief L [H] of a loop of radius a of round wire of radius r [m], uniform current density.
///
/// mu0 a [(1 + r^2/8a^2) ln(8a/r) + r^2/24a^2 - 7/4] [Rayleigh & Niven 1881].
double ring_uniform(double a, double r);
/// @brief mu0 a [ln(8a/r) - 7/4], the same to lowest order [Kirchhoff 1864].
double ring_kirchhoff(double a, double r);
/// @brief L [H] of a solid loop carrying direct current, density ~ 1/distance from the axis.
///
/// mu0 a [(1 - r^2/8a^2) ln(8a/r) + 5 r^2/24a^2 - 7/4], rest O(r^4/a^4 ln). Derived here: the
/// density to second order in x/a, x = distance from the axis - a, is (1 - x/a + x^2/a^2 -
/// r^2/4a^2) / (pi r^2). Set in the double integral over Maxwell's M(p, p') = mu0 a [L - 2 +
/// (x + x')(L - 1)/2a], L = ln(8a/|p - p'|), its excess over the uniform one is
/// mu0 r^2/a [-(ln(8a/r) - 1/2)/4 + 1/12 - 1/24].
double ring_solid(double a, double r);

/// @brief B(N) of Rosa's correction mu0 a N (A + B) for turns of round wire [Rosa 1907].
///
/// -3/2 - N ln N + 3N/2 + (2/N) sum_n (N - n) ln n: self and mutual logarithms of N filaments
/// against those of their sheet. B(1) = 0, B(infinity) = 0.3379.
double rosa_mutual(int turns);

/// @brief Geometric mean distance [m] of a rectangle from itself [Maxwell 1873, art. 692].
double rectangle_mean_distance(double width, double height);

/// @brief Factor of a spheroid of length `aspect` times its diameter along its axis, exact,
///        0 < factor < 1 [Osborn 1945; Stoner 1945].
double spheroid_factor(double aspect);
/// @brief Magnetometric factor of a cylinder, weakly magnetic, fit [Sato & Ishii 1989].
double sato_ishii_factor(double aspect);
/// @brief 0.37 aspect^-1.44 for strongly magnetic rods of aspect 2 to 20 [Burhans 1979].
double burhans_factor(double aspect);
/// @brief mu / (1 + factor (mu - 1)).
double apparent_permeability(double permeability, double factor);

/// @brief mu0 (mu - 1) ln(outer/inner) / 2 pi, added per metre of straight wire [H/m].
double coating_inductance(double permeability, double inner, double outer);

} // namespace post
