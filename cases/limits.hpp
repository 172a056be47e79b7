// What each number of a case may be: its kind, its bounds, and the words that say so.
//
// The bounds keep slips of a factor of a thousand out and leave every device in; they are common
// sense, no source. From 0.1 um to 10 km one mesh still holds with doubles.
#pragma once

#include "cases/units.hpp"

namespace cases
{

struct Wanted
{
  Kind kind = Kind::number;
  double low = 0.0;
  double high = 0.0;
  const char* bounds = "";  ///< "lengths run from 0.1 um to 10 km"
  const char* example = ""; ///< As written in a file, quotes included.
  bool whole = false;
};

inline constexpr double longest = 1e4;   // [m]
inline constexpr double shortest = 1e-7; // [m]

inline constexpr double newest_format = 1.0; ///< Of case files; a later one may mean other things.
inline constexpr Wanted case_format{
    Kind::number, 1.0, 1e6, "it numbers the format the case is written in, so far 1", "1", true};
inline constexpr Wanted extent_of_body{Kind::length, shortest, longest,
                                       "lengths run from 0.1 um to 10 km", "\"10 mm\""};
inline constexpr Wanted coating_thickness{
    Kind::length, shortest, longest,
    "thicknesses run from 0.1 um to 10 km; for none, leave the coating out", "\"0.5 mm\""};
inline constexpr Wanted gap_or_thickness{Kind::length, 0.0, longest,
                                         "give 0 mm or more, at most 10 km", "\"0.5 mm\""};
inline constexpr Wanted radius_of_point{Kind::length, 0.0, longest,
                                        "r is the distance from the axis, 0 to 10 km", "\"4 mm\""};
inline constexpr Wanted axial_position{Kind::length, -longest, longest,
                                       "positions run from -10 km to 10 km", "\"0 mm\""};
inline constexpr Wanted wire_thickness{Kind::wire, shortest, 0.1, "wires run from 0.1 um to 100 mm",
                                       "\"0.5 mm\""};
inline constexpr Wanted current{Kind::current, -1e9, 1e9, "currents run up to 1e9 A either way",
                                "\"1 A\""};
inline constexpr Wanted flux_density{Kind::flux_density, -1e3, 1e3,
                                     "flux densities run up to 1000 T either way", "\"1 mT\""};
inline constexpr Wanted conductivity{Kind::conductivity, 0.0, 1e10,
                                     "conductivities run from 0 to 1e10 S/m", "\"5.8e7 S/m\""};
inline constexpr Wanted temperature{Kind::temperature, 123.15, 1273.15,
                                    "temperatures run from -150 to 1000 degC", "\"60 degC\""};
inline constexpr Wanted temperature_coefficient{
    Kind::per_kelvin, -0.1, 0.1,
    "it is how much of itself the resistivity rises a kelvin, from -0.1 to 0.1 1/K",
    "\"0.0039 1/K\""};
inline constexpr Wanted thermal_conductivity{
    Kind::thermal_conductivity, 1e-3, 1e4, "thermal conductivities run from 0.001 to 10000 W/(m K)",
    "\"4 W/(m K)\""};
inline constexpr Wanted heat_transfer{Kind::heat_transfer, 0.0, 1e6,
                                      "it runs from 0 to 1e6 W/(m2 K); still air takes about 5 to "
                                      "10",
                                      "\"10 W/(m2 K)\""};
inline constexpr Wanted emissivity{Kind::number, 0.0, 1.0,
                                   "it is the share of a black surface's radiation, 0 to 1", "0.9"};
inline constexpr Wanted line_resistance{Kind::resistance, 1e-3, 1e6,
                                        "lines run from 1 mohm to 1 Mohm", "\"50 ohm\""};
inline constexpr Wanted density{Kind::density, 1e-3, 1e5,
                                "densities run from 0.001 kg/m3 to 100 g/cm3", "\"4.8 g/cm3\""};
inline constexpr Wanted relative_permeability{Kind::number, 1e-6, 1e9,
                                              "give the ratio to vacuum, from 1e-6 to 1e9", "700"};
inline constexpr Wanted imaginary_permeability{
    Kind::number, 0.0, 1e9, "it is mu'' of mu' - j mu'', 0 for no loss, to 1e9", "20"};
inline constexpr Wanted relative_permittivity{Kind::number, 1.0, 1e7,
                                              "give the ratio to vacuum, from 1 to 1e7", "3.5"};
inline constexpr Wanted packing_fraction{
    Kind::number, 1e-12, 1.0, "packing is the filled share of the volume, above 0 and at most 1",
    "0.55"};
inline constexpr Wanted plain_turns{Kind::number, 1e-6, 1e7, "turns run from 1e-6 to 1e7", "100"};
inline constexpr Wanted drawn_turns{
    Kind::number,
    1.0,
    5000.0,
    "turns of wire are drawn one by one, 1 to 5000 whole ones; for more, give "
    "outer_diameter and length instead of wire",
    "100",
    true};
inline constexpr Wanted layer_count{Kind::number, 1.0, 5000.0, "layers run from 1 to 5000",
                                    "1",          true};
inline constexpr Wanted strand_count{
    Kind::number, 1.0, 1e5, "strands of one turn run from 1 to 1e5", "20", true};
inline constexpr Wanted relative_accuracy{Kind::number, 1e-9, 0.5,
                                          "it is the relative half-width of the bracket, from "
                                          "1e-9 to 0.5",
                                          "1e-3"};
inline constexpr Wanted point_count{Kind::number, 2.0, 10000.0, "a line has 2 to 10000 points",
                                    "21",         true};

} // namespace cases
