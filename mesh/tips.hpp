// Where sloping lines meet the axis: in s = r^2 they leave it tangentially, so the mesh must not
// put a straight edge between slope and axis.
#pragma once

#include "mesh/skeleton.hpp"

namespace mesh
{

/// @brief Ties the slopes at each tip to the axis and to each other by short segments at an even
///        distance, so that one triangle alone lies in each tip, and marks the tips as touching.
void tie_tips(Skeleton& skeleton);

} // namespace mesh
