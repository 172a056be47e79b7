// Currents along the axis: straight wires in any number of coatings, and toroids. Exact, but for
// toroids' cores that conduct and are no plain tubes (solver/toroid).
//
// Around an endless wire the flux closes in circles, whatever the layers: one ordinary differential
// equation in r, -1/r (r E')' + j omega mu sigma E = 0, solved to round-off. A toroid's flux closes
// inside its winding: H = N I / (2 pi r) in every section.
#pragma once

#include "mesh/outline.hpp"

#include <complex>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace post
{

/// @brief One layer of a straight wire, from the last one's surface (or the axis) outwards.
struct WireLayer
{
  double outer_radius = 0.0;                   ///< [m]
  std::complex<double> permeability{1.0, 0.0}; ///< Relative, mu' - j mu''.
  double conductivity = 0.0;                   ///< [S/m]
};

/// @brief Impedance of a piece of wire, of the flux inside conductor and coatings.
struct WireResult
{
  std::string name;
  double resistance = 0.0;         ///< [ohm/m]
  double inductance = 0.0;         ///< [H/m]
  std::optional<double> length;    ///< Of the piece [m].
  std::vector<double> layer_gains; ///< Part of `inductance` of each layer, at rest only [H/m].
};

/// @brief Resistance and inductance per metre at rest: even current, mu0 mu ln(b/a) / 2 pi a layer.
/// @throws std::invalid_argument for layers that do not grow, or none that conducts.
WireResult wire_at_rest(const std::vector<WireLayer>& layers);
/// @brief The same at a frequency > 0 [Hz]: skin effect in every layer that conducts.
WireResult wire_at(const std::vector<WireLayer>& layers, double frequency);

/// @brief int 1/r dr dz over a section [m]: L = mu0 mu N^2 / (2 pi) times it.
double toroid_integral(const mesh::Outline& section);

/// @brief The same for a rectangular section of that height that conducts, its eddy currents
/// counted: int i / (i_0 r) dr dz, i = r H_phi = i_0 all round (derived in conducting_toroid.cpp).
///
/// A sine series over the height; each term's equation in r is solved to round-off.
/// @param gamma2  j omega mu0 mu sigma [1/m^2]; 0: h ln(b/a).
std::complex<double> conducting_toroid_integral(double inner_radius, double outer_radius,
                                                double height, std::complex<double> gamma2);

struct ToroidResult
{
  std::string name;
  double turns = 0.0;
  double resistance = 0.0; ///< Of the core's loss [ohm].
  double inductance = 0.0; ///< [H]
  double disc = 0.0;       ///< Radius that holds the true Z [ohm]; 0 where it is exact.
  std::vector<std::pair<std::string, double>> by_body = {}; ///< Parts of `resistance`; field only.
  double accuracy_met = 0.0;                                ///< disc over |Z|
  bool accuracy_reached = true;
  std::string limit = {}; ///< Why it was not reached.
};

/// @brief A closely wound ring; frequency 0: at rest.
/// @param section_integral  toroid_integral(), or the conducting one at that frequency.
ToroidResult toroid(const std::string& name, double turns, std::complex<double> section_integral,
                    std::complex<double> permeability, double frequency);

} // namespace post
