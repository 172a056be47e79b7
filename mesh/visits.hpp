// Which sides of a body a path visits; shared by relation() and the check of current sheets.
#pragma once

#include "mesh/outline.hpp"

namespace mesh
{

/// @brief Sides of a body on which stretches of a path lie; stretches on its boundary count as
/// none.
struct Visits
{
  bool inside = false;
  bool outside = false;
};

/// @brief Sides that the pieces of `path`, closed or not, visit of `body`.
Visits visits(const Outline& path, const Outline& body);

} // namespace mesh
