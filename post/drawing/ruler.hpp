// An axis laid along the sheet: where a value lies, and the ticks with their words.
//
// Lengths in points. Knows nothing of what is drawn against it.
#pragma once

#include "post/chart.hpp"

#include <string>
#include <vector>

namespace post::drawing
{

/// @brief A mark on an axis; `words` is empty for the fine ones.
struct Tick
{
  double value = 0.0;
  std::string words;
};

/// @brief The range [from, to] laid from `low` to `high`; y axes run up, from a large to a small
///        place on the sheet.
struct Ruler
{
  bool logarithmic = false;
  double from = 0.0, to = 1.0;
  double low = 0.0, high = 1.0; ///< Places on the sheet [pt].
  std::string title;            ///< "inductance [µH]".
  std::vector<Tick> ticks = {};

  /// @brief Place of a value [pt]; finite for infinite values too, far beyond the frame.
  double at(double value) const;
  /// @brief The value at a place [pt].
  double value(double place) const;
};

/// @brief Least and greatest of what is drawn along an axis; lower > upper where nothing is.
struct Range
{
  double lower = 1.0;
  double upper = 0.0;
  bool below = false; ///< Something goes on below the range, an arrow say: leave room.
  bool above = false;
  void hold(double value); ///< Widens it to a value; infinite and NaN only mark the ends.
};

/// @brief The axis's range chosen and its ticks set, about `most` of them with words.
/// @param round  Rounds chosen ends outwards; else they are those of what is drawn.
Ruler ruler(const ChartAxis& axis, const Range& drawn, double low, double high, int most,
            bool round);

/// @brief Ticks at round numbers in [from, to], words in the units given to `ruler`.
/// @param factor  What a value is divided by before it is written.
std::vector<Tick> even_ticks(double from, double to, int most, double factor);
/// @brief Ticks at decades, or at 1, 2, 5 of each where there is room; fine ones at 2 to 9.
/// @param prefixes  Writes "10 k" instead of dividing by the factor.
std::vector<Tick> decade_ticks(double from, double to, int most, double factor, bool prefixes);

} // namespace post::drawing
