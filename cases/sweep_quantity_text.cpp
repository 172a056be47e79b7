// Tables of what the points of a sweep have beside windings at rest, and the cells of varied keys.
#include "cases/sweep_report.hpp"

#include "post/engineering.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace cases
{

namespace
{

constexpr int key_columns = 34; ///< Of the page, for all keys together.

std::string with_unit(const std::string& name, const Varied& varied)
{
  return name + (varied.unit.empty() ? "" : " [" + varied.unit + "]");
}

bool bounded(const post::SweptQuantity& one)
{
  return one.standing == post::Standing::bounded;
}

/// Half-width over the value, from the farther end.
double relative_width(const post::Bounded& bounds)
{
  return std::max(bounds.upper - bounds.value, bounds.value - bounds.lower) /
         std::abs(bounds.value);
}

/// The value, and beside bounded ones what it is sure to within.
void add_cells(std::vector<std::string>& row, const post::SweptQuantity& column,
               const std::optional<post::SweptQuantity>& found)
{
  const bool known = found && std::isfinite(found->value.value);
  const bool held = known && found->value.value != 0.0;
  row.push_back(!known                ? "-"
                : column.unit.empty() ? post::number(found->value.value, 4)
                : held                ? post::engineering(found->value.value, column.unit, 4)
                                      : "0 " + column.unit);
  if (bounded(column))
  {
    row.push_back(held && bounded(*found) ? post::fine_percent(relative_width(found->value)) : "-");
  }
}

/// How the numbers of an owner's table are to be taken.
std::string taken_as(const std::vector<post::SweptQuantity>& columns)
{
  if (std::ranges::all_of(columns, [](const post::SweptQuantity& one)
                          { return one.standing == post::Standing::exact; }))
  {
    return "exact";
  }
  return std::ranges::all_of(columns, bounded)    ? "bounded within what stands beside"
         : std::ranges::none_of(columns, bounded) ? "estimated"
                                                  : "bounded where a width stands beside, else "
                                                    "estimated";
}

Sheet owner_table(const SweepReport& report, const std::string& of,
                  const std::vector<post::SweptQuantity>& columns)
{
  Table table;
  table.rows.push_back(key_headings(report.varied));
  for (const post::SweptQuantity& column : columns)
  {
    table.rows.back().emplace_back(quantity_of(column.word).column);
    if (bounded(column))
    {
      table.rows.back().emplace_back("+-");
    }
  }
  const std::size_t width = table.rows.front().size();
  for (const std::size_t i : rows_shown(report.swept.points.size()))
  {
    if (i == skipped)
    {
      table.rows.push_back(std::vector<std::string>(width, "..."));
      continue;
    }
    const post::SweptPoint& point = report.swept.points[i];
    std::vector<std::string> row = key_cells(report, i);
    for (const post::SweptQuantity& column : columns)
    {
      add_cells(row, column, shown(point, of, column.word));
    }
    row.back() += point.fault.empty() ? point.accuracy_reached ? "" : " !" : " no";
    table.rows.push_back(std::move(row));
  }
  return heading(plain(of), taken_as(columns)) + text(table);
}

} // namespace

std::string value_cell(const Varied& varied, std::size_t index)
{
  const VariedValue& value = varied.values[index];
  return varied.numeric ? post::count(value.shown) : plain(value.text);
}

std::vector<std::string> key_cells(const SweepReport& report, std::size_t point)
{
  std::vector<std::string> row;
  const std::vector<std::size_t> at = indices(report.varied, point);
  for (std::size_t k = 0; k < at.size(); ++k)
  {
    row.push_back(value_cell(report.varied[k], at[k]));
  }
  return row;
}

/// Their names, or "key 1", "key 2" where those are too wide.
std::vector<std::string> key_headings(const std::vector<Varied>& varied)
{
  std::vector<std::string> names;
  int total = 0;
  for (const Varied& one : varied)
  {
    names.push_back(plain(with_unit(short_name(one), one)));
    total += width(names.back()) + 2;
  }
  for (std::size_t k = 0; k < names.size() && total > key_columns; ++k)
  {
    names[k] = with_unit(fmt::format("key {}", k + 1), varied[k]);
  }
  return names;
}

Sheet quantity_tables(const SweepReport& report)
{
  const std::vector<post::SweptQuantity> all = quantities_of(report.swept.points);
  std::vector<std::string> owners;
  for (const post::SweptQuantity& one : all)
  {
    if (std::ranges::find(owners, one.of) == owners.end())
    {
      owners.push_back(one.of);
    }
  }
  Sheet out;
  for (const std::string& of : owners)
  {
    std::vector<post::SweptQuantity> columns;
    std::ranges::copy_if(all, std::back_inserter(columns),
                         [&](const post::SweptQuantity& one) { return one.of == of; });
    out += owner_table(report, of, columns);
  }
  return out;
}

} // namespace cases
