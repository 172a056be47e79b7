// A winding's impedance over frequency as a circuit of resistors and inductors, for circuit
// simulation.
//
// Foster's first form [Foster 1924]: R0 and L0 in series with cells, each a resistor beside an
// inductor. Every element is positive, so the circuit is passive; it says nothing beyond the fitted
// frequencies.
#pragma once

#include "post/frequency.hpp"

#include <complex>
#include <span>
#include <string>
#include <vector>

namespace post
{

/// @brief R beside L: a resistance that sets in above R / (2 pi L).
struct LadderCell
{
  double resistance = 0.0; ///< [ohm]
  double inductance = 0.0; ///< [H]
};

/// @brief Relative deviations over the fitted frequencies.
struct Deviation
{
  double largest = 0.0;
  double rms = 0.0;
};

struct Ladder
{
  std::string winding;
  double from = 0.0, to = 0.0;   ///< Frequencies fitted [Hz].
  double resistance = 0.0;       ///< R0 [ohm]
  double inductance = 0.0;       ///< L0 [H]
  std::vector<LadderCell> cells; ///< By rising corner.
  /// Of R, and of the inductance; relative to the disc where that is larger.
  Deviation of_resistance, of_inductance;
  bool inductance_rises = false; ///< Which no such circuit can follow.

  /// @brief R0 + j omega L0 + sum of j omega L R / (R + j omega L) [ohm].
  std::complex<double> impedance(double frequency) const;
};

/// @brief Measured or computed at one frequency.
struct LadderPoint
{
  double frequency = 0.0;         ///< > 0 [Hz]
  std::complex<double> impedance; ///< [ohm]
  double disc = 0.0;              ///< What is known of it no better [ohm].
};

/// @brief The ladder of fewest cells within 0.3 %, or within 1.25 times what more of them reach.
///
/// Nonnegative least squares over even corners, neighbours joined, then all elements at once by
/// Levenberg and Marquardt's method in their logarithms, cells taken away one by one.
/// @param points  At least two, ascending.
Ladder fitted_ladder(const std::string& winding, std::span<const LadderPoint> points);

/// @brief One for each of one_ports(); empty for fewer than two frequencies.
std::vector<Ladder> ladders(std::span<const FrequencyResult> results);

/// @brief An open netlist, one subcircuit of two ports a winding; names reduced to letters, digits
/// and underscores.
std::string netlist(std::span<const Ladder> ladders);

/// @brief The list of them as a document, SI, keys ending in their unit.
std::string json(std::span<const Ladder> ladders);

} // namespace post
