// The formula check as files: a chart a formula, all points as CSV, the record as JSON.
#pragma once

#include "post/chart.hpp"
#include "post/formula_check.hpp"

#include <span>
#include <string>
#include <vector>

namespace post
{

/// @brief What one run of the check holds.
struct FormulaCheck
{
  std::vector<CheckFamily> families;
  std::vector<CheckPoint> points;
  std::vector<FormulaScore> scores;
};

/// @brief Where a formula lies within 1, 5 and 20 % over its family's grid, its stated range
/// marked.
/// @param third  Index of the family's third parameter.
Chart formula_map(const FormulaCheck& check, const FormulaScore& score, std::size_t third);
/// @brief File name of that chart without its ending: "rod-spheroid-factor-2".
std::string map_name(const FormulaCheck& check, const FormulaScore& score, std::size_t third);

/// @brief One line a formula and shape: family, parameters, value, deviation, whether it holds.
std::string check_csv(const FormulaCheck& check);

/// @brief The document of `formulas --check --json`; ends in a newline.
std::string check_json(const FormulaCheck& check, const std::vector<std::string>& files);

/// @brief A value of an axis as people read it: its name, or its number with the label.
std::string axis_words(const CheckAxis& axis, std::size_t index);

} // namespace post
