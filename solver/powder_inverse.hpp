// Mixing rules read backwards: the packing, or the particle, that a measured powder speaks for.
#pragma once

#include "solver/powder.hpp"

#include <complex>
#include <limits>
#include <optional>

namespace solver
{

/// @brief What a rule read backwards gives, nothing where no such powder exists, and the least and
///        the most that real powders of the given particle (or packing) show by that rule.
struct Unmixed
{
  std::optional<std::complex<double>> value; ///< A packing is real.
  double least = 0.0;
  double most = std::numeric_limits<double>::infinity();
};

/// @brief Packing at which particles of `particle` make a powder of `effective`, both real and > 0.
///
/// Every rule rises (for particles above 1) from 1 at packing 0 to the particle's own at 1, so a
/// packing exists exactly where `effective` lies between the two, and is the only one.
Unmixed packing_for(double effective, double particle, MixingRule rule);

/// @brief Particle that makes a powder of `effective` at a packing above 0, at most 1.
///
/// Real: exists where `effective` lies between what particles of endless and of vanishing
/// permeability give. With loss: where the only candidate is passive and gives `effective` back.
Unmixed particle_for(std::complex<double> effective, double packing, MixingRule rule);

/// @brief Interval no arrangement can leave; an end that is missing is infinite (or 0).
struct UnmixedRange
{
  double lower = 0.0;
  double upper = std::numeric_limits<double>::infinity();
};
/// @brief An interval for any (Wiener) and for any isotropic arrangement (Hashin-Shtrikman).
struct UnmixedBounds
{
  UnmixedRange wiener;
  UnmixedRange hashin_shtrikman;
};
/// @brief Packings that some arrangement allows; `effective` between 1 and `particle`, which is
///        not 1.
UnmixedBounds packing_bounds(double effective, double particle);
/// @brief Particles that some arrangement allows, on the same side of 1 as `effective`.
UnmixedBounds particle_bounds(double effective, double packing);

} // namespace solver
