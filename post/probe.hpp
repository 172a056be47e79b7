// A point to read the field at.
#pragma once

#include "mesh/scene.hpp"

#include <string>

namespace post
{

/// @brief A point to read the field at [m].
struct ProbePoint
{
  std::string name;
  mesh::Point at;
};

} // namespace post
