// Bodies inside the outline that the winding follows, nested by area.
#include "cases/toroid_core.hpp"

#include <algorithm>
#include <functional>

namespace cases
{

mesh::Outline wound_around(const mesh::Part& part)
{
  const mesh::Outline own = mesh::outline(part);
  return part.coating ? mesh::offset(own, part.coating->thickness).front() : own;
}

mesh::Scene toroid_core(const Toroid& toroid, const mesh::Scene& scene)
{
  const auto core = std::ranges::find(scene.parts, toroid.around, &mesh::Part::name);
  const mesh::Outline around = wound_around(*core);
  mesh::Scene made;
  for (const mesh::Part& part : scene.parts)
  {
    if (part.name == core->name ||
        mesh::relation(mesh::outline(part), around) == mesh::Relation::inside)
    {
      made.parts.push_back(part);
    }
  }
  return made;
}

std::vector<CoreSection> core_sections(const mesh::Layout& layout)
{
  std::vector<CoreSection> list;
  for (const mesh::Region& region : layout.regions)
  {
    for (const mesh::Outline& outline : region.outlines)
    {
      list.push_back({outline, region.material, std::nullopt});
    }
  }
  std::ranges::sort(list, std::greater(),
                    [](const CoreSection& one) { return mesh::area(one.outline); });
  for (std::size_t i = 1; i < list.size(); ++i)
  {
    for (std::size_t k = i; k-- > 0 && !list[i].in_place_of;)
    {
      if (mesh::relation(list[i].outline, list[k].outline) == mesh::Relation::inside)
      {
        list[i].in_place_of = list[k].material;
      }
    }
  }
  return list;
}

} // namespace cases
