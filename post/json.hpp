// Results as JSON documents: SI units, every key ends in its unit, full precision.
//
// Last station for programs. A number that does not exist is null, never NaN.
#pragma once

#include "post/comparison.hpp"
#include "post/result.hpp"

#include <span>
#include <string>
#include <vector>

namespace post
{

/// @brief The document of `solve --json` and result.json; ends in a newline.
std::string json(const Result& result);

/// @brief One winding as it stands in the document of `solve`, on one line.
std::string json(const WindingResult& winding);

/// @brief The document of `compare --json` and comparison.json; ends in a newline.
std::string json(std::span<const Result> results, std::span<const Compared> compared);

/// @brief The document of `formulas --json`: title and formulas only; ends in a newline.
std::string json(const std::string& title, std::span<const FormulaResult> formulas);

} // namespace post
