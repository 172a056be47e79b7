// Numbers with a guaranteed bracket: inductances, and the capacitance of a winding's turns.
#pragma once

#include <string>
#include <vector>

namespace post
{

/// @brief A value with its guaranteed bracket, lower <= true value <= upper; `value` lies midway.
struct Bounded
{
  double value = 0.0;
  double lower = 0.0;
  double upper = 0.0;
};

/// @brief Between a winding's ends, for a voltage that rises evenly along its turns [F].
struct SelfCapacitance
{
  Bounded floating;                ///< Nothing earthed: the winding as a whole has no charge.
  Bounded earthed;                 ///< The first turn's end at zero.
  double floating_resonance = 0.0; ///< With the inductance at rest, estimated [Hz].
  double earthed_resonance = 0.0;  ///< Likewise [Hz].
  bool accuracy_reached = true;    ///< Half-widths of both brackets as asked.
};

/// @brief Charges of conductors at 1 V each, all others at 0: q_i = sum C_ij V_j.
struct CapacitanceMatrix
{
  std::vector<std::string> electrodes;     ///< "coil 1", turns along the wire; bodies by name.
  std::vector<std::vector<double>> values; ///< [F]
  std::vector<std::vector<double>> radii;  ///< The true ones lie within [F].
};

} // namespace post
