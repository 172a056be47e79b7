// Quantities as people write them ("8 mm", "10 kHz", "24 AWG") into SI numbers.
//
// Used by the case-file reader and the command line. What cannot be read comes back as a sentence
// without its subject, so that the caller puts the key in front.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>

namespace cases
{

enum class Kind
{
  length,                      ///< [m]
  wire,                        ///< A wire diameter, as a length or a gauge ("24 AWG") [m].
  frequency,                   ///< [Hz]
  current,                     ///< [A]
  flux_density,                ///< [T]
  conductivity,                ///< [S/m]
  density,                     ///< [kg/m^3]
  temperature,                 ///< [K]
  per_kelvin,                  ///< [1/K]
  inductance,                  ///< [H]
  resistance,                  ///< [ohm]
  field_strength,              ///< [A/m]
  reluctivity,                 ///< [m/H]
  inverse_square_flux_density, ///< [1/T^2]
  mass,                        ///< [kg]
  volume,                      ///< [m^3]
  thermal_conductivity,        ///< [W/(m K)]
  heat_transfer,               ///< [W/(m^2 K)]
  number                       ///< A pure number, written bare.
};

/// @brief Why a text is no quantity: "needs a unit, got "3"", and what to write instead.
struct Misread
{
  std::string what;
  std::string cure;
};

/// @brief The quantity in SI units, or why it cannot be read.
///
/// One number with a decimal point, then one unit; the space between them is free. The micro sign
/// may be u, U+00B5 or U+03BC. Not a number and infinity are misread, other values are not judged.
std::variant<double, Misread> quantity(std::string_view text, Kind kind);

/// @brief The sentence for a number written without the unit it needs.
/// @param got  The value as written, quotes included where it has them.
Misread bare_number(std::string_view got, std::string_view number, Kind kind);

/// @brief What the kind is called in a sentence ("a length").
std::string_view noun(Kind kind);
/// @brief The units people write for the kind, as a list in words ("mm, cm or in").
std::string_view unit_list(Kind kind);

/// @brief Bare diameter of a wire of that gauge [m]: 0.005 in * 92^((36-n)/39) [ASTM B258].
/// @param gauge  0 for 1/0, -1 for 2/0, down to -3 for 4/0.
double wire_gauge_diameter(int gauge);
/// @brief The gauge a text names ("24 AWG", "AWG 24", "4/0 AWG"), nothing where it names none.
std::optional<int> wire_gauge(std::string_view text);

/// @brief How far a unit's text goes towards a kind.
enum class UnitStatus
{
  fits,
  unknown,   ///< No unit, or no single one.
  other_kind ///< A unit, but not of that kind.
};
struct UnitValue
{
  UnitStatus status = UnitStatus::unknown;
  double si = 0.0; ///< Where it fits.
};
/// @brief `value` times the unit in SI units (degrees Celsius shifted to kelvin).
UnitValue in_si(double value, std::string_view unit, Kind kind);
/// @brief What the unit measures, in words ("a frequency"); empty where that has no name here.
std::string_view measured_by(std::string_view unit);

} // namespace cases
