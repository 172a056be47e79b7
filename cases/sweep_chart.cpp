// One varied key: lines. Two: a line for each value of the key with few, else filled contours.
#include "cases/sweep_report.hpp"

#include "cases/table.hpp"
#include "post/engineering.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <limits>
#include <numeric>

namespace cases
{

namespace
{

constexpr double nothing = std::numeric_limits<double>::quiet_NaN();
constexpr std::size_t most_lines = 8;
constexpr double visible = 2e-3; ///< Relative half-width from which a band is drawn.

/// Keys that really move; a chart has no more than two.
std::vector<std::size_t> moving(const std::vector<Varied>& varied)
{
  std::vector<std::size_t> list;
  for (std::size_t k = 0; k < varied.size(); ++k)
  {
    if (varied[k].values.size() > 1)
    {
      list.push_back(k);
    }
  }
  return list;
}

post::ChartAxis axis(const Varied& varied)
{
  post::ChartAxis made{plain(short_name(varied)), varied.numeric ? si_unit(varied.kind) : ""};
  made.logarithmic = varied.logarithmic;
  for (std::size_t i = 0; !varied.numeric && i < varied.values.size(); ++i)
  {
    made.names.push_back(plain(varied.values[i].text));
  }
  return made;
}

double place(const Varied& varied, std::size_t i)
{
  return varied.numeric ? varied.values[i].si : static_cast<double>(i + 1);
}

/// Indices of the values in ascending order.
std::vector<std::size_t> ascending(const Varied& varied)
{
  std::vector<std::size_t> order(varied.values.size());
  std::iota(order.begin(), order.end(), 0);
  std::ranges::stable_sort(order, {}, [&](std::size_t i) { return place(varied, i); });
  return order;
}

/// What is drawn: a value at each place of the moving keys, others at their only value.
class Grid
{
public:
  Grid(const SweepReport& report, std::string of) : _report(report), _of(std::move(of)) {}

  post::Bounded at(std::size_t key, std::size_t i, std::size_t other = none,
                   std::size_t j = 0) const
  {
    const auto found = shown(point(key, i, other, j), _of, _report.show);
    return found ? found->value : post::Bounded{nothing, nothing, nothing};
  }
  /// What the hand formula of that name says.
  double said(std::size_t key, std::size_t i, std::size_t other, std::size_t j) const
  {
    const std::vector<post::SweptQuantity>& all = point(key, i, other, j).formulas;
    const auto found = std::ranges::find(all, _of, &post::SweptQuantity::of);
    return found == all.end() ? nothing : found->value.value;
  }
  static constexpr std::size_t none = static_cast<std::size_t>(-1);

private:
  const post::SweptPoint& point(std::size_t key, std::size_t i, std::size_t other,
                                std::size_t j) const
  {
    std::size_t at = 0;
    for (std::size_t k = 0; k < _report.varied.size(); ++k)
    {
      at = at * _report.varied[k].values.size() + (k == key ? i : k == other ? j : 0);
    }
    return _report.swept.points[at];
  }

