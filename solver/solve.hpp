// One problem solved to its asked accuracy: mesh, solve, bracket, refine, until the gap is closed.
#pragma once

#include "solver/problem.hpp"

namespace solver
{

struct Solution;

/// @brief Solves until every self inductance's bracket is as narrow as asked, or a floor is met.
///
/// Linear magnetostatics about the axis, all of open space included. With a background field and
/// no winding, the bracket driven down is that of the total magnetic moment.
/// @param threads  1, or more to work on both sides of the field at once; the numbers are the same.
/// @throws std::invalid_argument for a problem with nothing to solve or an unknown material.
/// @throws std::runtime_error when meshing or a factorisation fails.
Solution solve(const Problem& problem, int threads = 1);

/// @brief The same scene with other permeabilities, beginning on a mesh already refined for some.
/// @param start  A solution of the same scene; from one, one at a time.
Solution solve_from(const Problem& problem, const Solution& start, int threads = 1);

} // namespace solver
