// From a solution to the numbers people ask for: inductances, ledger, peaks, probes.
#pragma once

#include "post/probe.hpp"
#include "post/result.hpp"
#include "solver/problem.hpp"

#include <span>

namespace solver
{
struct Solution;
}

namespace post
{

/// @brief All numbers of a solved case but the hand formulas; title and files left empty.
/// @param solution  The case as described.
/// @param air       The same case with every material taken as air; equal to `solution` is fine.
Result result(const solver::Solution& solution, const solver::Solution& air,
              std::span<const ProbePoint> probes);

/// @brief Length of wire of a winding drawn turn by turn, or of given strands [m], and its dc
/// resistance [ohm], of the problem's copper at its temperature.
struct Wire
{
  double length = 0.0;
  double dc_resistance = 0.0;
};
/// @brief Whether all its turns share one voltage.
bool in_parallel(const mesh::Winding& winding);
/// @brief Turns in series; those in parallel count as one.
double series_turns(const mesh::Winding& winding);
std::optional<Wire> wire(const solver::Problem& problem, const mesh::Winding& winding);

/// @brief The problem with every material taken as air.
solver::Problem in_air(const solver::Problem& problem);

} // namespace post
