// The question of the sliders and the reduced model that answers it in the page.
#include "cases/report_page.hpp"
#include "mesh/layout.hpp"
#include "post/engineering.hpp"
#include "post/sweep.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace cases
{

namespace
{

using Json = nlohmann::ordered_json;

constexpr std::size_t most_materials = 3; ///< As many as a model of a sweep serves.

/// A slider's range, its ends in the order of its label's value.
struct SliderRange
{
  double from = 1.0;
  double to = 1.0;
};

/// Materials of the scene's regions that are not like air, in its order.
std::vector<std::string> magnetic(const solver::Problem& problem)
{
  std::vector<std::string> list;
  for (const mesh::Region& region : mesh::layout(problem.scene).regions)
  {
    if (solver::material(problem, region.material).permeability != 1.0 &&
        std::ranges::find(list, region.material) == list.end() && list.size() < most_materials)
    {
      list.push_back(region.material);
    }
  }
  return list;
}

/// A decade to either side, but not past air.
SliderRange decade(double permeability)
{
  return {permeability > 1.0 ? std::max(1.0, permeability / 10.0) : permeability / 10.0,
          permeability * 10.0};
}

Json slider(const std::string& id, const std::string& label, const char* kind,
            const SliderRange& range, double own)
{
  return {{"id", id},           {"label", label}, {"kind", kind},
          {"from", range.from}, {"to", range.to}, {"own", own}};
}

/// Adds a material's sliders; what they span of its permeability.
SliderRange add_material(Json& question, const std::string& name, const solver::Material& material,
                         const std::string& id)
{
  if (!material.powder || material.powder->particle_permeability <= 1.0)
  {
    const SliderRange range = decade(material.permeability);
    question["materials"].push_back({{"name", plain(name)}, {"permeability", id}});
    question["sliders"].push_back(
        slider(id, "Permeability of " + plain(name), "permeability", range, material.permeability));
    return range;
  }
  const solver::Powder& powder = *material.powder;
  const SliderRange grains = {std::max(1.0, powder.particle_permeability / 5.0),
                              powder.particle_permeability * 5.0};
  const SliderRange packing = {std::min(0.2, powder.packing), std::max(0.75, powder.packing)};
  std::string rule;
  for (const solver::RuleInfo& info : solver::mixing_rules())
  {
    rule = info.rule == powder.rule ? std::string(info.name) : rule;
  }
  question["materials"].push_back({{"name", plain(name)},
                                   {"rule", rule},
                                   {"particle", id + "g"},
                                   {"packing", id + "p"},
                                   {"place", id + "m"}});
  question["sliders"].push_back(slider(id + "g", "Permeability of the grains of " + plain(name),
                                       "permeability", grains, powder.particle_permeability));
  question["sliders"].push_back(
      slider(id + "p", "Packing of " + plain(name), "packing", packing, powder.packing));
  return {solver::effective_permeability({grains.from, packing.from, powder.rule}),
          solver::effective_permeability({grains.to, packing.to, powder.rule})};
}

/// Adds each winding, with a slider where N^2 is exact: the same section with other turns.
std::string add_windings(Json& question, const solver::Problem& problem, const post::Result& result,
                         const std::string& mark)
{
  std::string fixed;
  for (std::size_t w = 0; w < result.windings.size(); ++w)
  {
    const post::WindingResult& winding = result.windings[w];
    Json one = {{"name", plain(winding.name)},         {"place", fmt::format("{}w{}", mark, w)},
                {"own_turns", winding.turns},          {"lower_H", winding.inductance.lower},
                {"upper_H", winding.inductance.upper}, {"in_air_H", winding.air_inductance.value}};
    if (std::holds_alternative<mesh::Block>(problem.scene.windings[w].build))
    {
      const std::string id = fmt::format("{}n{}", mark, w);
      one["turns"] = id;
      const double turns = winding.turns;
      question["sliders"].push_back(slider(
          id, "Turns of " + plain(winding.name), "turns",
          {std::max(1.0, std::floor(turns / 2.0)), std::max(2.0, std::ceil(turns * 2.0))}, turns));
    }
    else
    {
      fixed += (fixed.empty() ? "" : ", ") + plain(winding.name);
    }
    question["windings"].push_back(std::move(one));
  }
  return fixed;
}

std::size_t numbers_in(const solver::ReducedModel& model)
{
  std::size_t count = 0;
  for (const solver::ReducedWinding& winding : model.windings)
  {
    for (const auto* list : {&winding.flux, &winding.field})
    {
      for (const Eigen::MatrixXd& matrix : *list)
      {
        count += static_cast<std::size_t>(matrix.size());
      }
    }
    count += static_cast<std::size_t>(winding.load.size());
  }
  return count;
}

std::string told(const post::KeptModel& kept)
{
  return fmt::format(
      "Read from a reduced model made of {} solutions and held in this page, {} numbers. Its "
      "bounds "
      "are guaranteed like those of a full solution; over the whole range of the sliders their "
      "half-width is at most {} of the value.",
      kept.model.snapshots, numbers_in(kept.model), post::fine_percent(kept.model.accuracy_met));
}

} // namespace

post::PageSection what_if_section(const Case& read, const post::Result& result,
                                  const std::string& heading, const std::string& mark, int threads)
{
  post::PageSection made{heading, "bounded, for the permeabilities set", {}};
  if (result.windings.empty())
  {
    return made;
  }
  Json question = {
      {"materials", Json::array()}, {"windings", Json::array()}, {"sliders", Json::array()}};
  std::vector<solver::VariedMaterial> varied;
  for (const std::string& name : magnetic(read.problem))
  {
    const SliderRange range = add_material(question, name, solver::material(read.problem, name),
                                           fmt::format("{}m{}", mark, varied.size()));
    varied.push_back({name, range.from, range.to});
  }
  const std::string fixed = add_windings(question, read.problem, result, mark);
  if (question["sliders"].empty())
  {
    return made;
  }
  const bool turns = question["sliders"].back().at("kind") == "turns";
  std::string model;
  made.blocks.emplace_back(post::PageText{
      "Move a slider, by hand or with the arrow keys: the inductance and its guaranteed bounds "
      "follow. Sizes and places stay those of the case, and the field is at rest."});
  if (!varied.empty())
  {
    const post::KeptModel kept = post::kept_model(read.problem, std::move(varied), threads);
    model = post::json(kept);
    made.blocks.emplace_back(post::PageText{told(kept)});
  }
  made.blocks.emplace_back(post::PageWhatIf{std::move(model), question.dump()});
  if (!fixed.empty())
  {
    made.blocks.emplace_back(post::PageText{
        "Turns of " + fixed +
        " are drawn one by one: others would lie elsewhere, so they have no slider."});
  }
  if (turns)
  {
    made.blocks.emplace_back(post::PageText{
        "Turns count as their square, which is exact for a winding drawn as one section that stays "
        "the same."});
  }
  return made;
}

} // namespace cases
