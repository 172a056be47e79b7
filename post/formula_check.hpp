// The catalogue of hand formulas against field solutions, over a grid of shapes a family.
//
// Families -> points, each solved and its formulas judged -> scores. Every deviation is that beyond
// the field's own bracket.
#pragma once

#include "post/formula_result.hpp"
#include "solver/problem.hpp"

#include <array>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace post
{

/// @brief One parameter of a grid, a pure number; charted by `names` where they are given.
struct CheckAxis
{
  std::string label; ///< "length / diameter"
  std::vector<double> values;
  bool logarithmic = false;
  std::vector<std::string> names = {}; ///< Of uneven or unlike values, one each.
};

/// @brief Shapes that the same formulas speak about: two main parameters, a third as a list.
struct CheckFamily
{
  std::string name;  ///< Of files: "rod".
  std::string title; ///< Of people: "coil over a whole rod".
  CheckAxis x, y, third;
  std::function<solver::Problem(double x, double y, double third)> problem;
  std::vector<std::string> about = {}; ///< How the names of its formulas begin; empty: all.
  double accuracy = 1e-3; ///< Of the brackets: finer where formulas are, or numbers have none.
};
/// @brief The families of the catalogue. @param fine  Twice as dense along even axes.
std::vector<CheckFamily> check_families(bool fine);

/// @brief One shape, solved; its formulas judged.
struct CheckPoint
{
  std::size_t family = 0;
  std::size_t x = 0, y = 0, third = 0; ///< Into the axes' values.
  std::vector<FormulaResult> formulas; ///< Empty where it could not be solved.
  double bracket = 0.0;                ///< Relative half-width reached.
  bool reached = false;                ///< The asked accuracy.
  std::string trouble = {};            ///< Why it was not solved.
};
/// @brief Solves all shapes, `threads` at once, in the order family, third, y, x.
/// @param step  Called from one thread at a time with the number of shapes done.
std::vector<CheckPoint> check_points(std::span<const CheckFamily> families, int threads,
                                     const std::function<void(std::size_t)>& step);

/// @brief How many of some points lie within 1, 5 and 20 %.
struct Tally
{
  int points = 0;
  std::array<int, 3> within = {};
};
inline constexpr std::array tally_limits = {0.01, 0.05, 0.20};

/// @brief A formula's record over its family's grid.
struct FormulaScore
{
  std::size_t family = 0;
  std::string name, source, range, unit;
  std::optional<double> claim;     ///< Largest deviation its range promises, 0 for "exact".
  Tally inside, outside;           ///< Where it says it holds; elsewhere on the grid.
  double worst = 0.0;              ///< Signed, of `inside`.
  std::array<std::size_t, 3> at{}; ///< Where: indices x, y, third.
  int broken = 0;                  ///< Points inside that miss the claim.
};
/// @brief One score a formula, families in order, formulas as first met.
std::vector<FormulaScore> formula_scores(std::span<const CheckPoint> points);
/// @brief The accuracy a range text opens with: "1 % for ...", "3 ppm ...", "exact"; else none.
std::optional<double> claimed(const std::string& range);

} // namespace post
