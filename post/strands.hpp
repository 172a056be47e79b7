// Loss of round strands in parallel, transposed so that each carries its share: skin effect of its
// own current, eddy currents of the field across it. Estimated: the strands do not shield the field
// they lie in.
#pragma once

namespace post
{

/// @brief One strand at a frequency, exact for an endless straight wire.
struct StrandLoss
{
  double skin = 1.0;      ///< R / R0 = Re[z J0(z) / (2 J1(z))], z = a sqrt(-j omega mu0 sigma).
  double proximity = 0.0; ///< P' sigma / H0^2 = 2 pi |Re[z J1(z) / J0(z)]|, H0 peak, P' mean.
};

/// @brief Both factors [NBS Circular 74; Ferreira 1994]; skin and proximity add, as the fields are
///        even and odd across the strand.
/// @param diameter      Of the bare strand [m].
/// @param conductivity  [S/m]
/// @param frequency     > 0 [Hz].
StrandLoss strand_loss(double diameter, double conductivity, double frequency);

} // namespace post
