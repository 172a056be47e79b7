// Tolerances as people write them: "1 %", "0.2 uH", ["0.5 %", "0.1 uH"], and how they are spread.
#pragma once

#include "cases/reading.hpp"
#include "cases/section.hpp"

#include <span>

namespace cases
{

/// @brief A tolerance before it is known of what: its half-width is relative |value| + absolute.
struct ToleranceText
{
  double relative = 0.0;
  double absolute = 0.0;             ///< [SI]
  std::optional<Kind> absolute_kind; ///< Nothing where all is relative.

  double half_width(double value) const;
};

/// @brief Reads a tolerance: one text, one bare number where pure numbers may be, or a list.
///
/// Shares are written in % or ppm; a list is summed.
/// @param kinds  What an absolute part may be; the first that fits counts.
std::optional<ToleranceText> read_tolerance(Section& section, std::string_view key,
                                            std::span<const Kind> kinds);

struct SpreadKeys
{
  post::Spread spread = post::Spread::uniform;
  double coverage_factor = 2.0;
};
/// @brief `distribution` and `coverage_factor`.
SpreadKeys read_spread(Section& section);

} // namespace cases
