// Coils without a core as plain functions of numbers: current sheets and thick sections.
//
// SI units, no scene. post/formula_air_coil.cpp says for which case each is meant. Keys of the
// citations are resolved in DEVELOPERS.md.
#pragma once

namespace post
{

/// @brief A coil as one section: mean diameter and length [m], number of turns.
struct CoilShape
{
  double diameter = 0.0;
  double length = 0.0;
  double thickness = 0.0; ///< Radial [m].
  double turns = 0.0;
  double centre = 0.0; ///< Axial position of the middle [m].
};

/// @brief K in L = mu0 N^2 pi a^2 K / l of a current sheet, exact [Lorenz 1879; Nagaoka 1909].
/// @param ratio  Diameter over length, > 0; likewise below.
double sheet_coefficient(double ratio);
/// @brief K by two rational fits that meet at l = D, good to 3e-6 [Lundin 1985].
double lundin_coefficient(double ratio);
/// @brief K of a short sheet by its series to (l/a)^2 [Rayleigh & Niven 1881].
///
/// L = mu0 a N^2 [ln(8a/l) - 1/2 + (l^2/32a^2) (ln(8a/l) + 1/4)].
double short_sheet_coefficient(double ratio);
/// @brief K of a long sheet by its series, 1 - 4x/3pi + x^2/8 - x^4/64, x = D/l
///        [Webster 1905; Havelock 1908].
double long_sheet_coefficient(double ratio);
/// @brief K of any sheet, from L = mu0 a N^2 {ln(1 + pi a/l) + 1/[2.3 + 1.6 l/a + 0.44 (l/a)^2]}
///        [Wheeler 1982].
double wheeler_coefficient(double ratio);
/// @brief Inductance [H] of the coil's mean sheet with coefficient K.
double sheet_inductance(const CoilShape& coil, double coefficient);

/// @brief L [H] of a rectangular section of uniform current density, exact to 1e-8.
///
/// The mean of Maxwell's coaxial_circles() over both ends of all pairs of its points, taken by
/// Gauss rules in the sum of radii, and in both distances by panels graded to their common zero.
double thick_coil(const CoilShape& coil);
/// @brief The mean sheet less what mean distances say a thick section loses, mu0 a N^2 (ln R - ln l
///        + 3/2), R the mean distance of the rectangle, l e^(-3/2) of the sheet [Maxwell 1873].
double thick_sheet(const CoilShape& coil);
/// @brief mu0 a N^2 (ln(8a/R) - 2), R the mean distance of the section [Maxwell 1873, art. 692].
double thick_ring(const CoilShape& coil);
/// @brief L [H] of a square section b x b by Stefan's second-order series [Stefan 1884].
///
/// mu0 a N^2 {[1 + b^2/24a^2] ln(8a/d) - 0.848340 + 0.8162 b^2/16a^2}, d the diagonal; b the mean
/// side of one not quite square.
double square_coil(const CoilShape& coil);
/// @brief 1.6994e-6 a N^2, a coil of square section b and bore 2b [Brooks 1931].
double brooks_coil(const CoilShape& coil);
/// @brief 0.8 a^2 N^2 / (6a + 9l + 10c) microhenries, lengths in inches [Wheeler 1928].
double thick_wheeler(const CoilShape& coil);
/// @brief a^2 N^2 / (8a + 11c) microhenries in inches, a flat coil [Wheeler 1928].
double flat_wheeler(const CoilShape& coil);
/// @brief mu0 pi a^2 N^2 F' F'' / (l + c + R), R = a + c/2 [Brooks & Turner 1912].
///
/// F' = (10l + 12c + 2R) / (10l + 10c + 1.4R), F'' = log10(100 + 14R/(2l + 3c)) / 2.
double brooks_turner(const CoilShape& coil);

/// @brief Geometric mean distance [m] of a rectangle from itself [Maxwell 1873, art. 692].
double rectangle_mean_distance(double width, double height);

} // namespace post
