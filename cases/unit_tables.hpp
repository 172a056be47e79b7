// The units a case may be written in, and what messages call them. Data only.
#pragma once

#include "cases/units.hpp"

#include <array>
#include <utility>

namespace cases
{

struct Definition
{
  const char* symbol;
  const char* meaning;
};

inline constexpr std::array<std::pair<const char*, double>, 11> prefixes = {
    {{"T", 1e12},
     {"G", 1e9},
     {"M", 1e6},
     {"k", 1e3},
     {"c", 1e-2},
     {"m", 1e-3},
     {"u", 1e-6},
     {"\u00b5", 1e-6}, // micro sign
     {"\u03bc", 1e-6}, // Greek letter mu
     {"n", 1e-9},
     {"p", 1e-12}}};

// "min" is a time, so that it is not read as a thousandth of an inch.
inline constexpr std::array<Definition, 23> definitions = {
    {{"g", "1e-3 kg"},        {"min", "60 s"},     {"Hz", "s-1"},      {"in", "0.0254 m"},
     {"inch", "in"},          {"inches", "in"},    {"ft", "0.3048 m"}, {"mil", "2.54e-5 m"},
     {"thou", "mil"},         {"T", "kg s-2 A-1"}, {"Gs", "1e-4 T"},   {"H", "T m2/A"},
     {"S", "A2 s3 kg-1 m-2"}, {"ohm", "S-1"},      {"Ohm", "ohm"},     {"\u03a9", "ohm"},
     {"\u2126", "ohm"},       {"V", "A ohm"},      {"W", "V A"},       {"degC", "K @ 273.15"},
     {"\u00b0C", "degC"},     {"l", "1e-3 m3"},    {"L", "l"}}};

struct Measure
{
  Kind kind;
  const char* unit;
  std::string_view noun;
  std::string_view list;
};

inline constexpr std::array<Measure, 19> measures = {
    {{Kind::length, "m", "a length", "um, mm, cm, m, mil or in"},
     {Kind::wire, "m", "a wire diameter", "mm, mil, in or AWG"},
     {Kind::frequency, "Hz", "a frequency", "Hz, kHz or MHz"},
     {Kind::current, "A", "a current", "uA, mA or A"},
     {Kind::flux_density, "T", "a flux density", "uT, mT or T"},
     {Kind::conductivity, "S/m", "a conductivity", "S/m or MS/m"},
     {Kind::density, "kg/m3", "a density", "g/cm3 or kg/m3"},
     {Kind::temperature, "K", "a temperature", "degC or K"},
     {Kind::per_kelvin, "K-1", "a temperature coefficient", "1/K"},
     {Kind::inductance, "H", "an inductance", "nH, uH, mH or H"},
     {Kind::resistance, "ohm", "a resistance", "mohm, ohm, kohm or Mohm"},
     {Kind::field_strength, "A/m", "a field strength", "A/m or kA/m"},
     {Kind::reluctivity, "m/H", "a reluctivity", "m/H"},
     {Kind::inverse_square_flux_density, "T-2", "an inverse square of flux density", "T-2"},
     {Kind::mass, "kg", "a mass", "mg, g or kg"},
     {Kind::volume, "m3", "a volume", "mm3, cm3, ml or l"},
     {Kind::thermal_conductivity, "W/m/K", "a thermal conductivity", "W/(m K)"},
     {Kind::heat_transfer, "W/m2/K", "a coefficient of heat transfer", "W/(m2 K)"},
     {Kind::number, "1", "a plain number", "no unit"}}};

struct Dimension
{
  const char* unit;
  std::string_view noun;
};

// Looked through in this order, so that a length is not taken for a wire.
inline constexpr std::array<Dimension, 19> dimensions = {
    {{"m", "a length"},
     {"m2", "an area"},
     {"m3", "a volume"},
     {"s", "a time"},
     {"Hz", "a frequency"},
     {"kg", "a mass"},
     {"A", "a current"},
     {"T", "a flux density"},
     {"S/m", "a conductivity"},
     {"kg/m3", "a density"},
     {"K", "a temperature"},
     {"K-1", "a temperature coefficient"},
     {"H", "an inductance"},
     {"ohm", "a resistance"},
     {"A/m", "a field strength"},
     {"ohm m", "a resistivity"},
     {"W", "a power"},
     {"W/m/K", "a thermal conductivity"},
     {"W/m2/K", "a coefficient of heat transfer"}}};

} // namespace cases
