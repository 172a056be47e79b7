// What lies inside a toroid's winding: bodies one in another, and the sections they fill.
#pragma once

#include "cases/axial.hpp"
#include "mesh/layout.hpp"

#include <optional>
#include <string>
#include <vector>

namespace cases
{

/// @brief The boundary a toroid is wound along: the part with its coating.
mesh::Outline wound_around(const mesh::Part& part);

/// @brief The part a toroid is wound around, and all parts inside its winding.
mesh::Scene toroid_core(const Toroid& toroid, const mesh::Scene& scene);

/// @brief A body's section, and the material it takes the place of; none for what is around all.
struct CoreSection
{
  mesh::Outline outline;
  std::string material;
  std::optional<std::string> in_place_of = std::nullopt;
};
/// @brief Sections of a core's layout, the one around all first.
std::vector<CoreSection> core_sections(const mesh::Layout& layout);

} // namespace cases
