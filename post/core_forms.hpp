// Closed and gapped cores as plain functions of numbers: core constants, effective permeability,
// fringing.
//
// SI units, no scene. Keys of the citations are resolved in DEVELOPERS.md.
#pragma once

#include <span>

namespace post
{

/// @brief A stretch of a core: mean path [m] and section [m^2].
struct CorePiece
{
  double length = 0.0;
  double area = 0.0;
};

/// @brief C1 = sum l/A [1/m], C2 = sum l/A^2 [1/m^3] and what follows from them [IEC 60205].
struct CoreConstants
{
  double C1 = 0.0;
  double C2 = 0.0;
  double length = 0.0; ///< le = C1^2/C2 [m].
  double area = 0.0;   ///< Ae = C1/C2 [m^2].
  double volume = 0.0; ///< Ve = C1^3/C2^2 [m^3].
};
CoreConstants core_constants(std::span<const CorePiece> pieces);
/// @brief A corner between limbs of widths p and h [m]: path pi (p + h)/8, the mean section
///        [IEC 60205].
CorePiece corner_piece(double p, double h, double area_p, double area_h);
/// @brief A toroid of rectangular section, sharp edges: C1 = 2 pi / (h ln(D/d)),
///        C2 = 4 pi (1/d - 1/D) / (h^2 ln^3(D/d)) [IEC 60205].
CoreConstants toroid_constants(double outer_diameter, double inner_diameter, double height);
/// @brief mu0 mu N^2 / C1 [H].
double core_inductance(const CoreConstants& core, double permeability, double turns);
/// @brief mu0 mu N^2 h ln(D/d) / 2 pi [H], exact for a toroid wound evenly.
double toroid_inductance(double outer_diameter, double inner_diameter, double height,
                         double permeability, double turns);

/// @brief mu_e = mu / (1 + mu g / (F le)): iron path le [m] in series with a gap g that carries F
///        times its section, F = 1 without fringing; textbook. mu_e refers to le.
double gapped_permeability(double permeability, double path, double gap, double fringing = 1.0);

/// @brief F = 1 + (g/sqrt(A)) ln(2G/g), G the length of the winding over the gap [McLyman 2004].
double mclyman_fringing(double gap, double area, double winding_length);
/// @brief F = (1 + g/D)^2, a round pole grown by half a gap all around; common practice, no source.
double grown_pole_fringing(double gap, double diameter);
/// @brief F = 1 + (4g/pi D)[1 + ln(pi h/2g)], h the poles' height beside the gap.
///
/// The plane corner's mu0 (2/pi)[1 + ln(pi h/4l)] per depth over a wall at l = g/2, two in series,
/// around a round pole [Balakrishnan, Joines & Wilson 1997].
double corner_fringing(double gap, double diameter, double height);
/// @brief F = 1 + (4g/D)[0.26 + ln(1 + 2h/g) / pi]: half a round path of mu0 0.26 per depth from
/// rim
///        to rim, half rings of thickness h beyond it, around a round pole [Roters 1941].
double roters_fringing(double gap, double diameter, double height);

} // namespace post
