// Interval arithmetic of two brackets and the square law of turns.
#include "post/comparison.hpp"

#include "post/quantities.hpp"

#include <cmath>

namespace post
{

namespace
{

/// Volume of what is magnetic: a permeability of 1 changes nothing, whatever it fills.
double magnetic_volume(const Result& result)
{
  double volume = 0.0;
  for (const RegionResult& region : result.regions)
  {
    volume += region.permeability != 1.0 ? region.volume : 0.0;
  }
  return volume;
}

bool turn_by_turn(const solver::Problem& problem)
{
  const auto& windings = problem.scene.windings;
  return !windings.empty() && std::holds_alternative<mesh::RoundTurns>(windings.front().build);
}

} // namespace

std::vector<Compared> compared(std::span<const Result> results,
                               std::span<const solver::Problem> problems)
{
  std::vector<Compared> list;
  for (std::size_t i = 0; i < results.size(); ++i)
  {
    Compared& one = list.emplace_back();
    one.magnetic_volume = magnetic_volume(results[i]);
    one.turns_estimated = i > 0 && turn_by_turn(problems[i]);
    if (results.front().windings.empty() || results[i].windings.empty())
    {
      continue;
    }
    const WindingResult& winding = results[i].windings.front();
    const Bounded& first = results.front().windings.front().inductance;
    const Bounded& L = winding.inductance;
    one.ratio = i == 0
                    ? Bounded{1.0, 1.0, 1.0}
                    : Bounded{L.value / first.value, L.lower / first.upper, L.upper / first.lower};
    if (!in_parallel(problems[i].scene.windings.front()))
      one.turns_to_match =
          i == 0 ? winding.turns : winding.turns * std::sqrt(first.value / L.value);
  }
  return list;
}

} // namespace post
