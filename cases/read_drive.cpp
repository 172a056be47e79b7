// [drive] and [accuracy]: what drives the field, and how sharply the answer is wanted.
#include "cases/bodies.hpp"

#include "post/engineering.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace cases
{
namespace
{

void read_background(Draft& draft, Section& drive)
{
  if (!drive.has("background"))
  {
    drive.at("background");
    return;
  }
  const auto background = drive.needed("background", flux_density);
  if (background && *background == 0.0)
  {
    drive.fault_at("background", "must not be zero, got " + drive.written("background"),
                   "leave it out for windings alone");
    return;
  }
  draft.result.problem.background = background;
}

/// Something must carry a current, or lie in a field from far away.
void check_driven(Draft& draft, Section& top)
{
  const solver::Problem& problem = draft.result.problem;
  const SourcePlace file{top.where().file};
  if (problem.background && !top.has("parts") && !top.has("windings"))
  {
    draft.faults.push_back({file, "there is no body in the field", "add a part ([[parts]])"});
  }
  if (problem.background || top.has("wires") || top.has("toroids"))
  {
    return;
  }
  const Node* windings = top.at("windings");
  const auto* list = windings ? std::get_if<List>(&windings->value) : nullptr;
  if (!windings || (list && list->empty()))
  {
    draft.faults.push_back({file, "nothing drives the field",
                            "add a winding ([[windings]]), or a field from far away ([drive] "
                            "background = \"1 mT\")"});
  }
  else if (!problem.currents.empty() &&
           std::ranges::all_of(problem.currents, [](double amperes) { return amperes == 0.0; }))
  {
    const bool common =
        std::ranges::all_of(draft.own_currents, [](const auto& own) { return !own.has_value(); });
    draft.faults.push_back({file, "no winding carries a current, all have 0 A",
                            common ? "give drive.current a value, e.g. \"1 A\""
                                   : "give one of them a current, e.g. \"1 A\""});
  }
}

/// No table is asked beyond its ends.
void check_frequencies(const Draft& draft, Section& drive)
{
  const solver::Problem& problem = draft.result.problem;
  for (const auto& [name, material] : problem.materials)
  {
    if (material.table.empty() || problem.frequencies.empty())
    {
      continue;
    }
    const double from = material.table.front().frequency, to = material.table.back().frequency;
    if (problem.frequencies.front() < from || problem.frequencies.back() > to)
    {
      drive.fault_at("frequency",
                     fmt::format("leaves the permeability table of {}, which runs from {} to {}",
                                 name, post::engineering(from, "Hz", 4),
                                 post::engineering(to, "Hz", 4)),
                     "stay within the table, or extend it by measured rows");
    }
  }
}

/// The linear law of resistivity must stay well above zero.
void check_temperature(const Draft& draft, Section& drive)
{
  const double T = draft.result.problem.temperature;
  for (const auto& name : draft.materials)
  {
    const auto& materials = draft.result.problem.materials;
    if (!materials.contains(name) && name != "copper")
    {
      continue; // has a fault of its own, or does not conduct
    }
    const solver::Material& material = solver::material(draft.result.problem, name);
    const double factor =
        1.0 + material.temperature_coefficient * (T - material.reference_temperature);
    if (!(factor > 0.05))
    {
      drive.fault_at(
          "temperature",
          fmt::format("leaves {} no resistance: {:.3g} of that at {:.4g} degC", name, factor,
                      material.reference_temperature - 273.15),
          fmt::format("stay nearer, or mend materials.{}.temperature_coefficient", name));
    }
  }
}

} // namespace

void read_drive(Draft& draft, Section& top)
{
  const std::size_t before = draft.faults.size();
  std::vector<double> bias;
  if (auto drive = top.table("drive"))
  {
    draft.current = drive->value("current", current, 1.0).value_or(1.0);
    read_background(draft, *drive);
    draft.result.problem.frequencies = read_frequencies(*drive);
    check_frequencies(draft, *drive);
    draft.result.problem.temperature =
        drive->value("temperature", temperature, solver::room_temperature)
            .value_or(solver::room_temperature);
    check_temperature(draft, *drive);
    draft.result.line = drive->value("line", line_resistance, 50.0).value_or(50.0);
    read_capacitance(draft, *drive);
    bias = read_bias(*drive);
    drive->finish("[drive]");
  }
  solver::Problem& problem = draft.result.problem;
  for (const auto& own : draft.own_currents)
  {
    problem.currents.push_back(own.value_or(draft.current));
  }
  for (const double amperes : bias)
  {
    problem.bias.push_back({amperes, {}});
    for (const auto& own : draft.own_currents)
    {
      problem.bias.back().currents.push_back(own.value_or(amperes));
    }
  }
  if (draft.faults.size() == before)
  {
    check_driven(draft, top);
  }
}

void read_accuracy(Draft& draft, Section& top)
{
  if (auto accuracy = top.table("accuracy"))
  {
    draft.result.problem.accuracy =
        accuracy->value("inductance", relative_accuracy, 1e-3).value_or(1e-3);
    accuracy->finish("[accuracy]");
  }
}

} // namespace cases
