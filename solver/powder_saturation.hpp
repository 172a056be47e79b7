// A packed powder of particles that saturate: its curve from theirs by a mixing rule.
#pragma once

#include "solver/magnetisation.hpp"
#include "solver/powder.hpp"

namespace solver
{

/// @brief Curve of the mixture, as a table.
///
/// The rule holds for small changes about every working point, each particle magnetised evenly and
/// like all others: dB/dH = mu0 m(p), p the particle's own slope over mu0 and m the rule; and from
/// <B> = mu0 <H> + f mu0 (p - 1) <H>_particle the particle's field rises by
/// dH_particle / dH = (m - 1) / (f (p - 1)). Estimated: real grains differ and saturate unevenly.
/// @param packing  Above 0, at most 1.
Magnetisation powder_curve(const Magnetisation& particle, double packing, MixingRule rule);

} // namespace solver
