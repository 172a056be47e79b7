// Keys looked up in the case, values moved by overrides, readings sorted into groups.
#include "cases/fit_case.hpp"

#include "cases/fit_unknown.hpp"
#include "cases/overrides.hpp"
#include "cases/pipeline.hpp"
#include "cases/text_file.hpp"
#include "mesh/layout.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace cases
{

namespace
{

/// Field accuracy where dimensions are moved: far below what tolerances change.
constexpr double fit_accuracy = 1e-4;

std::string as_value(double si, Kind kind)
{
  return kind == Kind::length ? fmt::format("{:.17g} m", si) : fmt::format("{:.17g}", si);
}

std::string last_piece(const std::string& key)
{
  std::string name = key.substr(key.rfind('.') + 1);
  std::ranges::replace(name, '_', ' ');
  return name;
}

/// Turns and layers of wire drawn turn by turn come in whole numbers.
bool takes_whole_numbers(const std::string& key, const mesh::Scene& scene)
{
  return std::ranges::any_of(scene.windings,
                             [&key](const mesh::Winding& winding)
                             {
                               const std::string own = "windings." + winding.name;
                               return std::holds_alternative<mesh::RoundTurns>(winding.build) &&
                                      (key == own + ".turns" || key == own + ".layers");
                             });
}

void add_dimensions(FitCase& made, const Readings& readings, Node& root, std::vector<Kind>& kinds,
                    std::vector<Fault>& faults)
{
  for (const CaseTolerance& tolerance : readings.tolerances)
  {
    const auto found = number_at(tolerance.key, root, tolerance.where, faults);
    if (!found)
    {
      continue;
    }
    if (tolerance.absolute > 0.0 && tolerance.absolute_kind != found->kind)
    {
      faults.push_back({tolerance.where,
                        fmt::format("{} is {}, its tolerance is {}", tolerance.key,
                                    noun(found->kind), noun(tolerance.absolute_kind)),
                        "give both in the same kind of unit, or the tolerance in %"});
      continue;
    }
    const HalfWidth width = half_width(tolerance, found->si);
    if (width.value > 0.0)
    {
      made.question.dimensions.push_back(uncertain(tolerance.key, found->si, width));
      kinds.push_back(found->kind);
      made.question.whole.push_back(takes_whole_numbers(tolerance.key, made.read.problem.scene));
    }
  }
}

} // namespace

FitCase fit_case(const std::filesystem::path& file, const Readings& readings,
                 const Options& options)
{
  FitCase made;
  made.read = read_with(file, options);
  made.question.key = readings.unknown;
  made.noun = last_piece(readings.unknown);
  std::vector<Fault> faults;
  Node root = tree(read_text(file), file.string());
  apply(options.sets, root, faults);
  std::vector<Kind> kinds;
  add_dimensions(made, readings, root, kinds, faults);
  const bool material = ask_material(made, readings.unknown);
  const double accuracy = std::min(made.read.problem.accuracy, fit_accuracy);
  const std::optional<Node> own =
      material ? std::nullopt : value_of(readings.unknown, root, readings.unknown_where, faults);
  const std::optional<Number> unknown = own ? number(*own) : std::nullopt;
  made.question.problem = [=, sets = options.sets, key = readings.unknown,
                           dimensions = made.question.dimensions](const post::Moved& moved)
  {
    std::vector<Override> all = sets;
    if (moved.unknown && unknown)
    {
      all.push_back({key, as_value(*moved.unknown, unknown->kind)});
    }
    if (moved.dimension)
    {
      all.push_back(
          {dimensions[*moved.dimension].name, as_value(moved.value, kinds[*moved.dimension])});
    }
    solver::Problem problem = read_case(file, all).problem;
    problem.accuracy = accuracy;
    problem.background.reset();
    return problem;
  };
  if (material)
  {
    check_used(made, readings, faults);
  }
  else if (own)
  {
    ask_dimension(made, readings, root, faults);
  }
  made.groups = fit_groups(readings, made.read.problem, faults);
  made.bare_coil = std::ranges::any_of(made.groups,
                                       [](const FitGroup& group)
                                       {
                                         return std::ranges::any_of(
                                             group.readings, [](const post::FitReading& one)
                                             { return one.bare.has_value(); });
                                       });
  if (!faults.empty())
  {
    std::ranges::stable_sort(
        faults, {}, [](const Fault& one) { return std::pair(one.where.line, one.where.column); });
    throw CaseError(std::move(faults));
  }
  return made;
}

} // namespace cases
