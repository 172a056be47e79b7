// Mixing rules for particles with loss, mu = mu' - j mu'' (series convention, time factor e^(jwt)).
//
// The same laws as in powder.hpp. A law with several roots takes the one that joins the real one
// without a jump as the loss goes to zero; it lies between 1 and the particle's mu in argument.
#pragma once

#include "solver/powder.hpp"

#include <complex>

namespace solver
{

/// @brief Effective relative permeability of a powder whose particles have loss.
///
/// Its loss angle lies between 0 and the particle's, by every rule [each derivation in the source].
/// @param particle  mu' - j mu'': imaginary part <= 0, and above 0 on the real axis.
/// @param packing   0 to 1.
std::complex<double> effective_permeability(std::complex<double> particle, double packing,
                                            MixingRule rule);

/// @brief Whether a permeability is one a body without a source of power can have: mu'' >= 0, and
///        mu' > 0 where mu'' = 0.
bool passive(std::complex<double> permeability);

/// @brief Corners of the region a mixture of given packing must lie in: Wiener's two values and
///        Hashin and Shtrikman's two, for particles with loss.
///
/// With loss the bounds are no intervals. All mixtures lie in a lens between two arcs of circles
/// through both of Wiener's values, one of which would go on through 1, the other through the
/// particle's mu [Bergman 1980; Milton 1980].
struct ComplexBounds
{
  std::complex<double> wiener[2];           ///< In series, in parallel.
  std::complex<double> hashin_shtrikman[2]; ///< Grains in air, air in grains.
};
ComplexBounds powder_bounds(std::complex<double> particle, double packing);

} // namespace solver
