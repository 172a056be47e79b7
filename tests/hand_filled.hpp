// A solved case filled in by hand: round numbers to test texts and documents against.
//
// No field was computed for it; the numbers only hang together (shares sum to 1, and so on).
#pragma once

#include "post/result.hpp"

namespace hand_filled
{

/// A rod that holds 3 % of the energy, bracket half-width 1e-3.
inline post::Result rod()
{
  post::Result result;
  result.title = "Rod";
  result.accuracy_met = 4.4e-4;
  post::WindingResult coil;
  coil.name = "coil";
  coil.turns = 100.0;
  coil.inductance = {450.0e-6, 449.8e-6, 450.2e-6};
  coil.air_inductance = {15.0e-6, 14.99e-6, 15.01e-6};
  coil.apparent_permeability = 30.0;
  coil.inductance_per_turn_squared = 45.0e-9;
  coil.shares = {{"core", 0.03}, {"air", 0.97}};
  result.windings = {coil};
  result.regions = {{"core", 700.0, 0.03, 1.7e-6, 0.012, true, {}},
                    {"air", 1.0, 0.97, 0.0, 0.009, false, {}}};
  result.formulas = {
      {"Rod with a demagnetising factor", 460.0e-6, "H", 0.0218, true, "for 2 < l/d", "[Test 1]"}};
  result.mesh = {900, 9000, 4, 3};
  result.seconds = {0.02, 0.01, 0.02, 0.01, 0.06};
  return result;
}

/// The same with a weakly magnetic tube that holds 75 % of the energy and 1.04 times the
/// inductance.
inline post::Result powder_tube()
{
  post::Result result = rod();
  result.title = "Powder tube";
  result.windings[0].inductance = {468.0e-6, 467.8e-6, 468.2e-6};
  result.windings[0].air_inductance = {93.6e-6, 93.55e-6, 93.65e-6};
  result.windings[0].apparent_permeability = 5.0;
  result.windings[0].shares = {{"core", 0.75}, {"air", 0.25}};
  result.regions[0] = {"core", 6.0, 0.75, 1.7e-5, 0.004, false, {}};
  result.regions[1].energy_share = 0.25;
  return result;
}

} // namespace hand_filled
