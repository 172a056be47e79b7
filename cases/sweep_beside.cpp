// Hand formulas beside the points of a sweep: what they say of the quantity shown.
#include "cases/sweep_points.hpp"

#include "cases/draft.hpp"
#include "cases/fault.hpp"
#include "post/formulas.hpp"

#include <algorithm>
#include <limits>

namespace cases
{

namespace
{

constexpr double nothing = std::numeric_limits<double>::quiet_NaN();

/// Whether a formula says what is shown, as it is or turned round.
bool speaks_of(const post::FormulaResult& formula, const std::string& show)
{
  switch (formula.estimates)
  {
  case post::Estimates::inductance:
    return show == "inductance" || show == "apparent_permeability" ||
           show == "inductance_per_turn_squared";
  case post::Estimates::middle_permeability:
    return show == "apparent_permeability_middle";
  case post::Estimates::ballistic:
    return show == "ballistic_factor";
  case post::Estimates::magnetometric:
    return show == "magnetometric_factor" || show == "apparent_permeability_volume";
  default:
    return false;
  }
}

/// The formula's number as the quantity shown.
double turned(const post::FormulaResult& formula, const std::string& show, const Case& read,
              const post::SweptPoint& point)
{
  if (show == "apparent_permeability")
  {
    return formula.value / point.windings.front().air_inductance.value;
  }
  if (show == "inductance_per_turn_squared")
  {
    const double turns = point.windings.front().turns;
    return formula.value / (turns * turns);
  }
  if (show == "apparent_permeability_volume")
  {
    const auto part =
        std::ranges::find(read.problem.scene.parts, formula.subject, &mesh::Part::name);
    const double mu = solver::material(read.problem, part->material).permeability;
    return mu / (1.0 + formula.value * (mu - 1.0));
  }
  return formula.value;
}

} // namespace

std::vector<std::string> formulas_at(const SweepPlan& plan, std::size_t point)
{
  std::vector<std::string> names;
  try
  {
    const Case read = read_tree(plan.tree, plan.file, overrides(plan, point));
    for (const post::FormulaResult& one : post::formulas(read.problem))
    {
      if (speaks_of(one, plan.show))
      {
        names.push_back(one.name);
      }
    }
  }
  catch (const CaseError&)
  {
    names.clear(); // the point says why
  }
  return names;
}

std::vector<post::SweptQuantity> beside(const SweepPlan& plan, std::size_t index,
                                        const post::SweptPoint& point)
{
  const Case read = read_tree(plan.tree, plan.file, overrides(plan, index));
  const std::vector<post::FormulaResult> all = post::formulas(read.problem);
  std::vector<post::SweptQuantity> list;
  for (const std::string& name : plan.beside)
  {
    const auto found = std::ranges::find_if(
        all, [&](const post::FormulaResult& one)
        { return one.name == name && one.holds && speaks_of(one, plan.show); });
    const double value = found == all.end() ? nothing : turned(*found, plan.show, read, point);
    list.push_back({plan.show, name, "", {value, value, value}, post::Standing::estimated});
  }
  return list;
}

} // namespace cases
