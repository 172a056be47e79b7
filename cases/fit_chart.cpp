// Samples or frequencies side by side, each with its interval.
#include "cases/fit_report.hpp"
#include "cases/result_text.hpp"
#include "cases/table.hpp"
#include "post/engineering.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace cases
{

std::optional<post::Chart> fit_chart(const FitReport& report)
{
  if (report.results.size() < 2)
  {
    return std::nullopt;
  }
  const std::vector<FitGroup>& groups = report.asked.groups;
  const bool by_frequency =
      std::ranges::all_of(groups, [&](const FitGroup& one)
                          { return one.sample == groups.front().sample && one.frequency > 0.0; });
  post::Chart chart;
  chart.title = plain(report.asked.read.title);
  chart.subtitle = fmt::format("{}: best values and {:.0f} % intervals", report.asked.question.key,
                               100.0 * report.options.coverage);
  chart.y = {report.asked.noun, report.asked.kind == Kind::length ? "m" : ""};
  chart.x = by_frequency ? post::ChartAxis{"frequency", "Hz", true} : post::ChartAxis{"sample", ""};
  post::ChartPoints points;
  for (std::size_t i = 0; i < groups.size(); ++i)
  {
    if (!by_frequency)
    {
      chart.x.names.push_back(groups[i].sample.empty() ? name_of(report, i)
                                                       : plain(groups[i].sample));
    }
    const post::FitResult& one = report.results[i];
    if (one.impossible || !one.unknown.value)
    {
      continue;
    }
    points.x.push_back(by_frequency ? groups[i].frequency : static_cast<double>(i + 1));
    points.y.push_back(*one.unknown.value);
    points.lower.push_back(one.unknown.interval.lower);
    points.upper.push_back(one.unknown.interval.upper);
  }
  if (points.x.empty())
  {
    return std::nullopt;
  }
  chart.points.push_back(points);
  return chart;
}

} // namespace cases
