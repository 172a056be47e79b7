// The text of a --vary into its values.
#include "cases/vary.hpp"

#include "cases/unit_tables.hpp"
#include "cases/wording.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace cases
{

namespace
{

[[noreturn]] void refuse(const SourcePlace& where, const std::string& what, const std::string& cure)
{
  std::vector<Fault> faults;
  faults.push_back({where, what, cure});
  throw CaseError(std::move(faults));
}

std::string trimmed(std::string_view text)
{
  const std::size_t first = text.find_first_not_of(" \t");
  return first == std::string_view::npos
             ? std::string()
             : std::string(text.substr(first, text.find_last_not_of(" \t") - first + 1));
}

/// Pieces between separators that stand outside quotes and brackets, trimmed.
std::vector<std::string> split(std::string_view text, char separator)
{
  std::vector<std::string> list;
  int depth = 0;
  char quote = '\0';
  std::size_t begin = 0;
  for (std::size_t at = 0; at < text.size(); ++at)
  {
    const char letter = text[at];
    if (quote != '\0')
    {
      quote = letter == quote ? '\0' : quote;
    }
    else if (letter == '"' || letter == '\'')
    {
      quote = letter;
    }
    else if (letter == separator && depth == 0)
    {
      list.push_back(trimmed(text.substr(begin, at - begin)));
      begin = at + 1;
    }
    else
    {
      depth += letter == '[' || letter == '{' ? 1 : letter == ']' || letter == '}' ? -1 : 0;
    }
  }
  list.push_back(trimmed(text.substr(begin)));
  return list;
}

/// A number or a quantity, taken apart.
struct Measured
{
  double si = 0.0;
  Kind kind = Kind::number;
  double number = 0.0; ///< As written, in `unit`.
  std::string unit;
};

std::optional<Measured> measured(const std::string& written)
{
  const bool quoted = written.size() > 1 && written.front() == '"' && written.back() == '"';
  const std::string text =
      quoted ? trimmed(std::string_view(written).substr(1, written.size() - 2)) : written;
  char* end = nullptr;
  const double number = std::strtod(text.c_str(), &end);
  const std::string unit = trimmed(end);
  if (end != text.c_str() && unit.empty())
  {
    return std::isfinite(number) ? std::optional(Measured{number, Kind::number, number, ""})
                                 : std::nullopt;
  }
  for (const Measure& measure : measures)
  {
    const auto read = quantity(text, measure.kind);
    const double* si = std::get_if<double>(&read);
    if (!si || measure.kind == Kind::number)
    {
      continue;
    }
    if (in_si(number, unit, Kind::length).status == UnitStatus::fits || measure.kind != Kind::wire)
    {
      return Measured{*si, measure.kind, number, unit};
    }
    return Measured{*si, Kind::length, *si * 1e3, "mm"}; // a gauge
  }
  return std::nullopt;
}

/// The value in the unit shown; units of one kind differ by a factor (or degC and K by a shift).
double in_unit(double si, const std::string& unit, Kind kind)
{
  const double zero = in_si(0.0, unit, kind).si;
  return (si - zero) / (in_si(1.0, unit, kind).si - zero);
}

int count_of(const std::string& text, const SourcePlace& where)
{
  char* end = nullptr;
  const double count = std::strtod(text.c_str(), &end);
  if (text.empty() || *end != '\0' || count != std::floor(count) || count < 2.0 ||
      count > most_values)
  {
    refuse(where, fmt::format("the count is {}", in_quotes(text)),
           fmt::format("give a whole number of values from 2 to {}", most_values));
  }
  return static_cast<int>(count);
}

Measured end_of(const std::string& text, const char* which, const SourcePlace& where)
{
  const std::optional<Measured> end = measured(text);
  if (!end)
  {
    refuse(where,
           fmt::format("the range {} {}, which is no number or quantity", which, in_quotes(text)),
           "write e.g. 20mm:200mm:10");
  }
  return *end;
}

/// Both ends in the unit of the first.
std::pair<double, double> ends(const Range& range, Measured& from, const SourcePlace& where)
{
  from = end_of(range.from, "starts at", where);
  const Measured to = end_of(range.to, "ends at", where);
  if (from.kind != to.kind)
  {
    refuse(where,
           fmt::format("the range starts at {} and ends at {}", in_quotes(range.from),
                       in_quotes(range.to)),
           "give both ends with units of one kind, e.g. 20mm:200mm:10");
  }
  if (from.si == to.si)
  {
    refuse(where, fmt::format("the range starts and ends at {}", in_quotes(range.from)),
           "give two ends that differ");
  }
  if (range.logarithmic && !(from.si > 0.0 && to.si > 0.0))
  {
    refuse(where, "a logarithmic range needs ends above zero", "leave :log out for even steps");
  }
  return {from.number, from.unit == to.unit ? to.number : in_unit(to.si, from.unit, from.kind)};
}

void check_values(const Varied& made)
{
  for (std::size_t i = 0; i < made.values.size(); ++i)
  {
    for (std::size_t j = 0; made.values.size() < 1000 && j < i; ++j)
    {
      if (made.numeric ? made.values[i].si == made.values[j].si
                       : made.values[i].text == made.values[j].text)
      {
        refuse(made.where, fmt::format("the list gives {} twice", in_quotes(made.values[i].text)),
               "give each value once");
      }
    }
  }
}

} // namespace

Varied over_range(std::vector<std::string> keys, const Range& range, const SourcePlace& where)
{
  Measured start;
  const auto [from, to] = ends(range, start, where);
  Varied made;
  made.keys = std::move(keys);
  made.numeric = true;
  made.kind = start.kind;
  made.unit = start.unit;
  made.logarithmic = range.logarithmic;
  made.where = where;
  for (int i = 0; i < range.count; ++i)
  {
    const double share = i / (range.count - 1.0);
    const double value =
        range.logarithmic ? from * std::pow(to / from, share) : from + (to - from) * share;
    const bool last = i + 1 == range.count; // pow and the sum may miss it by round-off
    const std::string number = fmt::format("{:.12g}", last ? to : value);
    const std::string text = made.unit.empty() ? number : number + " " + made.unit;
    made.values.push_back({text, measured(text).value_or(start).si, std::stod(number)});
  }
  return made;
}

Varied over_list(std::vector<std::string> keys, const std::vector<std::string>& texts,
                 const SourcePlace& where)
{
  Varied made;
  made.keys = std::move(keys);
  made.where = where;
  std::vector<Measured> all;
  for (const std::string& text : texts)
  {
    if (text.empty())
    {
      refuse(where, "the list has an empty value", "write e.g. 20mm,40mm,80mm");
    }
    made.values.push_back({text});
    if (const auto one = measured(text))
    {
      all.push_back(*one);
    }
  }
  made.numeric = all.size() == texts.size();
  for (std::size_t i = 0; i < all.size() && made.numeric; ++i)
  {
    if (all[i].kind != all[0].kind)
    {
      refuse(where,
             fmt::format("the list gives {} and {}", in_quotes(texts[0]), in_quotes(texts[i])),
             "give values with units of one kind");
    }
    made.kind = all[0].kind;
    made.unit = all[0].unit;
    made.values[i].si = all[i].si;
    made.values[i].shown =
        all[i].unit == all[0].unit ? all[i].number : in_unit(all[i].si, all[0].unit, all[0].kind);
  }
  check_values(made);
  return made;
}

Varied varied(const std::string& typed)
{
  const std::size_t equals = typed.find('=');
  const std::string keys =
      trimmed(std::string_view(typed).substr(0, std::min(equals, typed.size())));
  if (equals == std::string::npos || keys.empty())
  {
    refuse({"ferrule"}, fmt::format("--vary {} has no KEY=VALUES", in_quotes(typed)),
           "e.g. --vary parts.core.length=20mm:200mm:10");
  }
  const SourcePlace where{"--vary " + keys};
  std::vector<std::string> names = split(keys, ',');
  if (std::ranges::any_of(names, &std::string::empty))
  {
    refuse(where, "a key is missing beside the comma", "write KEY,KEY=VALUES");
  }
  const std::string values = trimmed(std::string_view(typed).substr(equals + 1));
  if (values.empty())
  {
    refuse(where, "there are no values", "write FROM:TO:COUNT, or a list A,B,C");
  }
  const std::vector<std::string> range = split(values, ':');
  if (range.size() == 1)
  {
    return over_list(std::move(names), split(values, ','), where);
  }
  if (range.size() < 3 || range.size() > 4 || (range.size() == 4 && range[3] != "log"))
  {
    refuse(where, fmt::format("{} is no range", in_quotes(values)),
           "write FROM:TO:COUNT or FROM:TO:COUNT:log, e.g. 20mm:200mm:10");
  }
  return over_range(std::move(names),
                    {range[0], range[1], count_of(range[2], where), range.size() == 4}, where);
}

std::string keys_text(const Varied& varied)
{
  return fmt::format("{}", fmt::join(varied.keys, ", "));
}

std::string short_name(const Varied& varied)
{
  const std::string& key = varied.keys.front();
  const std::size_t dot = key.find('.');
  std::string name = dot == std::string::npos ? key : key.substr(dot + 1);
  std::ranges::replace(name, '_', ' ');
  std::ranges::replace(name, '.', ' ');
  return name;
}

std::string si_unit(Kind kind)
{
  for (const Measure& measure : measures)
  {
    if (measure.kind == kind && kind != Kind::number)
    {
      return measure.unit;
    }
  }
  return "";
}

} // namespace cases