  const SweepReport& _report;
  std::string _of;
};

/// A line, its band where it can be seen, and marks where the key is of words or has few values.
void add_line(post::Chart& chart, const SweepReport& report, const std::string& label,
              const Grid& grid, std::size_t key, std::size_t other, std::size_t j)
{
  const Varied& varied = report.varied[key];
  post::ChartLine line{label, {}, {}};
  post::ChartBand band{"", {}, {}, {}};
  bool wide = false;
  for (const std::size_t i : ascending(varied))
  {
    const post::Bounded value = grid.at(key, i, other, j);
    line.x.push_back(place(varied, i));
    line.y.push_back(value.value);
    if (std::isfinite(value.value))
    {
      band.x.push_back(place(varied, i));
      band.lower.push_back(value.lower);
      band.upper.push_back(value.upper);
      wide = wide || value.upper - value.lower > 2.0 * visible * std::abs(value.value);
    }
  }
  if (!varied.numeric)
  {
    chart.points.push_back({label, band.x, {}, band.lower, band.upper});
    for (std::size_t i = 0; i < band.x.size(); ++i)
    {
      chart.points.back().y.push_back(0.5 * (band.lower[i] + band.upper[i]));
    }
    return;
  }
  if (wide && band.x.size() == line.x.size())
  {
    chart.bands.push_back(band);
  }
  chart.lines.push_back(line);
}

/// What hand formulas say, thin beside a line; nothing where none holds.
void add_beside(post::Chart& chart, const SweepReport& report, std::size_t line, std::size_t key,
                std::size_t other, std::size_t j)
{
  for (std::size_t f = 0; f < report.beside.size() && report.varied[key].numeric; ++f)
  {
    const Grid grid(report, report.beside[f]);
    post::ChartLine thin{"", {}, {}, line, static_cast<int>(f)};
    bool any = false;
    for (const std::size_t i : ascending(report.varied[key]))
    {
      thin.x.push_back(place(report.varied[key], i));
      thin.y.push_back(grid.said(key, i, other, j));
      any = any || std::isfinite(thin.y.back());
    }
    if (any)
    {
      chart.lines.push_back(std::move(thin));
    }
  }
}

/// "Thin ...: hand formulas where they hold, dotted "rod, short coil"."
void name_beside(post::Chart& chart, const SweepReport& report)
{
  std::string words;
  for (std::size_t f = 0; f < report.beside.size(); ++f)
  {
    words += fmt::format("{}{} \"{}\"", f == 0 ? "" : ", ", post::fine_dash_words[f],
                         plain(report.beside[f]));
  }
  if (std::ranges::any_of(chart.lines,
                          [](const post::ChartLine& one) { return one.beside.has_value(); }))
  {
    chart.notes.push_back(
        "Thin, in the colour of the line beside: hand formulas where they hold, " + words + ".");
  }
}

/// A step of 1, 2 or 5 times a power of ten that makes about so many classes.
double round_step(double range, int classes)
{
  const double raw = range / classes, power = std::pow(10.0, std::floor(std::log10(raw)));
  const double digit = raw / power;
  return power * (digit < 1.5 ? 1.0 : digit < 3.5 ? 2.0 : digit < 7.5 ? 5.0 : 10.0);
}

void name_classes(post::ChartMap& map, const std::string& unit)
{
  const auto words = [&](double value)
  {
    const bool round = std::abs(value - std::stod(fmt::format("{:.3g}", value))) < 1e-9 * value;
    return unit.empty() ? post::count(value, 4) : post::engineering(value, unit, round ? 3 : 4);
  };
  map.words.push_back("below " + words(map.limits.front()));
  for (std::size_t i = 1; i < map.limits.size(); ++i)
  {
    map.words.push_back(words(map.limits[i - 1]) + " to " + words(map.limits[i]));
  }
  map.words.push_back("above " + words(map.limits.back()));
}

/// Limits at round values, evenly spaced, or by equal factors where the values span decades.
std::vector<double> class_limits(double least, double most)
{
  std::vector<double> limits;
  if (least > 0.0 && most > 20.0 * least)
  {
    for (double power = std::pow(10.0, std::floor(std::log10(least))); power < most; power *= 10.0)
    {
      for (const double digit : most > 1e3 * least ? std::vector{1.0} : std::vector{1.0, 2.0, 5.0})
      {
        limits.push_back(digit * power);
      }
    }
  }
  else
  {
    const double step = round_step(most - least, 8);
    for (double limit = step * std::ceil(least / step); limit < most; limit += step)
    {
      limits.push_back(limit);
    }
  }
  std::erase_if(limits, [&](double limit) { return !(limit > least && limit < most); });
  return limits;
}

bool add_map(post::Chart& chart, const SweepReport& report, const Grid& grid, std::size_t across,
             std::size_t up)
{
  post::ChartMap map;
  const ShownQuantity quantity = quantity_of(report.show);
  map.label = quantity.label;
  double least = std::numeric_limits<double>::infinity(), most = -least;
  const std::vector<std::size_t> columns = ascending(report.varied[across]);
  for (const std::size_t i : columns)
  {
    map.x.push_back(place(report.varied[across], i));
  }
  for (const std::size_t j : ascending(report.varied[up]))
  {
    map.y.push_back(place(report.varied[up], j));
    for (const std::size_t i : columns)
    {
      map.values.push_back(grid.at(across, i, up, j).value);
      if (std::isfinite(map.values.back()))
      {
        least = std::min(least, map.values.back());
        most = std::max(most, map.values.back());
      }
    }
  }
  if (!(most > least))
  {
    return false;
  }
  map.limits = class_limits(least, most);
  if (map.limits.empty())
  {
    return false;
  }
  name_classes(map, quantity.unit);
  chart.y = axis(report.varied[up]);
  chart.map = std::move(map);
  return true;
}

/// "guaranteed to within 0.069 %", of what is shown.
std::string sure(const SweepReport& report, const std::vector<std::string>& owners)
{
  double met = 0.0;
  bool bounded = true, exact = true;
  for (const post::SweptPoint& point : report.swept.points)
  {
    for (const std::string& of : owners)
    {
      const auto found = shown(point, of, report.show);
      if (!found || !(found->value.value != 0.0))
      {
        continue;
      }
      const post::Bounded& at = found->value;
      exact = exact && found->standing == post::Standing::exact;
      bounded = bounded && found->standing == post::Standing::bounded;
      const double width = std::max(at.upper - at.value, at.value - at.lower);
      met = std::max(met, width / std::abs(at.value) + point.geometry_error);
    }
  }
  return exact     ? "exact"
         : bounded ? fmt::format("guaranteed to within {}", post::fine_percent(met))
                   : "estimated";
}

/// "coil, a line each for core permeability; guaranteed to within 0.069 %"
std::string subtitle(const SweepReport& report, const std::vector<std::string>& owners,
                     std::size_t across, std::size_t other, bool few)
{
  if (other == Grid::none)
  {
    return sure(report, owners);
  }
  const std::string up = plain(short_name(report.varied[other]));
  const std::string what =
      few ? "a line each for " + up
          : fmt::format("over {} and {}", plain(short_name(report.varied[across])), up);
  return fmt::format("{}, {}; {}", plain(owners.front()), what, sure(report, owners));
}

/// Values that span decades need a logarithmic axis.
void choose_scale(post::Chart& chart)
{
  double least = std::numeric_limits<double>::infinity(), most = 0.0;
  for (const post::ChartLine& line : chart.lines)
  {
    for (const double y : line.y)
    {
      least = std::isfinite(y) ? std::min(least, y) : least;
      most = std::isfinite(y) ? std::max(most, y) : most;
    }
  }
  chart.y.logarithmic = least > 0.0 && most > 30.0 * least && chart.x.names.empty();
}

} // namespace

std::optional<post::Chart> sweep_chart(const SweepReport& report)
{
  const std::vector<std::size_t> keys = moving(report.varied);
  const std::vector<std::string> owners = shown_of(report.swept.points, report.show);
  if (keys.empty() || keys.size() > 2 || owners.empty())
  {
    return std::nullopt;
  }
  post::Chart chart;
  const ShownQuantity quantity = quantity_of(report.show);
  chart.title = plain(report.title);
  chart.y = {quantity.label, quantity.unit};
  const auto count = [&](std::size_t k) { return report.varied[k].values.size(); };
  std::size_t across = keys[0], other = keys.size() > 1 ? keys[1] : Grid::none;
  const auto better_across = [&]
  {
    return report.varied[other].numeric &&
           (count(other) > count(across) || !report.varied[across].numeric);
  };
  const bool few = other == Grid::none || std::min(count(across), count(other)) <= most_lines;
  if (other != Grid::none && few && better_across())
  {
    std::swap(across, other);
  }
  chart.x = axis(report.varied[across]);
  chart.subtitle = subtitle(report, owners, across, other, few);
  if (other == Grid::none)
  {
    for (const std::string& of : owners)
    {
      add_line(chart, report, plain(of), Grid(report, of), across, Grid::none, 0);
    }
  }
  else if (few)
  {
    for (std::size_t j = 0; j < count(other); ++j)
    {
      add_line(chart, report, plain(report.varied[other].values[j].text),
               Grid(report, owners.front()), across, other, j);
    }
  }
  else if (!report.varied[across].numeric || !report.varied[other].numeric ||
           !add_map(chart, report, Grid(report, owners.front()), across, other))
  {
    return std::nullopt;
  }
  // After all lines, whose colours go by their number.
  const std::size_t lines = chart.map ? 0 : other == Grid::none ? 1 : count(other);
  for (std::size_t j = 0; j < std::min(lines, chart.lines.size()); ++j)
  {
    add_beside(chart, report, j, across, other, j);
  }
  if (!chart.map)
  {
    choose_scale(chart);
  }
  name_beside(chart, report);
  return chart;
}

} // namespace cases
