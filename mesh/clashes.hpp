// Which bodies of a scene may not be where they are; asked before layout().
#pragma once

#include "mesh/scene.hpp"

#include <string>
#include <vector>

namespace mesh
{

/// @brief A pair of bodies that partly overlap or coincide, by name.
struct Clash
{
  std::string first;
  std::string second;
};
/// @brief Every forbidden pair of the scene: partial overlaps, the same body twice, a winding
///        cut by a part or with a part in it, two windings in one place, turns closer than they are
///        thick (a pair of equal names). Nested and touching bodies are no clash.
std::vector<Clash> clashes(const Scene& scene);

} // namespace mesh
