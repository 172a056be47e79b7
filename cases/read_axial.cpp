// [[wires]] and [[toroids]]: conductors along the axis, and windings around a ring's section.
#include "cases/bodies.hpp"

#include "cases/toroid_core.hpp"
#include "cases/wording.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace cases
{

namespace
{

constexpr std::size_t most_coatings = 100;

std::optional<std::vector<mesh::Coating>> read_coatings(const Draft& draft, Section& section)
{
  const Node* node = section.at("coatings");
  if (node == nullptr)
  {
    return std::vector<mesh::Coating>{};
  }
  const auto* list = std::get_if<List>(&node->value);
  if (!list || list->size() > most_coatings)
  {
    section.fault_at("coatings", "must be a list of up to 100 coatings, inside out",
                     "write [ { material = \"copper\", thickness = \"0.5 mm\" } ]");
    return std::nullopt;
  }
  std::vector<mesh::Coating> coatings;
  for (std::size_t i = 0; i < list->size(); ++i)
  {
    const std::string path = fmt::format("{}[{}]", section.path("coatings"), i);
    const auto* entries = std::get_if<Entries>(&(*list)[i].value);
    if (!entries)
    {
      section.faults().push_back({(*list)[i].where, path + " must be a table",
                                  "write { material = \"copper\", thickness = \"0.5 mm\" }"});
      continue;
    }
    Section one(*entries, (*list)[i].where, path, section.faults());
    const auto material = read_material(draft, one);
    const auto thickness = one.needed("thickness", coating_thickness);
    one.finish("a coating");
    if (material && thickness)
    {
      coatings.push_back({*material, *thickness});
    }
  }
  return coatings.size() == list->size() ? std::optional(coatings) : std::nullopt;
}

void read_wire(Draft& draft, Section& section)
{
  const std::string name = checked_name(section, "lead");
  const Body* body = enter(draft, section, name);
  const auto material = read_material(draft, section);
  const auto diameter = section.needed("diameter", wire_thickness);
  const auto coatings = read_coatings(draft, section);
  section.at("length");
  const bool has_length = section.has("length");
  const auto length = has_length ? section.needed("length", extent_of_body) : std::nullopt;
  section.finish("a straight wire");
  if (!body || !material || !diameter || !coatings || (has_length && !length))
  {
    return;
  }
  if (!draft.result.problem.materials.contains(*material) && *material != "copper" &&
      *material != "air")
  {
    return; // that material has a fault of its own
  }
  if (!(solver::material(draft.result.problem, *material).conductivity > 0.0))
  {
    section.fault_at("material", fmt::format("is {}, which does not conduct", in_quotes(*material)),
                     "give it a conductivity, or take copper");
    return;
  }
  draft.result.wires.push_back({name, *material, *diameter, *coatings, length});
}

void read_toroid(Draft& draft, Section& section)
{
  const std::string name = checked_name(section, "choke");
  const Body* body = enter(draft, section, name);
  const auto turns = section.needed("turns", plain_turns);
  const auto around = section.needed_text("around", "core");
  section.finish("a toroid");
  if (!body || !turns || !around)
  {
    return;
  }
  const auto& parts = draft.result.problem.scene.parts;
  const auto part = std::ranges::find(parts, *around, &mesh::Part::name);
  if (part == parts.end())
  {
    std::vector<std::string> names;
    std::ranges::transform(parts, std::back_inserter(names), &mesh::Part::name);
    if (!draft.bodies.contains(*around))
    {
      section.fault_at("around", fmt::format("names no part, got {}", in_quotes(*around)),
                       did_you_mean(*around, names, "name a tube, a ring or an outline"));
    }
    return;
  }
  if (!(mesh::extent(wound_around(*part)).low.r > 0.0))
  {
    section.fault_at("around", fmt::format("is {}, which has no hole", in_quotes(*around)),
                     "a toroid is wound through the hole of a tube, a ring or an outline");
    return;
  }
  draft.result.toroids.push_back({name, *turns, *around});
}

} // namespace

void read_axial(Draft& draft, Section& top)
{
  for (Section& section : sections(top, "wires"))
  {
    read_wire(draft, section);
  }
  for (Section& section : sections(top, "toroids"))
  {
    read_toroid(draft, section);
  }
}

} // namespace cases
