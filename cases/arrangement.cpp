// Relations of every pair of bodies, before and after.
#include "cases/arrangement.hpp"

#include "mesh/layout.hpp"

#include <algorithm>

namespace cases
{

namespace
{

/// Section of a conductor as an outline; a sheet gets a hair of thickness.
mesh::Outline section(const mesh::Conductor& conductor)
{
  constexpr double hair = 1e-9;
  const auto* sheet = std::get_if<mesh::SheetSection>(&conductor.section);
  return sheet ? mesh::rectangle(sheet->r * (1.0 - hair), sheet->r * (1.0 + hair), sheet->z_low,
                                 sheet->z_high)
               : mesh::outline(conductor);
}

/// Whether the region is a coating on turns, which moves with them.
bool on_turns(const mesh::Scene& scene, const std::string& region)
{
  return std::any_of(scene.windings.begin(), scene.windings.end(),
                     [&region](const mesh::Winding& winding)
                     { return winding.name + ".coating" == region; });
}

/// How parts, their coatings and conductors lie to each other; a change that alters it makes
/// another design of the case.
std::vector<mesh::Relation> arrangement(const mesh::Scene& scene)
{
  const mesh::Layout layout = mesh::layout(scene);
  std::vector<mesh::Outline> bodies;
  for (std::size_t i = 1; i < layout.regions.size(); ++i)
  {
    const mesh::Region& region = layout.regions[i];
    if (!on_turns(scene, region.name))
    {
      bodies.insert(bodies.end(), region.outlines.begin(), region.outlines.end());
    }
  }
  const std::size_t parts = bodies.size();
  for (const mesh::Conductor& conductor : layout.conductors)
  {
    bodies.push_back(section(conductor));
  }
  std::vector<mesh::Relation> relations;
  for (std::size_t i = 0; i < parts; ++i)
  {
    for (std::size_t j = i + 1; j < bodies.size(); ++j)
    {
      relations.push_back(mesh::relation(bodies[i], bodies[j]));
    }
  }
  return relations;
}

} // namespace

bool keeps_arrangement(const mesh::Scene& before, const mesh::Scene& after)
{
  return mesh::clashes(after).empty() && arrangement(before) == arrangement(after);
}

} // namespace cases
