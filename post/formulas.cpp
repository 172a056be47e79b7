// Gathers the families' hand formulas, those that know the materials first, and sets them against
// the field's brackets.
#include "post/formulas.hpp"

#include "post/formula_families.hpp"
#include "post/quantities.hpp"

#include <algorithm>
#include <cmath>

namespace post
{
namespace
{

template <class List> auto named(const List& list, const std::string& name)
{
  return std::ranges::find(list, name, [](const auto& one) { return one.name; });
}

std::optional<Bounded> mutual(const Result& result, const std::string& other)
{
  const auto found = named(result.windings, other);
  const auto column = static_cast<std::size_t>(found - result.windings.begin());
  if (found == result.windings.end() || result.mutual.empty() ||
      column >= result.mutual.front().size())
  {
    return std::nullopt;
  }
  return result.mutual.front()[column];
}

/// A number without a bracket, as one of no width.
Bounded bare(double value)
{
  return {value, value, value};
}

std::optional<Bounded> demagnetisation(const Result& result, const FormulaResult& formula)
{
  const auto region = named(result.regions, formula.subject);
  if (region == result.regions.end() || !region->demagnetisation)
  {
    return std::nullopt;
  }
  const Demagnetisation& field = *region->demagnetisation;
  switch (formula.estimates)
  {
  case Estimates::middle_permeability:
    return bare(field.apparent_permeability_middle);
  case Estimates::ballistic:
    return field.ballistic ? std::optional(bare(*field.ballistic)) : std::nullopt;
  default:
    return field.magnetometric;
  }
}

/// The field's number that the formula estimates, where the result has it.
std::optional<Bounded> yardstick(const Result& result, const FormulaResult& formula)
{
  switch (formula.estimates)
  {
  case Estimates::inductance:
    return result.windings.empty() ? std::nullopt
                                   : std::optional(result.windings.front().inductance);
  case Estimates::air_inductance:
    return result.windings.empty() ? std::nullopt
                                   : std::optional(result.windings.front().air_inductance);
  case Estimates::mutual_inductance:
    return mutual(result, formula.subject);
  default:
    return demagnetisation(result, formula);
  }
}

/// The formulas in stock know turns in series only.
solver::Problem told_to_formulas(const solver::Problem& problem)
{
  solver::Problem told = problem;
  if (std::ranges::any_of(told.scene.windings, in_parallel))
    told.scene.windings.clear();
  return told;
}

} // namespace

std::vector<FormulaResult> formulas(const solver::Problem& problem)
{
  const solver::Problem told = told_to_formulas(problem);
  const FormulaScene scene = formula_scene(told);
  std::vector<FormulaResult> list;
  for (const auto family : {background_formulas, coating_formulas, rod_formulas, gap_formulas,
                            sleeve_formulas, ring_formulas, air_coil_formulas, mutual_formulas})
  {
    const std::vector<FormulaResult> some = family(scene);
    list.insert(list.end(), some.begin(), some.end());
  }
  return list;
}

std::vector<FormulaResult> judged(std::vector<FormulaResult> list, const Result& result)
{
  for (FormulaResult& formula : list)
  {
    const std::optional<Bounded> field = yardstick(result, formula);
    if (!field)
    {
      continue;
    }
    const double nearest = std::clamp(formula.value, field->lower, field->upper);
    if (nearest == formula.value)
    {
      formula.deviation = 0.0;
    }
    else if (nearest != 0.0)
    {
      formula.deviation = (formula.value - nearest) / std::abs(nearest);
    }
  }
  return list;
}

} // namespace post
