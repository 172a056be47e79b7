// Losses by body to heat by region, temperatures by region to temperatures by body.
#include "post/heat.hpp"

#include "mesh/layout.hpp"
#include "mesh/mesher.hpp"
#include "post/quantities.hpp"
#include "solver/at_once.hpp"
#include "solver/heat.hpp"

#include <algorithm>
#include <map>

namespace post
{

namespace
{

/// Heat of every body by name [W].
using Heats = std::map<std::string, double>;

/// Whose a loss is: what belongs to a winding is its envelope's.
std::string owner(const solver::Problem& problem, const std::string& name)
{
  for (const mesh::Winding& winding : problem.scene.windings)
    if (name == winding.name + ".coating")
      return winding.name;
  return name;
}

double current(const solver::Problem& problem, std::size_t winding)
{
  return problem.currents.empty() ? 1.0 : problem.currents[winding];
}

/// Mean loss at the driven winding's peak current, and of a background field.
Heats heats(const solver::Problem& problem, const FrequencyResult& at)
{
  Heats made;
  for (const auto& [name, loss] : at.losses)
    made[owner(problem, name)] += loss;
  for (std::size_t w = 0; w < at.windings.size(); ++w)
  {
    const double I = current(problem, w);
    for (const auto& [name, resistance] : at.windings[w].by_body)
    {
      const bool strands = name == "proximity in strands";
      made[strands ? at.windings[w].name : owner(problem, name)] += 0.5 * I * I * resistance;
    }
  }
  return made;
}

/// I^2 R of every winding under direct currents; none given: those of the problem.
Heats heats(const solver::Problem& problem, const std::vector<double>& currents)
{
  Heats made;
  for (std::size_t w = 0; w < problem.scene.windings.size(); ++w)
  {
    const mesh::Winding& winding = problem.scene.windings[w];
    const double I = currents.empty() ? current(problem, w) : currents[w];
    if (const auto known = wire(problem, winding))
      made[winding.name] += I * I * known->dc_resistance;
  }
  return made;
}

/// The points of a result, heat by body alone.
struct Asked
{
  HeatPoint point;
  Heats heats;
};
std::vector<Asked> asked(const solver::Problem& problem, const Result& result)
{
  std::vector<Asked> list;
  for (const FrequencyResult& at : result.frequencies)
  {
    list.push_back({{}, heats(problem, at)});
    list.back().point.frequency = at.frequency;
  }
  for (const solver::Bias& bias : problem.bias)
  {
    list.push_back({{}, heats(problem, bias.currents)});
    list.back().point.current = bias.current;
  }
  if (list.empty() && !problem.scene.windings.empty())
  {
    list.push_back({{}, heats(problem, std::vector<double>{})});
    list.back().point.current = current(problem, 0);
  }
  std::erase_if(list,
                [](const Asked& one) {
                  return std::ranges::all_of(one.heats,
                                             [](const auto& each) { return each.second <= 0.0; });
                });
  return list;
}

/// Layout and mesh that serve every point.
struct Stage
{
  mesh::Layout layout;
  mesh::Mesh mesh;
};
Stage stage(const solver::Problem& problem)
{
  mesh::Layout layout = mesh::layout(with_envelopes(problem.scene));
  mesh::Mesh mesh = mesh::coarse_mesh(layout);
  return {std::move(layout), std::move(mesh)};
}

solver::HeatField field(const solver::Problem& problem, const Stage& on, const Heats& heats)
{
  const auto heat_of = [&](const std::string& name)
  {
    const auto found = heats.find(name);
    return found == heats.end() ? 0.0 : std::max(0.0, found->second);
  };
  const solver::Cooling& cooling = *problem.cooling;
  solver::HeatProblem made;
  made.mesh = on.mesh;
  made.ambient = cooling.ambient;
  made.convection = cooling.convection;
  made.emissivity = cooling.emissivity;
  for (const mesh::Region& region : on.layout.regions)
    made.regions.push_back(
        {solver::material(problem, region.material).thermal_conductivity, heat_of(region.name)});
  for (const mesh::Conductor& section : on.layout.conductors)
    made.sections.push_back(
        {cooling.winding_conductivity, heat_of(problem.scene.windings[section.winding].name)});
  return solver::solve_heat(made);
}

HeatPoint told(const solver::Problem& problem, const Stage& on, const Asked& one)
{
  const solver::HeatField f = field(problem, on, one.heats);
  HeatPoint made = one.point;
  const auto add = [&](const std::string& name, const solver::HeatRise& rise, double curie)
  {
    const auto found = one.heats.find(name);
    made.bodies.push_back({name, found == one.heats.end() ? 0.0 : found->second, rise.mean,
                           rise.hottest,
                           curie > 0.0 && problem.cooling->ambient + rise.hottest >= curie});
  };
  for (std::size_t g = 1; g < f.regions.size(); ++g)
    if (f.regions[g].volume > 0.0)
      add(on.layout.regions[g].name, f.regions[g],
          solver::material(problem, on.layout.regions[g].material).curie_temperature);
  for (std::size_t c = 0; c < f.sections.size(); ++c)
    add(problem.scene.windings[on.layout.conductors[c].winding].name, f.sections[c], 0.0);
  made.heat = f.heat;
  made.convected = f.convected;
  made.radiated = f.radiated;
  made.accuracy_met = f.accuracy_met;
  made.accuracy_reached = f.accuracy_reached;
  made.limit = f.limit;
  return made;
}

} // namespace

mesh::Scene with_envelopes(const mesh::Scene& scene)
{
  mesh::Scene made = scene;
  for (mesh::Winding& winding : made.windings)
  {
    const auto* turns = std::get_if<mesh::RoundTurns>(&winding.build);
    if (!turns)
      continue;
    const double radius = 0.5 * mesh::full_diameter(*turns);
    const std::vector<mesh::Point> centres = mesh::turn_centres(winding);
    const mesh::Point outer = std::ranges::max(centres, {}, &mesh::Point::r);
    const auto [low, high] = std::ranges::minmax(centres, {}, &mesh::Point::z);
    mesh::Block block;
    block.inner_diameter = turns->inner_diameter;
    block.outer_diameter = 2.0 * (outer.r + radius);
    block.length = high.z - low.z + 2.0 * radius;
    winding.centre = 0.5 * (low.z + high.z);
    winding.build = block;
  }
  return made;
}

std::size_t warmest(const HeatResult& heat)
{
  const auto hottest = [](const HeatPoint& at)
  {
    double rise = 0.0;
    for (const HeatBody& body : at.bodies)
      rise = std::max(rise, body.hottest_rise);
    return rise;
  };
  return static_cast<std::size_t>(std::ranges::max_element(heat.points, {}, hottest) -
                                  heat.points.begin());
}

void add_heat(const solver::Problem& problem, Result& result, int threads)
{
  if (!problem.cooling)
    return;
  const std::vector<Asked> list = asked(problem, result);
  if (list.empty())
    return;
  const Stage on = stage(problem);
  result.heat.points.resize(list.size());
  solver::at_once(list.size(), threads,
                  [&](std::size_t i) { result.heat.points[i] = told(problem, on, list[i]); });
}

solver::HeatField heat_field(const solver::Problem& problem, const Result& result,
                             std::size_t point)
{
  return field(problem, stage(problem), asked(problem, result).at(point).heats);
}

} // namespace post
