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
  std::vector<int> windings;      ///< Whose cases they are, two each; index into the scene.
  std::vector<std::string> names; ///< Of electrodes: "coil 3", the third turn along the wire.
  std::string contact; ///< What touches bare, in plain words; then there is no capacitance.
};
/// @param accuracy  Relative half-width asked of each capacitance.
TurnElectrodes turn_electrodes(const solver::Problem& problem, double accuracy);

/// @brief More electrodes than this get no matrix: its size, and a solution for each.
inline constexpr std::size_t most_electrodes = 100;

/// @brief The matrix of all electrodes, their mesh refined from the one given.
/// @param coarse  A mesh of theirs.
CapacitanceMatrix capacitance_matrix(const TurnElectrodes& electrodes, const mesh::Mesh& coarse);
/// @brief It as CSV: a row an electrode, then the radii likewise.
std::string capacitance_table(const CapacitanceMatrix& matrix);

/// @brief Adds `capacitance` or `no_capacitance` to every winding of the result, and the matrix.
/// @param result  Holds the inductances at rest, from which the resonances follow.
void add_capacitances(const solver::Problem& problem, Result& result);

} // namespace post
