// Reads a problem the way a hand formula does: one coil, the magnetic bodies, a broken condition.
#include "post/formula_families.hpp"

#include "mesh/layout.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace post
{
namespace
{

void add_if_magnetic(FormulaScene& scene, const std::string& name, const std::string& material,
                     const mesh::Part* part, bool coating)
{
  const double permeability = solver::material(scene.problem, material).permeability;
  if (permeability != 1.0)
  {
    scene.magnetic.push_back({name, permeability, part, coating});
  }
}

void add_winding_coating(FormulaScene& scene, const mesh::Winding& winding)
{
  const auto* round = std::get_if<mesh::RoundTurns>(&winding.build);
  if (round != nullptr && round->coating)
  {
    add_if_magnetic(scene, winding.name + ".coating", round->coating->material, nullptr, true);
  }
}

} // namespace

FormulaScene formula_scene(const solver::Problem& problem)
{
  FormulaScene scene{.problem = problem, .magnetic = {}, .coil = {}};
  for (const mesh::Part& part : problem.scene.parts)
  {
    add_if_magnetic(scene, part.name, part.material, &part, false);
    if (part.coating)
    {
      add_if_magnetic(scene, part.name + ".coating", part.coating->material, &part, true);
    }
  }
  for (const mesh::Winding& winding : problem.scene.windings)
  {
    add_winding_coating(scene, winding);
  }
  if (!problem.scene.windings.empty())
  {
    scene.winding = &problem.scene.windings.front();
    scene.round = std::get_if<mesh::RoundTurns>(&scene.winding->build);
    scene.coil = coil_shape(*scene.winding);
  }
  return scene;
}

double pitch(const mesh::RoundTurns& turns)
{
  return turns.pitch > 0.0 ? turns.pitch : mesh::full_diameter(turns);
}

CoilShape coil_shape(const mesh::Winding& winding)
{
  CoilShape coil{.turns = winding.turns, .centre = winding.centre};
  if (const auto* block = std::get_if<mesh::Block>(&winding.build))
  {
    coil.diameter = (block->inner_diameter + block->outer_diameter) / 2.0;
    coil.thickness = (block->outer_diameter - block->inner_diameter) / 2.0;
    coil.length = block->length;
    return coil;
  }
  const auto& round = std::get<mesh::RoundTurns>(winding.build);
  const double full = mesh::full_diameter(round);
  coil.diameter = round.inner_diameter + round.layers * full;
  coil.thickness = round.layers * full;
  coil.length = pitch(round) * std::ceil(winding.turns / round.layers);
  return coil;
}

const MagneticBody* only_body(const FormulaScene& scene)
{
  const bool one = scene.magnetic.size() == 1 && scene.magnetic.front().part != nullptr &&
                   !scene.magnetic.front().coating;
  return one ? &scene.magnetic.front() : nullptr;
}

std::string why_not_one_body(const FormulaScene& scene)
{
  if (scene.magnetic.empty())
  {
    return "no magnetic part";
  }
  std::vector<std::string> names;
  for (const MagneticBody& body : scene.magnetic)
  {
    names.push_back(body.name);
  }
  return fmt::format("counts one bare magnetic part; here: {}", fmt::join(names, ", "));
}

FormulaResult formula(const FormulaLabel& label, double value,
                      const std::vector<Condition>& conditions)
{
  FormulaResult result{.name = std::string(label.name),
                       .value = value,
                       .unit = "H",
                       .deviation = std::nullopt,
                       .holds = true,
                       .why = std::string(label.range),
                       .source = std::string(label.source),
                       .estimates = label.estimates,
                       .subject = label.subject};
  if (label.estimates == Estimates::middle_permeability ||
      label.estimates == Estimates::ballistic || label.estimates == Estimates::magnetometric)
  {
    result.unit = "1";
  }
  const auto broken = std::ranges::find(conditions, false, &Condition::met);
  if (broken != conditions.end())
  {
    result.holds = false;
    result.why = broken->otherwise;
  }
  return result;
}

} // namespace post
