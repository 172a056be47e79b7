// From keys and values to points and pieces.
#include "cases/sweep_plan.hpp"

#include "cases/draft.hpp"
#include "cases/journal.hpp"
#include "cases/overrides.hpp"
#include "cases/sweep_points.hpp"
#include "cases/sweep_report.hpp"
#include "cases/text_file.hpp"
#include "cases/wording.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <map>
#include <set>

namespace cases
{

namespace
{

/// Faults of the file itself, and of nothing that a varied value could mend.
Node checked_tree(const std::filesystem::path& file, const std::string& text)
{
  Node root = tree(text, file.string());
  if (std::get<Entries>(root.value).empty())
  {
    throw CaseError({{{file.string()}, "the file is empty", "start a case with: ferrule new"}});
  }
  return root;
}

/// The varied keys of [sweep]; faults of the rest of the case show at its points.
void take_from_case(SweepPlan& plan, std::vector<Fault>& faults)
{
  Draft draft(faults);
  Node root = plan.tree;
  apply(plan.options.sets, root, faults);
  Section top(std::get<Entries>(root.value), {plan.file.string()}, "", faults);
  read_sweep(draft, top);
  plan.title = top.text("title", plan.file.stem().string()).value_or("");
  plan.show = draft.result.show;
  plan.beside = draft.result.beside;
  std::vector<Fault> later; // the points tell these
  Draft rest(later);
  Section again(std::get<Entries>(root.value), {plan.file.string()}, "", later);
  read_accuracy(rest, again);
  plan.accuracy = plan.options.accuracy.value_or(rest.result.problem.accuracy);
  plan.varied = std::move(draft.result.varied);
}

/// Keys that lead nowhere, and keys moved twice.
void check_keys(const SweepPlan& plan, std::vector<Fault>& faults)
{
  std::set<std::string> seen;
  for (const Varied& one : plan.varied)
  {
    for (const std::string& key : one.keys)
    {
      if (!seen.insert(key).second)
      {
        faults.push_back({one.where, fmt::format("{} is varied twice", key),
                          "to move keys alike, write KEY,KEY=VALUES"});
        continue;
      }
      std::vector<Fault> found;
      Node root = plan.tree;
      apply({{key, one.values.front().text}}, root, found);
      for (Fault& fault : found)
      {
        faults.push_back({one.where, fault.what, fault.cure});
      }
      if (key.starts_with("sweep.") || key.starts_with("accuracy."))
      {
        faults.push_back({one.where, fmt::format("{} is nothing to vary", key),
                          "vary what the field depends on, e.g. parts.core.length"});
      }
    }
  }
}

void count_points(SweepPlan& plan, std::vector<Fault>& faults)
{
  plan.points = 1;
  for (const Varied& one : plan.varied)
  {
    plan.points *= one.values.size();
    if (plan.points > most_points)
    {
      faults.push_back({one.where, fmt::format("the sweep has more than {} points", most_points),
                        "vary fewer values"});
      return;
    }
  }
}

/// Points that pay for a reduced model: its first snapshots are so many solutions.
std::size_t least_for_model(std::size_t materials)
{
  return std::size_t{2} << materials;
}

/// Whether each varied key is of a material, and of how many materials in all.
struct Division
{
  std::vector<bool> material;
  std::size_t materials = 0;
};

Division division(const std::vector<Varied>& varied)
{
  Division made;
  std::set<std::string> names;
  for (const Varied& one : varied)
  {
    made.material.push_back(one.numeric && std::ranges::all_of(one.keys, is_material_key));
    for (const std::string& key : one.keys)
    {
      if (made.material.back())
      {
        const std::size_t begin = key.find('.') + 1;
        names.insert(key.substr(begin, key.find('.', begin) - begin));
      }
    }
  }
  made.materials = names.size();
  return made;
}

/// The first of the points that can be built, as far as a few tries find one.
std::optional<Case> sample(const SweepPlan& plan)
{
  constexpr std::size_t tries = 32;
  for (std::size_t i = 0; i < std::min(tries, plan.points); ++i)
  {
    try
    {
      return read_tree(plan.tree, plan.file,
                       overrides(plan, plan.points <= tries ? i : i * (plan.points / tries)));
    }
    catch (const CaseError&)
    {
      continue; // its place in the table will say why
    }
  }
  return std::nullopt;
}

/// What the chart shows, of what the points will have.
void choose_show(SweepPlan& plan, const std::optional<Case>& typical, std::vector<Fault>& faults)
{
  if (!typical)
  {
    plan.show = plan.show.empty() ? shown_words().front() : plan.show;
    return;
  }
  const std::vector<std::string> words = words_of(*typical);
  if (plan.show.empty())
  {
    plan.show = words.front();
  }
  else if (std::ranges::find(words, plan.show) == words.end())
  {
    faults.push_back({{"ferrule"},
                      fmt::format("there is no {} to show at the points of this case", plan.show),
                      fmt::format("they have {}", in_words(words))});
  }
}

/// Names that no hand formula bears at any of a few points.
void check_beside(const SweepPlan& plan)
{
  constexpr std::size_t tries = 8;
  std::vector<std::string> known;
  for (std::size_t i = 0; !plan.beside.empty() && i < std::min(tries, plan.points); ++i)
  {
    const std::size_t point = plan.points <= tries ? i : i * ((plan.points - 1) / (tries - 1));
    for (std::string& name : formulas_at(plan, point))
    {
      if (std::ranges::find(known, name) == known.end())
      {
        known.push_back(std::move(name));
      }
    }
  }
  for (const std::string& name : plan.beside)
  {
    if (std::ranges::find(known, name) == known.end())
    {
      throw CaseError(
          {{{plan.file.string()},
            fmt::format("sweep.beside names {}, which no point of the sweep has", in_quotes(name)),
            known.empty() ? "ferrule formulas lists those that fit a case"
                          : fmt::format("they have {}", in_words(known))}});
    }
  }
}

void divide(SweepPlan& plan, bool full)
{
  const Division parts = division(plan.varied);
  std::map<std::vector<std::size_t>, std::size_t> piece_of;
  for (std::size_t point = 0; point < plan.points; ++point)
  {
    std::vector<std::size_t> geometry = indices(plan.varied, point);
    for (std::size_t k = 0; k < geometry.size(); ++k)
    {
      geometry[k] = parts.material[k] ? 0 : geometry[k];
    }
    const auto [found, fresh] = piece_of.try_emplace(geometry, plan.pieces.size());
    if (fresh)
    {
      plan.pieces.push_back({{}, true});
    }
    plan.pieces[found->second].points.push_back(point);
  }
  const bool worthwhile = !full && parts.materials >= 1 && parts.materials <= 3 &&
                          plan.pieces.front().points.size() >= least_for_model(parts.materials);
  if (worthwhile)
  {
    return;
  }
  plan.pieces.clear();
  for (std::size_t point = 0; point < plan.points; ++point)
  {
    plan.pieces.push_back({{point}, false});
  }
}

std::string work_name(const SweepPlan& plan, const std::string& text, bool full)
{
  std::string all = fmt::format("{}\n{}\n{}\n{}\n", program_id(), text, full,
                                plan.options.accuracy.value_or(0.0));
  for (const Override& set : plan.options.sets)
  {
    all += fmt::format("set {}={}\n", set.key, set.value);
  }
  for (const Varied& one : plan.varied)
  {
    all += fmt::format("vary {}\n", keys_text(one));
    for (const VariedValue& value : one.values)
    {
      all += value.text + "\n";
    }
  }
  return checksum(all) + checksum(all + "twice");
}

} // namespace

std::vector<std::size_t> indices(const std::vector<Varied>& varied, std::size_t point)
{
  std::vector<std::size_t> list(varied.size());
  for (std::size_t k = varied.size(); k-- > 0;)
  {
    list[k] = point % varied[k].values.size();
    point /= varied[k].values.size();
  }
  return list;
}

std::vector<Override> overrides(const SweepPlan& plan, std::size_t point)
{
  std::vector<Override> all = plan.options.sets;
  const std::vector<std::size_t> at = indices(plan.varied, point);
  for (std::size_t k = 0; k < at.size(); ++k)
  {
    for (const std::string& key : plan.varied[k].keys)
    {
      all.push_back({key, plan.varied[k].values[at[k]].text});
    }
  }
  return all;
}

std::vector<std::string> words_of(const Case& read)
{
  const solver::Problem& problem = read.problem;
  const std::span<const std::string> at_rest = shown_words().first(3);
  const bool turns = !problem.scene.windings.empty();
  std::vector<std::string> words;
  if (problem.frequencies.size() == 1 && (turns || !read.toroids.empty()))
  {
    words.insert(words.end(), {"inductance_at_frequency", "resistance"});
  }
  if (problem.frequencies.size() == 1 && turns)
  {
    words.emplace_back("quality");
  }
  if (post::working_points(problem).size() == 1 && (turns || !read.toroids.empty()))
  {
    words.insert(words.end(), {"incremental_inductance", "secant_inductance", "flux_linkage"});
  }
  if (turns)
  {
    words.insert(words.end(), at_rest.begin(), at_rest.end());
  }
  else if (!read.toroids.empty() && problem.frequencies.size() != 1)
  {
    words.push_back(at_rest.front());
  }
  if (problem.background)
  {
    words.insert(words.end(), {"apparent_permeability_middle", "apparent_permeability_volume",
                               "magnetometric_factor", "ballistic_factor"});
  }
  if (!read.wires.empty())
  {
    words.insert(words.end(), {"inductance_per_metre", "resistance_per_metre"});
  }
  return words;
}

bool model_tells_all(const Case& read)
{
  const solver::Problem& problem = read.problem;
  return problem.frequencies.size() <= 1 && !problem.background &&
         !problem.scene.windings.empty() && read.wires.empty() && read.toroids.empty() &&
         post::working_points(problem).empty();
}

bool is_material_key(const std::string& key)
{
  if (!key.starts_with("materials."))
  {
    return false;
  }
  const std::size_t dot = key.find('.', key.find('.') + 1);
  std::string rest = dot == std::string::npos ? "" : key.substr(dot + 1);
  for (const char* part : {".real", ".imaginary"})
  {
    if (rest.ends_with(part))
    {
      rest.resize(rest.rfind('.'));
    }
  }
  return rest == "permeability" || rest == "powder.packing" ||
         rest == "powder.particle_permeability";
}

SweepPlan sweep_plan(const std::filesystem::path& file, const SweepAsked& asked,
                     const Options& options)
{
  const std::string text = read_text(file);
  SweepPlan plan;
  plan.file = file;
  plan.options = options;
  plan.tree = checked_tree(file, text);
  std::vector<Fault> faults;
  take_from_case(plan, faults);
  if (!asked.vary.empty())
  {
    plan.varied.clear();
  }
  for (const std::string& typed : asked.vary)
  {
    try
    {
      plan.varied.push_back(varied(typed));
    }
    catch (const CaseError& error)
    {
      faults.insert(faults.end(), error.faults().begin(), error.faults().end());
    }
  }
  plan.show = !asked.show.empty() ? asked.show : plan.show;
  if (faults.empty() && plan.varied.empty())
  {
    faults.push_back({{"ferrule"},
                      "sweep needs to know what to vary",
                      "write e.g. --vary parts.core.length=20mm:200mm:10, or a [sweep] table into "
                      "the case"});
  }
  check_keys(plan, faults);
  count_points(plan, faults);
  const std::optional<Case> typical = faults.empty() ? sample(plan) : std::nullopt;
  choose_show(plan, typical, faults);
  if (!faults.empty())
  {
    throw CaseError(std::move(faults));
  }
  if (typical)
  {
    plan.left_out = {typical->problem.frequencies.size() > 1, typical->problem.bias.size() > 1};
  }
  check_beside(plan);
  divide(plan, asked.full || (typical && !model_tells_all(one_condition(*typical))));
  plan.work = work_name(plan, text, asked.full);
  return plan;
}

} // namespace cases
