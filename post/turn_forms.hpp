// Circles, rings and separate turns of round wire, bare or coated, as plain functions of numbers.
//
// SI units, no scene. Keys of the citations are resolved in DEVELOPERS.md.
#pragma once

#include <span>

namespace post
{

/// @brief M [H] of two coaxial circles of radii a, b at distance z [m] [Maxwell 1873, art. 701].
///
/// mu0 R K S, R^2 = (a + b)^2 + z^2, S = sum of 2^(n-1) c_n^2 over n >= 1 of the
/// arithmetic-geometric mean that gives K: Maxwell's (2/k - k) K - 2E/k without its cancellation.
double coaxial_circles(double a, double b, double z);

/// @brief L [H] of a loop of radius a of round wire of radius r [m], uniform current density.
///
/// mu0 a [(1 + r^2/8a^2) ln(8a/r) + r^2/24a^2 - 7/4] [Rayleigh & Niven 1881].
double ring_uniform(double a, double r);
/// @brief mu0 a [ln(8a/r) - 7/4], the same to lowest order [Kirchhoff 1864].
double ring_kirchhoff(double a, double r);
/// @brief mu0 a [ln(8a/r) - 2], current on the surface only: high frequency, thin wire
///        [Kirchhoff 1864].
double ring_skin(double a, double r);
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
/// @brief What round wires in a square array have more than their filled section, a turn and mu0 a:
///        ln(pitch/wire) + 0.1381 + 0.017 [Maxwell 1873, art. 693; Rosa 1907].
///
/// 0.1381 = ln(0.44705) + 1/4 + ln 2: the square's mean distance against the wire's. 0.017 stands
/// for neighbours in many layers.
double array_correction(double pitch, double wire);

/// @brief A layer around a straight wire, from `inner` to `outer` radius [m].
struct StraightLayer
{
  double permeability = 1.0;
  double inner = 0.0;
  double outer = 0.0;
};
/// @brief mu0 (mu - 1) ln(outer/inner) / 2 pi, added per metre of straight wire [H/m].
double coating_inductance(double permeability, double inner, double outer);
/// @brief The same of any number of layers, exact for a straight wire: they only add.
double coating_inductance(std::span<const StraightLayer> layers);
/// @brief L [H] of N turns through a bead of length h: mu0 mu N^2 h ln(b/a) / 2 pi [Snelling 1988].
double bead_inductance(const StraightLayer& bead, double length, double turns);

} // namespace post
