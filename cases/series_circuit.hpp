// A meter's inductance and loss, of either model, as the series circuit the solver speaks of.
#pragma once

#include "cases/reading.hpp"

namespace cases
{

/// @brief The two circuits a meter can take a coil for.
enum class Circuit
{
  series,
  parallel
};

/// @brief What a meter shows beside the inductance.
enum class Loss
{
  none,
  resistance,        ///< Of the same circuit [ohm].
  quality_factor,    ///< Q
  dissipation_factor ///< D = 1 / Q
};

struct MeterValue
{
  double value = 0.0;
  double half_width = 0.0;
};

struct AsRead
{
  double frequency = 0.0; ///< [Hz]
  Circuit circuit = Circuit::series;
  MeterValue inductance; ///< [H]
  Loss loss = Loss::none;
  MeterValue loss_value;
};

/// @brief The series circuit of the same impedance at that frequency.
///
/// With D = 1/Q = R_s / (omega L_s) = omega L_p / R_p: L_s = L_p / (1 + D^2), R_s = omega L_s D.
/// Half-widths are carried over to first order and added linearly, as for a worst case.
/// @param as_read  A parallel circuit has a loss; positive where a quotient needs it.
/// @param spread   Of both half-widths.
SeriesImpedance in_series(const AsRead& as_read, post::Spread spread = post::Spread::uniform,
                          double coverage_factor = 2.0);

} // namespace cases
