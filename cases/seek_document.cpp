// The document of a search, key by key, and its chart.
#include "cases/seek_report.hpp"
#include "cases/sweep_report.hpp"
#include "cases/table.hpp"
#include "post/engineering.hpp"
#include "post/version.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <nlohmann/json.hpp>

namespace cases
{

namespace
{

using Json = nlohmann::ordered_json;

Json number(const std::optional<double>& value)
{
  return value && std::isfinite(*value) ? Json(*value) : Json(nullptr);
}

/// "inductance_H"; a pure number has no unit to end in.
std::string quantity_key(const SeekReport& report)
{
  const std::string unit = quantity_of(report.show).unit;
  return unit.empty() ? report.show : report.show + "_" + unit;
}

Json values(const SeekReport& report, const std::vector<post::TriedValue>& list)
{
  Json rows = Json::array();
  for (const post::TriedValue& one : list)
  {
    Json row = {{"value", one.at}};
    if (one.fault.empty())
    {
      row[quantity_key(report)] = {{"value", one.quantity.value},
                                   {"lower", one.quantity.lower},
                                   {"upper", one.quantity.upper}};
      row["status"] = one.accuracy_reached ? "ok" : "accuracy not reached";
    }
    else
    {
      row["status"] = "not built";
      row["fault"] = one.fault;
    }
    rows.push_back(std::move(row));
  }
  return rows;
}

} // namespace

std::string seek_document(const SeekReport& report)
{
  const post::Sought& found = report.found;
  Json all = {{"tool", "ferrule"},
              {"version", post::version()},
              {"title", report.searched.title},
              {"status", seek_status(report)}};
  all["accuracy"] = {{"asked", report.accuracy_asked}};
  all["sought"] = {{"winding", report.owner}, {quantity_key(report), report.question.target}};
  all["key"] = fmt::format("{}", fmt::join(report.key.keys, ","));
  all["unit"] = si_unit(report.key.kind);
  all["range"] = {report.key.from, report.key.to};
  all["found"] = {{"value", number(found.value)},
                  {"lower", number(found.lower)},
                  {"upper", number(found.upper)}};
  all["interval"] = "at lower and at upper the true quantity is surely on contrary sides of the "
                    "target; null: no such value in the range";
  if (report.key.from > 0.0 && found.value)
  {
    all["relative_slope"] = number(found.slope);
  }
  if (!found.neighbours.empty())
  {
    all["whole_numbers"] = values(report, found.neighbours);
  }
  all["other_ranges"] = Json::array();
  for (const auto& [a, b] : found.others)
  {
    all["other_ranges"].push_back({a, b});
  }
  all["tried"] = values(report, found.tried);
  all["files"] = report.files;
  return all.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::optional<post::Chart> seek_chart(const SeekReport& report)
{
  post::Chart chart;
  const ShownQuantity quantity = quantity_of(report.show);
  chart.title = plain(report.searched.title);
  chart.subtitle = fmt::format("{} of {} by {}, and the {} wanted", quantity.label,
                               plain(report.owner), plain(report.key.keys.front()),
                               post::engineering(report.question.target, quantity.unit, 4));
  const std::string key = report.key.keys.front();
  chart.x = {plain(key.substr(key.find('.') + 1)), si_unit(report.key.kind),
             report.key.from > 0.0 && report.key.to > 10.0 * report.key.from};
  post::ChartLine line{plain(report.owner), {}, {}};
  double least = report.question.target, most = least;
  for (const post::TriedValue& one : report.found.tried)
  {
    if (one.fault.empty())
    {
      line.x.push_back(one.at);
      line.y.push_back(one.quantity.value);
      least = std::min(least, one.quantity.value);
      most = std::max(most, one.quantity.value);
    }
  }
  if (line.x.size() < 2)
  {
    return std::nullopt;
  }
  chart.y = {quantity.label, quantity.unit, most > 30.0 * least};
  chart.lines = {line,
                 {"wanted",
                  {report.key.from, report.key.to},
                  {report.question.target, report.question.target}}};
  if (report.found.value)
  {
    chart.points = {{"", {}, {}}, {"", {*report.found.value}, {report.question.target}}};
    if (report.found.lower && report.found.upper)
    {
      chart.points.back().x_lower = {*report.found.lower};
      chart.points.back().x_upper = {*report.found.upper};
    }
  }
  return chart;
}

} // namespace cases
