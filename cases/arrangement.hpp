// Whether a changed scene is still the same design: nothing clashes, nothing is swallowed.
#pragma once

#include "mesh/scene.hpp"

namespace cases
{

/// @brief Whether the changed scene has no clash, and parts, their coatings and conductors lie to
///        each other as before: a core that has grown around its winding is another design.
bool keeps_arrangement(const mesh::Scene& before, const mesh::Scene& after);

} // namespace cases
