// From a solution to the numbers people ask for: inductances, ledger, peaks, probes.
#pragma once

#include "post/result.hpp"
#include "solver/problem.hpp"

#include <span>

namespace solver
{
struct Solution;
}

namespace post
{

/// @brief A point to read the field at [m].
struct ProbePoint
{
  std::string name;
  mesh::Point at;
};

/// @brief All numbers of a solved case but the hand formulas; title and files left empty.
/// @param solution  The case as described.
/// @param air       The same case with every material taken as air; equal to `solution` is fine.
Result result(const solver::Solution& solution, const solver::Solution& air,
              std::span<const ProbePoint> probes);

/// @brief The problem with every material taken as air.
solver::Problem in_air(const solver::Problem& problem);

} // namespace post
