// What counts in electric fields: insulation of a material, `[drive] capacitance` and `earthed`.
#include "cases/bodies.hpp"

#include "cases/wording.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace cases
{

namespace
{

/// The part of that name, or null.
const mesh::Part* part_of(const Draft& draft, const std::string& name)
{
  const auto& parts = draft.result.problem.scene.parts;
  const auto found = std::ranges::find(parts, name, &mesh::Part::name);
  return found == parts.end() ? nullptr : &*found;
}

/// Names of `earthed`, each of a part that conducts.
std::vector<std::string> earthed_parts(const Draft& draft, Section& drive)
{
  std::vector<std::string> names;
  const Node* node = drive.at("earthed");
  const auto* list = node ? std::get_if<List>(&node->value) : nullptr;
  if (node && !list)
  {
    drive.fault_at("earthed", "must be a list of parts, got " + as_written(*node),
                   "write e.g. [\"core\"]");
  }
  for (std::size_t i = 0; list && i < list->size(); ++i)
  {
    const auto* name = std::get_if<std::string>(&(*list)[i].value);
    const mesh::Part* part = name ? part_of(draft, *name) : nullptr;
    const std::string path = fmt::format("{}[{}]", drive.path("earthed"), i);
    if (!part)
    {
      if (!name || !draft.bodies.contains(*name) || draft.bodies.at(*name).sound)
      {
        drive.faults().push_back(
            {(*list)[i].where, fmt::format("{} is no part, got {}", path, as_written((*list)[i])),
             "name parts ([[parts]]) of a material that conducts"});
      }
      continue;
    }
    if (draft.materials.contains(part->material) &&
        solver::material(draft.result.problem, part->material).conductivity == 0.0)
    {
      drive.faults().push_back(
          {(*list)[i].where, fmt::format("{} {} does not conduct", path, in_quotes(*name)),
           fmt::format("give its material {} a conductivity", in_quotes(part->material))});
      continue;
    }
    names.push_back(*name);
  }
  return names;
}

} // namespace

void read_capacitance(Draft& draft, Section& drive)
{
  const Node* node = drive.at("capacitance");
  const bool wanted =
      node && std::holds_alternative<bool>(node->value) && std::get<bool>(node->value);
  if (node && !std::holds_alternative<bool>(node->value))
  {
    drive.fault_at("capacitance", "must be true or false, got " + as_written(*node),
                   "write capacitance = true");
  }
  std::vector<std::string> earthed = earthed_parts(draft, drive);
  const bool unclear = node && !std::holds_alternative<bool>(node->value);
  if (!wanted && !unclear && drive.has("earthed"))
  {
    drive.fault_at("earthed", "counts for capacitances only", "write capacitance = true too");
  }
  if (wanted)
  {
    draft.result.problem.electrostatics = solver::Electrostatics{std::move(earthed)};
  }
}

std::optional<Insulation> read_insulation(const Draft& draft, Section& section)
{
  const Node* node = section.at("insulation");
  if (!node || !std::holds_alternative<Entries>(node->value))
  {
    const auto thickness = section.value("insulation", gap_or_thickness, 0.0);
    return thickness ? std::optional(Insulation{"air", *thickness}) : std::nullopt;
  }
  auto table = section.table("insulation", "{ material = \"enamel\", thickness = \"0.03 mm\" }");
  const auto material = read_material(draft, *table);
  const auto thickness = table->needed("thickness", coating_thickness);
  table->finish("insulation");
  if (!material || !thickness)
  {
    return std::nullopt;
  }
  const auto& known = draft.result.problem.materials;
  const auto of = known.find(*material);
  const bool magnetic =
      of != known.end() && (of->second.permeability != 1.0 || !of->second.table.empty());
  const bool conducts =
      *material == "copper" || (of != known.end() && of->second.conductivity > 0.0);
  if (magnetic || conducts)
  {
    section.fault_at("insulation",
                     fmt::format("is of {}, which {}", in_quotes(*material),
                                 magnetic ? "is magnetic" : "conducts"),
                     "magnetic or conducting material on a wire is a coating");
    return std::nullopt;
  }
  return Insulation{*material, *thickness};
}

} // namespace cases
