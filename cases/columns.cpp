// Columns of a CSV table found by their headings, and their cells turned into numbers in SI.
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

std::string_view trimmed(std::string_view text)
{
  const std::size_t from = text.find_first_not_of(" \t");
  return from == std::string_view::npos
             ? std::string_view()
             : text.substr(from, text.find_last_not_of(" \t") - from + 1);
}

/// The name in small letters, without spaces, _ and -.
std::string plain_name(std::string_view name)
{
  std::string plain;
  for (const char letter : name)
  {
    if (std::string_view(" \t_-").find(letter) == std::string_view::npos)
    {
      plain += letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
    }
  }
  return plain;
}

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
          fmt::format(", and {} more cells of the column like it", _commas - 1);
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

/// Whether the unit of a heading fits; notes why not.
bool unit_fits(const Cell& cell, const std::string& name, const std::string& unit, Kind kind,
               std::vector<Fault>& faults)
{
  const std::string cure =
      kind == Kind::number
          ? "give it as a plain number, without a unit"
          : fmt::format("use {}, e.g. {} [{}]", unit_list(kind), name,
                        unit_list(kind).substr(0, unit_list(kind).find_first_of(", ")));
  if (unit.empty())
  {
    if (kind != Kind::number)
    {
      faults.push_back({cell.where, fmt::format("the column {} has no unit", name), cure});
    }
    return kind == Kind::number;
  }
  const UnitStatus status = in_si(1.0, unit, kind).status;
  if (status == UnitStatus::fits)
  {
    return true;
  }
  const std::string_view other = measured_by(unit);
  const std::string of_other = other.empty() ? std::string() : fmt::format(" ({})", other);
  faults.push_back(
      {cell.where,
       status == UnitStatus::unknown
           ? fmt::format("the column {} has the unknown unit {}", name, in_quotes(unit))
           : fmt::format("the column {} must hold {}, got the unit {}{}", name, noun(kind),
                         in_quotes(unit), of_other),
       cure});
  return false;
}

} // namespace

Heading heading(std::string_view cell)
{
  for (const std::string_view pair : {"[]", "()"})
  {
    const std::size_t open = cell.find(pair[0]);
    const std::size_t close = cell.rfind(pair[1]);
    if (open != std::string_view::npos && close != std::string_view::npos && close > open)
    {
      return {std::string(trimmed(cell.substr(0, open))),
              std::string(trimmed(cell.substr(open + 1, close - open - 1)))};
    }
  }
  const std::size_t slash = cell.find('/');
  if (slash == std::string_view::npos)
  {
    return {std::string(trimmed(cell)), {}};
  }
  return {std::string(trimmed(cell.substr(0, slash))),
          std::string(trimmed(cell.substr(slash + 1)))};
}

std::optional<std::size_t> column_index(const CsvTable& table, std::span<const std::string> names)
{
  for (std::size_t i = 0; i < table.header.size(); ++i)
  {
    const std::string written = plain_name(heading(table.header[i].text).name);
    if (std::ranges::any_of(names,
                            [&](const std::string& name) { return plain_name(name) == written; }))
    {
      return i;
    }
  }
  return std::nullopt;
}

std::optional<std::vector<double>> numbers(const CsvTable& table, std::size_t index,
                                           const Column& column, std::vector<Fault>& faults)
{
  const Cell& head = table.header[index];
  Heading said = heading(head.text);
  said.unit = said.unit.empty() ? column.unit : said.unit;
  if (!unit_fits(head, said.name, said.unit, column.wanted.kind, faults))
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
