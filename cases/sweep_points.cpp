// One case with other values, or one geometry with many permeabilities.
#include "cases/sweep_points.hpp"

#include "cases/draft.hpp"
#include "cases/overrides.hpp"
#include "cases/pipeline.hpp"
#include "cases/search_key.hpp"
#include "cases/wording.hpp"
#include "mesh/layout.hpp"
#include "post/quantities.hpp"
#include "solver/solution.hpp"
#include "solver/solve.hpp"

#include <algorithm>
#include <complex>
#include <fmt/format.h>
#include <future>
#include <optional>
#include <set>

namespace cases
{

namespace
{

constexpr double least_range = 1.001; ///< Of a permeability, one way.

post::SweptPoint not_built(const std::string& why)
{
  post::SweptPoint point;
  point.fault = why;
  return point;
}

Case case_at(const SweepPlan& plan, std::size_t point)
{
  Case read = one_condition(read_tree(plan.tree, plan.file, overrides(plan, point)));
  read.problem.accuracy = plan.options.accuracy.value_or(read.problem.accuracy);
  return read;
}

/// Permeabilities at a point, without a look at any body; or why there are none.
struct Materials
{
  std::map<std::string, solver::Material> materials;
  std::string fault;
};

Materials materials_at(const SweepPlan& plan, std::size_t point)
{
  std::vector<Fault> faults;
  Draft draft(faults);
  draft.result.path = plan.file;
  Node root = plan.tree;
  apply(overrides(plan, point), root, faults);
  Section top(std::get<Entries>(root.value), {plan.file.string()}, "", faults);
  read_materials(draft, top);
  return {std::move(draft.result.problem.materials),
          faults.empty() ? "" : first_fault(CaseError(std::move(faults)))};
}

std::vector<std::string> varied_names(const SweepPlan& plan)
{
  std::vector<std::string> names;
  for (const Varied& one : plan.varied)
  {
    for (const std::string& key : one.keys)
    {
      const std::size_t begin = key.find('.') + 1;
      const std::string name = key.substr(begin, key.find('.', begin) - begin);
      if (is_material_key(key) && std::ranges::find(names, name) == names.end())
      {
        names.push_back(name);
      }
    }
  }
  return names;
}

/// mu' - j mu'' at the frequency of the points, mu' where they have none.
std::complex<double> permeability(const Materials& point, const std::string& name,
                                  std::optional<double> frequency)
{
  const solver::Material& of = point.materials.at(name);
  return frequency ? solver::permeability(of, *frequency) : of.permeability;
}

/// The ranges the points of a piece span; materials that stay as they are, are left out.
std::vector<solver::VariedMaterial>
ranges(const SweepPlan& plan, const std::vector<Materials>& points, std::optional<double> frequency)
{
  std::vector<solver::VariedMaterial> list;
  for (const std::string& name : varied_names(plan))
  {
    solver::VariedMaterial range{name, 0.0, 0.0};
    std::optional<std::complex<double>> first;
    bool differs = false;
    for (const Materials& one : points)
    {
      if (one.fault.empty())
      {
        const double mu = one.materials.at(name).permeability;
        range.from = range.from == 0.0 ? mu : std::min(range.from, mu);
        range.to = std::max(range.to, mu);
        const std::complex<double> there = permeability(one, name, frequency);
        first = first.value_or(there);
        differs = differs || there != *first;
      }
    }
    if (differs && range.to == range.from) // only the loss moves
    {
      range.from /= least_range;
      range.to *= least_range;
    }
    if (range.to > range.from)
    {
      list.push_back(range);
    }
  }
  return list;
}

std::optional<double> frequency_of(const solver::Problem& problem)
{
  return problem.frequencies.empty() ? std::nullopt : std::optional(problem.frequencies.front());
}

/// What the points have of the materials in the ranges.
std::vector<std::vector<std::complex<double>>>
permeabilities(const std::vector<Materials>& points,
               const std::vector<solver::VariedMaterial>& range, std::optional<double> frequency)
{
  std::vector<std::vector<std::complex<double>>> list;
  for (const Materials& one : points)
  {
    if (one.fault.empty())
    {
      list.emplace_back();
      for (const solver::VariedMaterial& of : range)
      {
        list.back().push_back(permeability(one, of.material, frequency));
      }
    }
  }
  return list;
}

/// A material no body is made of would leave every inductance as it is: a slip.
void check_used(const SweepPlan& plan, const solver::Problem& problem)
{
  const auto regions = mesh::layout(problem.scene).regions;
  for (const std::string& name : varied_names(plan))
  {
    if (std::ranges::none_of(regions,
                             [&](const mesh::Region& one) { return one.material == name; }))
    {
      throw CaseError(
          {{{}, fmt::format("no body is made of {}", name), "vary a material that is used"}});
    }
  }
}

std::vector<Materials> materials_of(const SweepPlan& plan, const SweepPiece& piece)
{
  std::vector<Materials> list;
  for (const std::size_t point : piece.points)
  {
    list.push_back(materials_at(plan, point));
  }
  return list;
}

std::string modelled(const SweepPlan& plan, const SweepPiece& piece, int threads)
{
  const std::vector<Materials> materials = materials_of(plan, piece);
  const auto good = std::ranges::find_if(materials, &std::string::empty, &Materials::fault);
  if (good == materials.end())
  {
    return post::json(not_built(materials.front().fault));
  }
  const auto first = piece.points[static_cast<std::size_t>(good - materials.begin())];
  const Case read = case_at(plan, first);
  const solver::Problem& problem = read.problem;
  check_used(plan, problem);
  const std::optional<double> frequency = frequency_of(problem);
  const std::vector<solver::VariedMaterial> range = ranges(plan, materials, frequency);
  if (range.empty())
  {
    return post::json(solved_in_full(read, threads));
  }
  // A ladder of meshes keeps one thread busy: both models are made beside each other.
  const bool beside = frequency && threads > 1;
  std::future<post::KeptModel> at_rest =
      std::async(beside ? std::launch::async : std::launch::deferred,
                 [&] { return post::kept_model(problem, range, beside ? 1 : threads); });
  std::optional<post::KeptImpedance> impedance;
  if (frequency)
  {
    std::vector<std::string> names;
    std::ranges::transform(range, std::back_inserter(names), &solver::VariedMaterial::material);
    impedance = post::kept_impedance(problem, std::move(names),
                                     permeabilities(materials, range, frequency), threads);
  }
  post::KeptModel kept = at_rest.get();
  kept.impedance = std::move(impedance);
  std::vector<Varied> geometry;
  std::ranges::copy_if(plan.varied, std::back_inserter(geometry),
                       [](const Varied& one)
                       { return !std::ranges::all_of(one.keys, is_material_key); });
  kept.title = plan.title + (geometry.empty() ? "" : ": " + place_text(plan.varied, first, false));
  return post::json(kept);
}

void read_back(const SweepPlan& plan, const SweepPiece& piece, const std::string& record,
               SweptPoints& made)
{
  if (!piece.modelled)
  {
    made.points[piece.points.front()] = post::swept_point(record);
    return;
  }
  const std::vector<Materials> materials = materials_of(plan, piece);
  const bool is_model = record.starts_with("{\"format\"");
  const post::SweptPoint same = is_model ? post::SweptPoint{} : post::swept_point(record);
  const post::KeptModel kept = is_model ? post::kept_model(record) : post::KeptModel{};
  for (std::size_t i = 0; i < piece.points.size(); ++i)
  {
    post::SweptPoint& point = made.points[piece.points[i]];
    if (!materials[i].fault.empty() || !is_model)
    {
      point = materials[i].fault.empty() ? same : not_built(materials[i].fault);
      continue;
    }
    const std::optional<double> frequency =
        kept.impedance ? std::optional(kept.impedance->model.fixed.frequency) : std::nullopt;
    std::vector<std::complex<double>> mu;
    for (const solver::VariedMaterial& one : kept.model.varied)
    {
      mu.push_back(permeability(materials[i], one.material, frequency));
    }
    point = post::at(kept, mu);
  }
  if (is_model)
  {
    made.models.push_back(kept);
  }
}

} // namespace

Case one_condition(Case read)
{
  solver::Problem& problem = read.problem;
  if (problem.frequencies.size() > 1)
  {
    problem.frequencies.clear();
  }
  if (problem.bias.size() > 1)
  {
    problem.bias.clear();
  }
  return read;
}

post::SweptPoint solved_in_full(const Case& read, int threads)
{
  if (!has_field(read.problem))
  {
    return post::swept_point(numbers(read, nullptr, nullptr, threads));
  }
  const Compared solved = with_air(read.problem, threads);
  return post::swept_point(numbers(read, &solved.own, &solved.air(), threads));
}

std::string worked_out(const SweepPlan& plan, const SweepPiece& piece, int threads)
{
  try
  {
    return piece.modelled
               ? modelled(plan, piece, threads)
               : post::json(solved_in_full(case_at(plan, piece.points.front()), threads));
  }
  catch (const CaseError& error)
  {
    return post::json(not_built(first_fault(error)));
  }
  catch (const std::bad_alloc&)
  {
    throw;
  }
  catch (const std::exception& error)
  {
    return post::json(not_built(error.what()));
  }
}

SweptPoints points(const SweepPlan& plan, const std::vector<std::string>& records)
{
  SweptPoints made;
  made.points.resize(plan.points);
  for (std::size_t i = 0; i < plan.pieces.size(); ++i)
  {
    read_back(plan, plan.pieces[i], records[i], made);
  }
  for (std::size_t i = 0; !plan.beside.empty() && i < plan.points; ++i)
  {
    if (made.points[i].fault.empty())
    {
      made.points[i].formulas = beside(plan, i, made.points[i]);
    }
  }
  return made;
}

std::string place_text(const std::vector<Varied>& varied, std::size_t point, bool materials)
{
  std::string text;
  const std::vector<std::size_t> at = indices(varied, point);
  for (std::size_t k = 0; k < at.size(); ++k)
  {
    if (materials || !std::ranges::all_of(varied[k].keys, is_material_key))
    {
      text +=
          (text.empty() ? "" : ", ") + short_name(varied[k]) + " " + varied[k].values[at[k]].text;
    }
  }
  return text;
}

} // namespace cases
