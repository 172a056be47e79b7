// The value of one number of a case at which a bounded quantity meets a target.
//
// Knows a function from the number to a bracket, and nothing of keys or fields.
#pragma once

#include "post/result.hpp"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace post
{

/// @brief What the case has at one value of the number.
struct TriedValue
{
  double at = 0.0;
  Bounded quantity; ///< > 0 where there is no fault.
  /// d ln quantity / d ln at, where it is known; the energy ledger knows it for materials.
  std::optional<double> slope = {};
  bool accuracy_reached = true;
  std::string fault = {}; ///< Why there is no quantity; empty where there is one.
};

struct SeekQuestion
{
  double target = 0.0; ///< > 0
  double from = 0.0;   ///< < to; steps go by factors where from > 0.
  double to = 0.0;
  double own = 0.0;   ///< Where several values meet the target, the nearest to this is meant.
  bool whole = false; ///< Only whole numbers can be tried.
  std::function<TriedValue(double)> tried; ///< Called by several threads at once.
};

struct Sought
{
  std::vector<TriedValue> tried; ///< Ascending.
  /// The value whose bracket's middle meets the target; between whole numbers, interpolated.
  std::optional<double> value;
  /// Ends at which the quantity is surely on contrary sides of the target, so that some value
  /// between meets it if the quantity has no jumps; empty where the range ends before.
  std::optional<double> lower, upper;
  double slope =
      0.0; ///< d ln quantity / d ln at near the value, d ln quantity / d at for from <= 0.
  std::vector<TriedValue> neighbours; ///< Whole numbers on either side of the value, if whole.
  std::vector<std::pair<double, double>>
      others; ///< Further gaps between tried values that hold one.
};

/// @brief Looks through the range, then closes in: Newton where the slope is known, else inverse
///        interpolation, bisection where either leaves the gap.
Sought sought(const SeekQuestion& question, int threads);

} // namespace post
