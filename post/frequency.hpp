// What windings show over frequency: impedance with its disc, and where the loss arises.
#pragma once

#include "solver/problem.hpp"

#include <complex>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace post
{

/// @brief One winding driven alone at one frequency.
struct WindingImpedance
{
  std::string name;
  double resistance = 0.0;                             ///< Re Z, its own wire's included [ohm].
  double inductance = 0.0;                             ///< Im Z / omega [H]
  double disc = 0.0;                                   ///< Radius that holds the true Z [ohm].
  std::optional<double> wire_resistance;               ///< Dc, of fine wire, in `resistance`.
  std::vector<std::pair<std::string, double>> by_body; ///< Parts of `resistance` [ohm].
  double quality() const;                              ///< Im Z / Re Z; infinite without loss.
  double omega = 0.0;                                  ///< [1/s]
};

struct FrequencyResult
{
  double frequency = 0.0; ///< [Hz]
  std::vector<WindingImpedance> windings;
  std::vector<std::vector<std::complex<double>>> impedance; ///< Whole matrix, wires included [ohm].
  std::vector<std::vector<double>> disc;                    ///< Radii of its entries [ohm].
  double accuracy_met = 0.0;                                ///< Largest disc over |Z|.
  bool accuracy_reached = true;
  std::string limit; ///< Why it was not reached.
  int unknowns = 0;
};

/// @brief The problem at each of its frequencies; one mesh, refined at the highest, serves all.
/// @param threads  Frequencies solved at once; the numbers do not depend on it.
std::vector<FrequencyResult> over_frequency(const solver::Problem& problem, int threads);

/// @brief Columns of R, L, Q and disc of every winding, units in the heading (CSV).
std::string impedance_table(const std::vector<FrequencyResult>& results);

/// @brief Scattering parameters at 50 ohm, one port a winding, as a Touchstone 1.1 file.
/// @return The text, and the ending its name takes: ".s1p", ".s2p" ...
std::pair<std::string, std::string> touchstone(const std::vector<FrequencyResult>& results);

} // namespace post
