// A closely wound ring whose material saturates: H = N I / (2 pi r) in every section, exactly.
#pragma once

#include "mesh/outline.hpp"
#include "post/bias.hpp"
#include "solver/magnetisation.hpp"

namespace post
{

/// @brief Relative error of its integrals at most.
inline constexpr double toroid_quadrature = 1e-6;

/// @brief The winding at a current: linkage N int B(H) dr dz, its derivative, its coenergy.
struct ToroidAtBias
{
  double flux_linkage = 0.0;                 ///< [Wb]
  double incremental_inductance = 0.0;       ///< [H]
  double coenergy = 0.0;                     ///< [J]
  double stored_energy = 0.0;                ///< [J]
  double peak_flux_density = 0.0;            ///< At the smallest radius [T].
  double relative_error = toroid_quadrature; ///< Of all but that, at most.
};

/// @brief By Gauss panels between the curve's bends; the relative error is below toroid_quadrature.
ToroidAtBias toroid_at_bias(const mesh::Outline& section, double turns, double current,
                            const solver::Magnetisation& law);

} // namespace post
