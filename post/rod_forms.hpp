// Rods, tubes and balls in a field along their axis: demagnetising factors as plain functions.
//
// SI units, no scene. `aspect` is length over diameter. Keys of the citations are resolved in
// DEVELOPERS.md.
#pragma once

#include <span>

namespace post
{

/// @brief Factor of a spheroid of length `aspect` times its diameter along its axis, exact,
///        0 < factor < 1 [Osborn 1945; Stoner 1945].
double spheroid_factor(double aspect);
/// @brief Magnetometric factor of a cylinder, weakly magnetic, fit [Sato & Ishii 1989].
double sato_ishii_factor(double aspect);
/// @brief 0.37 aspect^-1.44 for strongly magnetic rods of aspect 2 to 20 [Burhans 1979].
double burhans_factor(double aspect);
/// @brief 0.28/x - 0.0158 - 0.0915/mu + 0.00063 x/log10(mu), x the aspect, mu > 1: a fit to a
///        handbook's chart of ballistic factors [Rhea 1994]. Found quoted; may be negative.
double rhea_factor(double aspect, double permeability);
/// @brief Chart of mu = infinity: 0.0172, 0.00617, 0.00129, 0.00036 at aspect 10, 20, 50, 100,
///        straight between in logarithms [Bozorth & Chapin 1942].
double bozorth_factor(double aspect);

/// @brief A cylinder's two factors: over its middle plane, and over its volume.
struct CylinderFactors
{
  double ballistic = 0.0;
  double magnetometric = 0.0;
};
/// @brief Interpolated in a table of computed factors, aspect 0.1 to 100 (beyond: nearest).
///
/// The quantities of [Chen, Brug & Goldfarb 1991]; the values come from an integral equation of our
/// own, see rod_table.hpp. Monotone cubics [Fritsch & Carlson 1980] in ln(aspect) and log10(mu), in
/// 1/(mu - 1) above mu = 3001.
/// @param permeability  Relative, >= 1; infinity is allowed.
CylinderFactors cylinder_factors(double aspect, double permeability);

/// @brief mu / (1 + factor (mu - 1)).
double apparent_permeability(double permeability, double factor);

/// @brief B at the middle over B0 of a ball in a shell in a uniform field, exact.
///
/// 9 mu_c mu_s / [(mu_c + 2 mu_s)(mu_s + 2) + 2 (a/b)^3 (mu_c - mu_s)(mu_s - 1)], core c of radius
/// a, shell s of outer radius b: potential theory in three regions [Jackson 1999, sect. 5.12].
/// @param ratio  a/b.
double ball_in_shell(double core_permeability, double shell_permeability, double ratio);
/// @brief H0/H inside an endless tube across the field, S = [(mu+1)^2 - x^2 (mu-1)^2]/4mu, x = a/b
///        [Wills 1899].
double cross_tube_shielding(double permeability, double ratio);

} // namespace post
