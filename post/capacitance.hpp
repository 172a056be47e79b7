// Self-capacitance of windings drawn turn by turn, and the resonance it lets expect.
//
// Turns stand at potentials that rise evenly along the wire, each at the mean of its two ends;
// conducting parts float or are earthed, other windings float. A station of its own beside the
// magnetic field: its mesh, its bracket.
#pragma once

#include "post/result.hpp"
#include "solver/electric.hpp"

namespace post
{

/// @brief Turns as electrodes, then conducting bodies, those in contact as one; two cases a winding
///        drawn turn by turn: nothing earthed, then the first turn's end.
struct TurnElectrodes
{
  solver::ElectricProblem problem;
  std::vector<int> windings; ///< Whose cases they are, two each; index into the scene.
  std::string contact;       ///< What touches bare, in plain words; then there is no capacitance.
};
/// @param accuracy  Relative half-width asked of each capacitance.
TurnElectrodes turn_electrodes(const solver::Problem& problem, double accuracy);

/// @brief Adds `capacitance` or `no_capacitance` to every winding of the result.
/// @param result  Holds the inductances at rest, from which the resonances follow.
void add_capacitances(const solver::Problem& problem, Result& result);

} // namespace post
