// What a sweep found, as people and programs read it: text, CSV, JSON, chart.
#pragma once

#include "cases/sheet.hpp"
#include "cases/sweep_points.hpp"
#include "post/chart.hpp"

#include <optional>
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
  double accuracy_asked = 1e-3;
  bool at_rest_only = false; ///< The case names frequencies, which are left out.
  std::vector<std::string> files;
};

/// @brief What one of shown_words() is called, and its unit.
struct ShownQuantity
{
  const char* label;
  const char* unit;
};
ShownQuantity quantity_of(const std::string& show);
/// @brief Points from the records of a plan's pieces.

SweepReport sweep_report(const SweepPlan& plan, const std::vector<std::string>& records);
/// @brief quality_unreached where a point is missing or too wide, else done.
int status(const SweepReport& report);

/// @brief What is shown of a winding, with what its brackets leave of it.
post::Bounded shown(const post::WindingResult& winding, const std::string& show);

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
