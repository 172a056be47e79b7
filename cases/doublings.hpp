// The case with one thing doubled: what a designer would try next.
//
// Problem -> changed problems; solving them is the command's business. A change that makes
// bodies overlap, or one swallow another (a core its winding), is left out.
#pragma once

#include "post/result.hpp"
#include "solver/problem.hpp"

#include <string>
#include <vector>

namespace cases
{

/// @brief A changed problem and the words for it: "twice the length of core (120 mm)".
struct Change
{
  std::string what;
  solver::Problem problem;
};

/// @brief The magnetic region that holds most of the first winding's energy (most volume where
///        there is no winding); null where nothing is magnetic.
const post::RegionResult* main_region(const post::Result& result);

/// @brief Twice the permeability, length, diameter or coating of the main region, where possible.
///
/// Asked accuracy 1e-3: a gain need not be known better.
std::vector<Change> doublings(const solver::Problem& problem, const post::Result& result);

} // namespace cases
