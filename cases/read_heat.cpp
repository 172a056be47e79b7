// [heat]: what carries heat away, and whether the case knows all that its temperatures need.
#include "cases/bodies.hpp"

#include "cases/wording.hpp"
#include "mesh/clashes.hpp"
#include "mesh/layout.hpp"
#include "post/heat.hpp"
#include "post/quantities.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace cases
{

namespace
{

/// A winding that takes up no room has no temperature; one of unknown wire no loss.
void check_windings(Draft& draft, const solver::Problem& problem)
{
  for (const mesh::Winding& winding : problem.scene.windings)
  {
    const auto* block = std::get_if<mesh::Block>(&winding.build);
    const SourcePlace& where = draft.bodies.at(winding.name).where;
    const std::string path = "windings." + winding.name;
    if (block && block->inner_diameter == block->outer_diameter)
    {
      draft.faults.push_back({where,
                              path + " is a sheet without thickness, which [heat] cannot warm",
                              "give it an outer_diameter above its inner_diameter"});
    }
    else if (!post::wire(problem, winding))
    {
      draft.faults.push_back({where, path + " names no wire, so [heat] does not know its loss",
                              "give it wire = \"0.5 mm\" (and strands), or draw it turn by turn"});
    }
  }
}

/// Heat over frequency is that of one thing driven: losses of several do not add up.
void check_drives(Draft& draft, const solver::Problem& problem)
{
  const auto driven =
      std::ranges::count_if(problem.currents, [](double amperes) { return amperes != 0.0; });
  if (problem.frequencies.empty() || driven + (problem.background ? 1 : 0) < 2)
  {
    return;
  }
  draft.faults.push_back(
      {draft.heat,
       fmt::format("heat over frequency takes one winding or a background, got {}",
                   driven + (problem.background ? 1 : 0)),
       "give the other windings current = \"0 A\", or leave frequency or background out"});
}

/// Turns are warmed as the section they take up, wound between nothing else.
bool check_envelopes(Draft& draft, const solver::Problem& problem)
{
  const std::vector<mesh::Clash> clashes = mesh::clashes(post::with_envelopes(problem.scene));
  for (const mesh::Clash& clash : clashes)
  {
    draft.faults.push_back(
        {draft.heat,
         fmt::format("heat takes turns as the section they take up, and {} then overlaps {}",
                     in_quotes(clash.first), in_quotes(clash.second)),
         "move one of them, or leave [heat] out"});
  }
  return clashes.empty();
}

} // namespace

double drive_temperature(Section& top)
{
  const Node* drive = top.at("drive");
  const auto* table = drive ? std::get_if<Entries>(&drive->value) : nullptr;
  const Entry* entry = table ? find(*table, "temperature") : nullptr;
  std::vector<Fault> unheard;
  const auto found =
      entry ? checked(entry->node, "drive.temperature", temperature, unheard) : std::nullopt;
  return found.value_or(solver::room_temperature);
}

void read_heat(Draft& draft, Section& top)
{
  auto heat = top.table("heat");
  if (!heat)
  {
    return;
  }
  draft.heat = heat->where();
  const auto ambient = heat->value("ambient", temperature, solver::room_temperature);
  const auto convection = heat->value("convection", heat_transfer, 0.0);
  const auto radiates = heat->value("emissivity", emissivity, 0.0);
  const bool inside = heat->has("winding_conductivity");
  const auto winding =
      inside ? heat->needed("winding_conductivity", thermal_conductivity) : std::optional(0.0);
  heat->at("winding_conductivity");
  heat->finish("[heat]");
  if (!ambient || !convection || !radiates || !winding)
  {
    return;
  }
  if (*convection == 0.0 && *radiates == 0.0)
  {
    heat->fault("lets no surface give heat off", "write e.g. convection = \"10 W/(m2 K)\"");
    return;
  }
  if (!inside && top.has("windings"))
  {
    heat->fault(
        "does not say how windings conduct",
        "write e.g. winding_conductivity = \"0.5 W/(m K)\", wire and what is between as one");
    return;
  }
  draft.result.problem.cooling = solver::Cooling{*ambient, *convection, *radiates, *winding};
}

void check_heat(Draft& draft)
{
  const solver::Problem& problem = draft.result.problem;
  if (!problem.cooling)
  {
    return;
  }
  if (problem.scene.parts.empty() && problem.scene.windings.empty())
  {
    draft.faults.push_back({draft.heat, "there is no body to warm",
                            "[heat] takes parts and windings, not straight wires"});
    return;
  }
  if (!check_envelopes(draft, problem))
  {
    return;
  }
  std::vector<std::string> told;
  for (const mesh::Region& region : mesh::layout(post::with_envelopes(problem.scene)).regions)
  {
    if (solver::material(problem, region.material).thermal_conductivity > 0.0 ||
        std::ranges::find(told, region.material) != told.end())
    {
      continue;
    }
    told.push_back(region.material);
    draft.faults.push_back(
        {draft.heat,
         fmt::format("materials.{} has no thermal_conductivity, which [heat] needs",
                     region.material),
         "write e.g. thermal_conductivity = \"4 W/(m K)\""});
  }
  check_windings(draft, problem);
  check_drives(draft, problem);
}

} // namespace cases
