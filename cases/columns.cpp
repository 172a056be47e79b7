// Cells of a CSV table's columns turned into numbers in SI.
#include "cases/csv.hpp"

#include "cases/section.hpp"
#include "cases/wording.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <fmt/format.h>

namespace cases
{
namespace
{

std::optional<double> plain_number(std::string_view text)
{
  const std::string_view digits = text.starts_with('+') ? text.substr(1) : text;
  double number = 0.0;
  const auto [stop, status] = std::from_chars(digits.data(), digits.data() + digits.size(), number);
  return status == std::errc() && stop == digits.data() + digits.size() && std::isfinite(number)
             ? std::optional(number)
             : std::nullopt;
}

/// "12,5" as 12.5; nothing for other texts.
std::optional<std::string> with_point(const std::string& text)
{
  const std::size_t comma = text.find(',');
  if (comma == std::string::npos)
  {
    return std::nullopt;
  }
  std::string mended = text;
  mended[comma] = '.';
  return plain_number(mended) ? std::optional(mended) : std::nullopt;
}

/// Turns cells of one column into numbers, with their faults.
class CellReader
{
public:
  CellReader(std::string name, std::string unit, const Wanted& wanted, std::vector<Fault>& faults)
      : _name(std::move(name)), _unit(std::move(unit)), _wanted(wanted), _faults(faults)
  {
  }

  std::optional<double> number(const Cell& cell)
  {
    // SCPI-99 has 9.9e37 for infinity and 9.91e37 for not a number; from memory.
    constexpr double overload = 9.9e37;
    const auto plain = plain_number(cell.text);
    if (!plain)
    {
      refuse(cell);
      return std::nullopt;
    }
    if (std::abs(*plain) >= overload)
    {
      _faults.push_back(
          {cell.where, fmt::format("{} is {}, by which meters mark an overload", _name, cell.text),
           "leave the row out, or measure it again"});
      return std::nullopt;
    }
    Node node{*plain, cell.where};
    if (_wanted.kind != Kind::number)
    {
      node.value = fmt::format("{} {}", cell.text, _unit);
    }
    return checked(node, _name, _wanted, _faults);
  }

  /// Says how often a comma stood for the point, after the last cell.
  void finish()
  {
    if (_commas > 1)
    {
      _faults[_first_comma].what +=
          fmt::format(", and {} more like it in this column", _commas - 1);
    }
  }

private:
  void refuse(const Cell& cell)
  {
    if (const auto mended = with_point(cell.text))
    {
      if (++_commas == 1)
      {
        _first_comma = _faults.size();
        _faults.push_back(
            {cell.where,
             fmt::format("{} has a comma in its number, got {}", _name, in_quotes(cell.text)),
             fmt::format("use a point: {}", *mended)});
      }
      return;
    }
    _faults.push_back({cell.where,
                       cell.text.empty() ? fmt::format("{} is empty", _name)
                                         : fmt::format("{} must be a number, got {}", _name,
                                                       in_quotes(cell.text)),
                       cell.text.empty() ? "give it a number, or leave the row out"
                                         : "units stand in the header, numbers alone below"});
  }

  std::string _name;
  std::string _unit;
  Wanted _wanted;
  std::vector<Fault>& _faults;
  int _commas = 0;
  std::size_t _first_comma = 0;
};

/// The unit of an example, "uH" of "\"122.8 uH\"".
std::string unit_of(std::string_view example)
{
  const std::size_t space = example.find(' ');
  return space == std::string_view::npos
             ? std::string()
             : std::string(example.substr(space + 1, example.find_last_not_of('"') - space));
}

/// Whether the unit of a heading fits; notes why not.
bool unit_fits(const Cell& cell, const Heading& said, const Wanted& wanted,
               std::vector<Fault>& faults)
{
  const Kind kind = wanted.kind;
  const std::string cure = kind == Kind::number
                               ? "give it as a plain number, without a unit"
                               : fmt::format("use {}, e.g. {} [{}]", unit_list(kind), said.name,
                                             unit_of(wanted.example));
  if (said.unit.empty())
  {
    if (kind != Kind::number)
    {
      faults.push_back({cell.where, fmt::format("the column {} has no unit", said.name), cure});
    }
    return kind == Kind::number;
  }
  const UnitStatus status = in_si(1.0, said.unit, kind).status;
  if (status == UnitStatus::fits)
  {
    return true;
  }
  const std::string_view other = measured_by(said.unit);
  const std::string of_other = other.empty() ? std::string() : fmt::format(" ({})", other);
  faults.push_back(
      {cell.where,
       status == UnitStatus::unknown
           ? fmt::format("the column {} has the unknown unit {}", said.name, in_quotes(said.unit))
           : fmt::format("the column {} must hold {}, got the unit {}{}", said.name, noun(kind),
                         in_quotes(said.unit), of_other),
       cure});
  return false;
}

} // namespace

std::optional<std::vector<double>> numbers(const CsvTable& table, std::size_t index,
                                           const Column& column, std::vector<Fault>& faults)
{
  const Cell& head = table.header[index];
  Heading said = heading(head.text);
  said.unit = said.unit.empty() ? column.unit : said.unit;
  if (!unit_fits(head, said, column.wanted, faults))
  {
    return std::nullopt;
  }
  CellReader reader(said.name, said.unit, column.wanted, faults);
  std::vector<double> values;
  for (const std::vector<Cell>& row : table.rows)
  {
    if (const auto value = reader.number(row[index]))
    {
      values.push_back(*value);
    }
  }
  reader.finish();
  return values.size() == table.rows.size() ? std::optional(values) : std::nullopt;
}

std::optional<std::vector<std::vector<double>>>
columns(const CsvTable& table, std::span<const Column> wanted, std::vector<Fault>& faults)
{
  std::vector<std::string> headings;
  std::ranges::transform(table.header, std::back_inserter(headings),
                         [](const Cell& cell) { return heading(cell.text).name; });
  std::vector<std::vector<double>> found;
  for (const Column& column : wanted)
  {
    const auto index = column_index(table, column.names);
    if (!index)
    {
      const SourcePlace where =
          table.header.empty() ? SourcePlace{table.file} : table.header.front().where;
      faults.push_back({where, fmt::format("there is no column {}", column.names.front()),
                        fmt::format("the header names {}", in_words(headings))});
      continue;
    }
    if (auto values = numbers(table, *index, column, faults))
    {
      found.push_back(std::move(*values));
    }
  }
  return found.size() == wanted.size() ? std::optional(found) : std::nullopt;
}

} // namespace cases
