// Hand formulas an engineer would have used, each with its source and where it holds.
#pragma once

#include "post/result.hpp"
#include "solver/problem.hpp"

#include <vector>

namespace post
{

/// @brief Every formula that speaks about this problem's first winding (or background field).
///
/// Values only; `deviation` is left empty, see judged().
std::vector<FormulaResult> formulas(const solver::Problem& problem);

/// @brief The same list set against the field's brackets: 0 inside, else distance to the nearer
///        end as a fraction of it.
std::vector<FormulaResult> judged(std::vector<FormulaResult> list, const Result& result);

} // namespace post
