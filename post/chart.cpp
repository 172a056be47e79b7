// A chart checked for what cannot be drawn, then drawn by the module and written.
#include "post/chart.hpp"
#include "post/drawing/drawn.hpp"
#include "post/drawing_module.hpp"
#include "post/pending_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace post
{

namespace
{

constexpr double largest = 1e150; ///< Differences and ratios of such numbers are still finite.

[[noreturn]] void refuse(const std::string& what)
{
  throw std::invalid_argument("cannot draw the chart: " + what);
}

/// @brief What besides plain numbers a list may hold.
struct Allowed
{
  bool nan = false;
  bool infinite = false;
  bool not_positive = true; ///< false on a logarithmic axis.
};

void check(const std::vector<double>& values, std::size_t count, const Allowed& allowed,
           const std::string& of)
{
  if (values.size() != count)
    refuse(fmt::format("{} has {} values where {} are needed", of, values.size(), count));
  for (const double value : values)
  {
    if (std::isnan(value) ? !allowed.nan
                          : (std::isinf(value) ? !allowed.infinite : std::abs(value) > largest))
      refuse(fmt::format("{} holds {}", of, value));
    if (!allowed.not_positive && value <= 0.0)
      refuse(fmt::format("{} holds {}, but its axis is logarithmic", of, value));
  }
}

/// @brief Two ends of intervals, both or none, lower <= upper.
void check_ends(const std::vector<double>& lower, const std::vector<double>& upper,
                std::size_t count, const std::string& of)
{
  check(lower, count, {.infinite = true}, "the lower end of " + of);
  check(upper, count, {.infinite = true}, "the upper end of " + of);
  for (std::size_t k = 0; k < count; ++k)
    if (lower[k] - upper[k] > 1e-9 * std::abs(upper[k])) // round-off may swap ends that meet
      refuse(fmt::format("{} has its lower end {} above its upper end {}", of, lower[k], upper[k]));
}

void check_ascending(const std::vector<double>& values, const std::string& of)
{
  if (!std::is_sorted(values.begin(), values.end(), std::less_equal<>()))
    refuse(of + " does not ascend");
}

void check_map(const ChartMap& map, bool log_x, bool log_y)
{
  if (map.x.size() < 2 || map.y.size() < 2)
    refuse("the map needs at least two values along each axis");
  check(map.x, map.x.size(), {.not_positive = !log_x}, "x of the map");
  check(map.y, map.y.size(), {.not_positive = !log_y}, "y of the map");
  check_ascending(map.x, "x of the map");
  check_ascending(map.y, "y of the map");
  check(map.values, map.x.size() * map.y.size(), {.nan = true}, "the map");
  check(map.limits, map.limits.size(), {}, "the list of the map's limits");
  check_ascending(map.limits, "the list of the map's limits");
  if (map.words.size() != map.limits.size() + 1)
    refuse(fmt::format("the map has {} limits and {} words for its classes; one more is needed",
                       map.limits.size(), map.words.size()));
}

void check_axis(const ChartAxis& axis, const std::string& of)
{
  for (const auto& end : {axis.from, axis.to})
    if (end)
      check({*end}, 1, {.not_positive = !axis.logarithmic}, "an end of the " + of);
  if (axis.from && axis.to && !(*axis.from < *axis.to))
    refuse(fmt::format("the {} runs from {} to {}", of, *axis.from, *axis.to));
  if (!axis.names.empty() && axis.logarithmic)
    refuse(fmt::format("the {} has names and is logarithmic", of));
}

void check_points(const ChartPoints& points, const Allowed& x, const Allowed& y)
{
  const std::string of = fmt::format("the points \"{}\"", points.label);
  const std::size_t count = points.x.size();
  if (count == 0 && !points.label.empty())
    refuse(of + " are none");
  check(points.x, count, x, "x of " + of);
  check(points.y, count, y, "y of " + of);
  if (!points.lower.empty() || !points.upper.empty())
    check_ends(points.lower, points.upper, count, "the y interval of " + of);
  if (!points.x_lower.empty() || !points.x_upper.empty())
    check_ends(points.x_lower, points.x_upper, count, "the x interval of " + of);
}

void check(const Chart& chart)
{
  if (chart.bands.empty() && chart.lines.empty() && chart.points.empty() && !chart.map)
    refuse("it has neither bands nor lines nor points nor a map");
  check_axis(chart.x, "x axis");
  check_axis(chart.y, "y axis");
  const Allowed x{.not_positive = !chart.x.logarithmic}, y{.not_positive = !chart.y.logarithmic};
  for (const ChartLine& line : chart.lines)
  {
    const std::string of = fmt::format("the line \"{}\"", line.label);
    if (std::all_of(line.y.begin(), line.y.end(), [](double value) { return std::isnan(value); }))
      refuse(of + " has no point");
    check(line.x, line.y.size(), x, "x of " + of);
    check(line.y, line.y.size(), {.nan = true, .not_positive = y.not_positive}, "y of " + of);
  }
  for (const ChartBand& band : chart.bands)
  {
    const std::string of = fmt::format("the band \"{}\"", band.label);
    if (band.x.size() < 2)
      refuse(of + " has less than two points");
    check(band.x, band.x.size(), x, "x of " + of);
    check_ends(band.lower, band.upper, band.x.size(), of);
  }
  for (const ChartPoints& points : chart.points)
    check_points(points, x, y);
  if (chart.map)
    check_map(*chart.map, chart.x.logarithmic, chart.y.logarithmic);
}

DrawnChart drawn_chart(const Chart& chart, bool only_svg)
{
  check(chart);
  static auto* const draw =
      reinterpret_cast<DrawChartFunction*>(drawing_function("ferrule_drawing_chart"));
  DrawnChart drawn;
  drawn.only_svg = only_svg;
  draw(chart, drawn);
  return drawn;
}

} // namespace

std::vector<std::string> write_chart(const std::filesystem::path& folder, const std::string& name,
                                     const Chart& chart)
{
  const DrawnChart drawn = drawn_chart(chart, false);
  return write_together(folder, {{name + ".svg", drawn.svg}, {name + ".png", drawn.png}});
}

std::string chart_svg(const Chart& chart)
{
  return drawn_chart(chart, true).svg;
}

} // namespace post
