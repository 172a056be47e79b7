// Whole reports as people read them on standard output, put together from the sections.
#pragma once

#include "cases/case.hpp"
#include "cases/insight.hpp"
#include "cases/sheet.hpp"
#include "post/comparison.hpp"
#include "post/result.hpp"

#include <span>
#include <string>
#include <vector>

namespace cases
{

/// @brief The report of `solve`.
Sheet solve_text(const Case& read, const post::Result& result, std::span<const Tried> tried);

/// @brief What limits the design and what a change would gain, in sentences.
Sheet meaning_text(const post::Result& result, std::span<const Tried> tried);

/// @brief The report of `compare`; all three run parallel, the first case is the yardstick.
Sheet compare_text(std::span<const Case> read, std::span<const post::Result> results,
                   std::span<const post::Compared> compared);

/// @brief The report of `formulas`: value, range and source of each.
Sheet formulas_text(const Case& read, std::span<const post::FormulaResult> formulas);

} // namespace cases
