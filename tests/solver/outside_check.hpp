// Scenes and comparisons shared by the checks of the field against solutions known otherwise.
#pragma once

#include "post/quantities.hpp"
#include "solver/solution.hpp"
#include "solver/solve.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

namespace outside
{

inline constexpr double mm = 1e-3;

/// @brief A problem of plain windings, to be solved to `accuracy`.
inline solver::Problem coils(const std::vector<mesh::Winding>& windings, double accuracy)
{
  solver::Problem problem;
  problem.scene.windings = windings;
  problem.accuracy = accuracy;
  return problem;
}

inline void add_part(solver::Problem& problem, const mesh::Shape& shape, double permeability)
{
  problem.materials["core"] = {.permeability = permeability};
  problem.scene.parts.push_back({"core", shape, "core", 0.0, std::nullopt});
}

inline post::Result solved(const solver::Problem& problem)
{
  const solver::Solution solution = solver::solve(problem);
  return post::result(solution, solution, {});
}

/// @brief Checks that the bracket holds the truth and is as narrow as asked.
/// @param truth  Known but for `doubt`, in the same unit.
inline void check_inside(const post::Bounded& bracket, double truth, double doubt, double accuracy)
{
  const double width = (bracket.upper - bracket.lower) / 2.0;
  CAPTURE(truth, doubt, bracket.lower / truth - 1.0, bracket.upper / truth - 1.0);
  CHECK(bracket.lower <= truth + doubt);
  CHECK(bracket.upper >= truth - doubt);
  CHECK(width <= accuracy * bracket.value);
}

} // namespace outside
