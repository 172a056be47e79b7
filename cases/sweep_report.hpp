// What a sweep found, as people and programs read it: text, CSV, JSON, chart.
#pragma once

#include "cases/sheet.hpp"
#include "cases/sweep_points.hpp"
#include "post/chart.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace cases
{

struct SweepReport
{
  std::string title;
  std::string show;
  std::vector<Varied> varied;
  SweptPoints swept;
  std::vector<std::string> beside; ///< Hand formulas drawn beside.
  double accuracy_asked = 1e-3;
  LeftOut left_out;
  std::vector<std::string> files;
};

/// @brief What a chart may show, what it is called, and its unit.
struct ShownQuantity
{
  std::string word; ///< As a case says it.
  const char* label;
  const char* column; ///< The same, shorter.
  const char* unit;
  bool sought = false; ///< Has bounds and a unit that can be typed: a search may ask for it.
};
/// @brief Words of all: three of windings at rest, then names of post::SweptQuantity. Which one is
///        meant where the case is silent, its points decide.
std::span<const std::string> shown_words();
/// @brief Those a search may ask for.
std::vector<std::string> sought_words();
ShownQuantity quantity_of(const std::string& show);

/// @brief Points from the records of a plan's pieces.
SweepReport sweep_report(const SweepPlan& plan, const std::vector<std::string>& records);
/// @brief quality_unreached where a point is missing or too wide, else done.
int status(const SweepReport& report);

/// @brief What is shown of a winding, part, wire or toroid, with its bounds; nothing where the
/// point
///        does not have it.
std::optional<post::SweptQuantity> shown(const post::SweptPoint& point, const std::string& of,
                                         const std::string& show);
/// @brief Names of all that have it, in the order they come up.
std::vector<std::string> shown_of(const std::vector<post::SweptPoint>& points,
                                  const std::string& show);
/// @brief Quantities other than those at rest that any point has: word and owner, in order.
std::vector<post::SweptQuantity> quantities_of(const std::vector<post::SweptPoint>& points);

/// @brief Tables of what points have beside windings at rest, one an owner.
Sheet quantity_tables(const SweepReport& report);
/// @brief Cells of a point's values of the varied keys, and their headings.
std::vector<std::string> key_cells(const SweepReport& report, std::size_t point);
std::vector<std::string> key_headings(const std::vector<Varied>& varied);
std::string value_cell(const Varied& varied, std::size_t index);
/// @brief Longer tables keep only so many rows at either end; the indices of those shown, with
///        `skipped` in place of the others.
inline constexpr std::size_t skipped = static_cast<std::size_t>(-1);
std::vector<std::size_t> rows_shown(std::size_t points);

/// @brief A table a winding, long ones shortened in the middle; then what was not built and why.
Sheet sweep_text(const SweepReport& report);
/// @brief Every point on a line, brackets as columns, units in the header [RFC 4180].
std::string sweep_csv(const SweepReport& report);
/// @brief The document of `sweep --json` and sweep.json; ends in a newline.
std::string sweep_document(const SweepReport& report);
/// @brief Lines over one key, lines or filled contours over two; nothing for more.
std::optional<post::Chart> sweep_chart(const SweepReport& report);

/// @brief The first point that could be built; null where none could.
const post::SweptPoint* first_built(const SweepReport& report);

} // namespace cases
