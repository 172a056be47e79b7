// Charts and CSV of the formula check.
#include "post/check_files.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <limits>

namespace post
{
namespace
{

/// Letters and digits in small, all else as single dashes.
std::string slug(const std::string& words)
{
  std::string made;
  for (const char c : words)
  {
    if (std::isalnum(static_cast<unsigned char>(c)) != 0)
    {
      made += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    }
    else if (!made.empty() && made.back() != '-')
    {
      made += '-';
    }
  }
  return made;
}

/// Where the axis draws its values: named ones at 1, 2, 3.
std::vector<double> places(const CheckAxis& axis)
{
  if (axis.names.empty())
  {
    return axis.values;
  }
  std::vector<double> list;
  for (std::size_t i = 0; i < axis.names.size(); ++i)
  {
    list.push_back(static_cast<double>(i + 1));
  }
  return list;
}

ChartAxis chart_axis(const CheckAxis& axis)
{
  return {.label = axis.label,
          .unit = "",
          .logarithmic = axis.logarithmic && axis.names.empty(),
          .names = axis.names};
}

const FormulaResult* result_of(const CheckPoint& point, const std::string& name)
{
  for (const FormulaResult& one : point.formulas)
  {
    if (one.name == name && one.deviation)
    {
      return &one;
    }
  }
  return nullptr;
}

std::string subtitle(const CheckFamily& family, std::size_t third)
{
  const std::string words = axis_words(family.third, third);
  return "deviation from the field: " + family.title + (words.empty() ? "" : "; " + words);
}

/// A field of a CSV line, in quotes where it holds a comma.
std::string field(const std::string& words)
{
  return words.find(',') == std::string::npos ? words : "\"" + words + "\"";
}

} // namespace

std::string axis_words(const CheckAxis& axis, std::size_t index)
{
  const std::string value =
      axis.names.empty() ? fmt::format("{:.3g}", axis.values[index]) : axis.names[index];
  // An axis of one shape has no label and nothing to say.
  return axis.label.empty() ? (axis.values.size() > 1 ? value : "") : axis.label + " " + value;
}

std::string map_name(const FormulaCheck& check, const FormulaScore& score, std::size_t third)
{
  const CheckFamily& family = check.families[score.family];
  const std::string name = family.name + "--" + slug(score.name);
  return family.third.values.size() == 1 ? name : fmt::format("{}-{}", name, third + 1);
}

Chart formula_map(const FormulaCheck& check, const FormulaScore& score, std::size_t third)
{
  const CheckFamily& family = check.families[score.family];
  ChartMap map{.label = "deviation",
               .x = places(family.x),
               .y = places(family.y),
               .values = {},
               .limits = {tally_limits.begin(), tally_limits.end()},
               .words = {"within 1 %", "within 5 %", "within 20 %", "worse"},
               .cells = true};
  map.values.assign(map.x.size() * map.y.size(), std::numeric_limits<double>::quiet_NaN());
  ChartPoints range{.label = "in its stated range", .x = {}, .y = {}};
  for (const CheckPoint& point : check.points)
  {
    const FormulaResult* one = point.family == score.family && point.third == third
                                   ? result_of(point, score.name)
                                   : nullptr;
    if (one == nullptr)
    {
      continue;
    }
    map.values[point.y * map.x.size() + point.x] = std::abs(*one->deviation);
    if (one->holds)
    {
      range.x.push_back(map.x[point.x]);
      range.y.push_back(map.y[point.y]);
    }
  }
  Chart chart{.title = score.name,
              .subtitle = subtitle(family, third),
              .x = chart_axis(family.x),
              .y = chart_axis(family.y)};
  const bool holes = std::ranges::any_of(map.values, [](double one) { return std::isnan(one); });
  chart.map = std::move(map);
  if (!range.x.empty())
  {
    chart.points.push_back(std::move(range));
  }
  chart.notes = {"Source: " + score.source + ".",
                 score.range.empty() ? "Its stated range holds no shape of this grid."
                                     : "Stated range: " + score.range + "."};
  if (holes)
  {
    chart.notes.push_back("White: no value, or too faint an effect to judge it.");
  }
  return chart;
}

std::string check_csv(const FormulaCheck& check)
{
  std::string all = "family,x,x_value,y,y_value,third,formula,value,unit,deviation,in_range,"
                    "bracket_half_width,accuracy_reached\n";
  for (const CheckPoint& point : check.points)
  {
    const CheckFamily& family = check.families[point.family];
    const auto value = [](const CheckAxis& axis, std::size_t i)
    { return axis.names.empty() ? fmt::format("{}", axis.values[i]) : field(axis.names[i]); };
    for (const FormulaResult& one : point.formulas)
    {
      all +=
          fmt::format("{},{},{},{},{},{},{},{},{},{},{},{:.3g},{}\n", family.name, family.x.label,
                      value(family.x, point.x), family.y.label, value(family.y, point.y),
                      field(axis_words(family.third, point.third)), field(one.name), one.value,
                      one.unit, one.deviation ? fmt::format("{}", *one.deviation) : "", one.holds,
                      point.bracket, point.reached);
    }
  }
  return all;
}

} // namespace post
