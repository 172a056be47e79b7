// sweep.json: keys, then every point with its values and windings.
#include "cases/sweep_report.hpp"

#include "post/version.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <nlohmann/json.hpp>

namespace cases
{

namespace
{

using Json = nlohmann::ordered_json;

Json values(const SweepReport& report, std::size_t point)
{
  Json list = Json::array();
  const std::vector<std::size_t> at = indices(report.varied, point);
  for (std::size_t k = 0; k < at.size(); ++k)
  {
    const VariedValue& value = report.varied[k].values[at[k]];
    list.push_back(report.varied[k].numeric ? Json(value.si) : Json(value.text));
  }
  return list;
}

std::string status_word(const SweepReport& report)
{
  std::string worst = "ok";
  for (const post::SweptPoint& point : report.swept.points)
  {
    if (!point.fault.empty())
    {
      return "some points not built";
    }
    worst = point.accuracy_reached ? worst : "accuracy not reached";
  }
  return worst;
}

Json models(const SweepReport& report)
{
  Json list = Json::array();
  for (const post::KeptModel& kept : report.swept.models)
  {
    Json materials = Json::array();
    for (const solver::VariedMaterial& one : kept.model.varied)
    {
      materials.push_back({{"name", one.material}, {"from", one.from}, {"to", one.to}});
    }
    list.push_back({{"title", kept.title},
                    {"materials", materials},
                    {"accuracy_met", kept.model.accuracy_met},
                    {"snapshots", kept.model.snapshots},
                    {"unknowns", kept.model.unknowns}});
    if (kept.impedance)
    {
      const solver::ImpedanceModel& model = kept.impedance->model;
      list.back()["impedance"] = {{"frequency_Hz", model.fixed.frequency},
                                  {"accuracy_met", model.accuracy_met},
                                  {"snapshots", model.span.states.size()},
                                  {"unknowns", model.unknowns}};
    }
  }
  return list;
}

} // namespace

std::string sweep_document(const SweepReport& report)
{
  Json all = {{"tool", "ferrule"}, {"version", post::version()}, {"title", report.title}};
  all["status"] = status_word(report);
  all["brackets"] = "certified: lower <= true value <= upper at every point, reduced model or full "
                    "solution; quantities say by their standing whether they are bounded, "
                    "estimated or exact";
  all["accuracy"] = {{"asked", report.accuracy_asked}};
  all["show"] = report.show;
  for (const Varied& one : report.varied)
  {
    all["keys"].push_back(fmt::format("{}", fmt::join(one.keys, ",")));
    all["units"].push_back(one.numeric ? si_unit(one.kind) : "");
  }
  if (!report.swept.models.empty())
  {
    all["models"] = models(report);
  }
  // The points are spliced in as they stand in the records, one a line: a parse of each would cost
  // more than the sweep of a reduced model.
  all["points"] = Json::array();
  all["files"] = report.files;
  std::string text = all.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
  std::string points;
  for (std::size_t i = 0; i < report.swept.points.size(); ++i)
  {
    const std::string point = post::json(report.swept.points[i]);
    points += fmt::format("{}\n    {{\"values\":{},{}", i == 0 ? "" : ",", values(report, i).dump(),
                          point.substr(1));
  }
  const std::string empty = "\"points\": []";
  const std::size_t place = text.find(empty); // quotes within strings are escaped
  return text.replace(place, empty.size(), "\"points\": [" + points + "\n  ]");
}

} // namespace cases
