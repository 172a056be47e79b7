// Solved cases set against the first of them: ratios with their brackets, turns to match.
//
// Results -> what compare prints and writes. Knows no text.
#pragma once

#include "post/result.hpp"
#include "solver/problem.hpp"

#include <optional>
#include <span>
#include <vector>

namespace post
{

/// @brief One case against the yardstick, by the first winding of each; empty where either has
/// none.
struct Compared
{
  /// Inductance over that of the first case, with the interval the two brackets leave.
  std::optional<Bounded> ratio;
  /// Turns that give the yardstick's inductance, N sqrt(L_first / L); not rounded. None for turns
  /// in parallel.
  std::optional<double> turns_to_match;
  /// Turn by turn: other turns would lie elsewhere, so N^2 is only nearly the law.
  bool turns_estimated = false;
  double magnetic_volume = 0.0; ///< Of regions whose permeability is not 1 [m^3].
};

/// @brief Every case against the first.
///
/// ratio in [lower_i / upper_1, upper_i / lower_1]; the first against itself is exactly 1.
/// @param results   At least one.
/// @param problems  What was solved, in the same order.
std::vector<Compared> compared(std::span<const Result> results,
                               std::span<const solver::Problem> problems);

} // namespace post
