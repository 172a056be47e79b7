// Where a saturating field is strongest.
#pragma once

#include "solver/saturation.hpp"

namespace solver
{

struct Peak
{
  double flux_density = 0.0; ///< Largest |B| at the points looked at [T].
  bool at_corner = false;    ///< Beside a sharp edge, where a finer mesh may find more.
};

/// @brief One a region of the layout, from the flux side; the background counts.
std::vector<Peak> peaks(const Saturated& s);

} // namespace solver
