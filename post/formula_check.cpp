// Shapes are handed to threads one by one; a shape's result does not depend on which took it.
#include "post/formula_check.hpp"

#include "post/formulas.hpp"
#include "post/quantities.hpp"
#include "solver/at_once.hpp"
#include "solver/solution.hpp"
#include "solver/solve.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <mutex>

namespace post
{
namespace
{

bool all_air(const solver::Problem& problem)
{
  return std::ranges::all_of(problem.materials,
                             [](const auto& one) { return one.second.permeability == 1.0; });
}

bool concerns(const CheckFamily& family, const FormulaResult& formula)
{
  return family.about.empty() ||
         std::ranges::any_of(family.about, [&](const std::string& beginning)
                             { return formula.name.starts_with(beginning); });
}

/// A ballistic factor is what N (mu - 1) leaves of the middle's field; below 10 % it is not
/// told well by a field without a bracket, and hardly matters.
void drop_faint_factors(std::vector<FormulaResult>& formulas, const Result& numbers)
{
  for (const RegionResult& region : numbers.regions)
  {
    const auto& field = region.demagnetisation;
    const bool faint =
        field && field->ballistic && *field->ballistic * (region.permeability - 1.0) < 0.1;
    std::erase_if(
        formulas, [&](const FormulaResult& one)
        { return faint && one.estimates == Estimates::ballistic && one.subject == region.name; });
  }
}

/// Fills a point.
void solve_point(const CheckFamily& family, CheckPoint& point)
{
  try
  {
    solver::Problem problem = family.problem(family.x.values[point.x], family.y.values[point.y],
                                             family.third.values[point.third]);
    problem.accuracy = family.accuracy;
    const solver::Solution solution = solver::solve(problem);
    point.bracket = solution.accuracy_met;
    point.reached = solution.accuracy_reached;
    std::vector<FormulaResult> list = formulas(problem);
    // Of a core's case no field without the core is known; coils have families of their own.
    const bool bare = all_air(problem);
    std::erase_if(list,
                  [&](const FormulaResult& one) {
                    return !concerns(family, one) ||
                           (!bare && one.estimates == Estimates::air_inductance);
                  });
    const Result numbers = result(solution, solution, {});
    point.formulas = judged(std::move(list), numbers);
    drop_faint_factors(point.formulas, numbers);
  }
  catch (const std::exception& error)
  {
    point.trouble = error.what();
  }
}

std::vector<CheckPoint> empty_points(std::span<const CheckFamily> families)
{
  std::vector<CheckPoint> points;
  for (std::size_t f = 0; f < families.size(); ++f)
  {
    for (std::size_t k = 0; k < families[f].third.values.size(); ++k)
    {
      for (std::size_t j = 0; j < families[f].y.values.size(); ++j)
      {
        for (std::size_t i = 0; i < families[f].x.values.size(); ++i)
        {
          points.push_back({.family = f, .x = i, .y = j, .third = k, .formulas = {}});
        }
      }
    }
  }
  return points;
}

void count(Tally& tally, double deviation)
{
  ++tally.points;
  for (std::size_t i = 0; i < tally_limits.size(); ++i)
  {
    tally.within[i] += std::abs(deviation) <= tally_limits[i] ? 1 : 0;
  }
}

/// What the field at the middle, which has no bracket of its own, is uncertain by: a ball in a
/// shell, whose answer is exact, comes out this close.
constexpr double unbracketed = 1e-4;

bool misses(const FormulaResult& formula, double claim)
{
  const bool bare = formula.estimates == Estimates::middle_permeability ||
                    formula.estimates == Estimates::ballistic;
  return std::abs(*formula.deviation) > claim + (bare ? unbracketed : 0.0);
}

void count(FormulaScore& score, const CheckPoint& point, const FormulaResult& formula)
{
  const double deviation = *formula.deviation;
  if (!formula.holds)
  {
    count(score.outside, deviation);
    return;
  }
  if (score.inside.points == 0)
  {
    score.range = formula.why;
    score.claim = claimed(formula.why);
  }
  count(score.inside, deviation);
  score.broken += score.claim && misses(formula, *score.claim) ? 1 : 0;
  if (score.inside.points == 1 || std::abs(deviation) > std::abs(score.worst))
  {
    score.worst = deviation;
    score.at = {point.x, point.y, point.third};
  }
}

} // namespace

std::vector<CheckPoint> check_points(std::span<const CheckFamily> families, int threads,
                                     const std::function<void(std::size_t)>& step)
{
  std::vector<CheckPoint> points = empty_points(families);
  std::mutex telling;
  std::size_t finished = 0;
  solver::at_once(points.size(), threads,
                  [&](std::size_t i)
                  {
                    solve_point(families[points[i].family], points[i]);
                    const std::lock_guard lock(telling);
                    step(++finished);
                  });
  return points;
}

std::vector<FormulaScore> formula_scores(std::span<const CheckPoint> points)
{
  std::vector<FormulaScore> scores;
  for (const CheckPoint& point : points)
  {
    for (const FormulaResult& formula : point.formulas)
    {
      if (!formula.deviation)
      {
        continue;
      }
      auto found =
          std::ranges::find_if(scores, [&](const FormulaScore& one)
                               { return one.family == point.family && one.name == formula.name; });
      if (found == scores.end())
      {
        FormulaScore score;
        score.family = point.family;
        score.name = formula.name;
        score.source = formula.source;
        score.unit = formula.unit;
        found = scores.insert(scores.end(), std::move(score));
      }
      count(*found, point, formula);
    }
  }
  return scores;
}

std::optional<double> claimed(const std::string& range)
{
  if (range.starts_with("exact"))
  {
    return 0.0;
  }
  char* end = nullptr;
  const double number = std::strtod(range.c_str(), &end);
  const std::string unit = end;
  if (end == range.c_str())
  {
    return std::nullopt;
  }
  return unit.starts_with(" ppm") ? number * 1e-6 : unit.starts_with(" %") ? number * 1e-2 : number;
}

} // namespace post
