// A quantity's text into its number and its unit, and the sentence for what cannot be read.
#include "cases/units.hpp"

#include "cases/wording.hpp"

#include <charconv>
#include <cmath>
#include <fmt/format.h>

namespace cases
{
namespace
{

constexpr std::string_view digits = "0123456789";

/// A value of the kind as an example to write.
std::string_view example(Kind kind)
{
  switch (kind)
  {
  case Kind::length:
    return "10 mm";
  case Kind::wire:
    return "0.5 mm";
  case Kind::frequency:
    return "10 kHz";
  case Kind::current:
    return "0.25 A";
  case Kind::flux_density:
    return "1 mT";
  case Kind::conductivity:
    return "5.8e7 S/m";
  case Kind::density:
    return "4.8 g/cm3";
  case Kind::temperature:
    return "20 degC";
  case Kind::per_kelvin:
    return "0.0039 1/K";
  case Kind::inductance:
    return "120 uH";
  case Kind::resistance:
    return "1.5 ohm";
  case Kind::field_strength:
    return "80 A/m";
  case Kind::reluctivity:
    return "100 m/H";
  case Kind::inverse_square_flux_density:
    return "6 T-2";
  case Kind::mass:
    return "25 g";
  case Kind::volume:
    return "10 cm3";
  case Kind::thermal_conductivity:
    return "4 W/(m K)";
  case Kind::heat_transfer:
    return "10 W/(m2 K)";
  case Kind::number:
    break;
  }
  return "700";
}

std::string write_example(Kind kind)
{
  return kind == Kind::number ? fmt::format("write e.g. {}", example(kind))
                              : fmt::format("write e.g. \"{}\"", example(kind));
}

/// Spaces of every sort at both ends taken off; no-break spaces made plain.
std::string tidied(std::string_view text)
{
  std::string plain(text);
  for (const std::string_view space : {"\u00a0", "\u202f", "\u2009", "\t"})
  {
    for (std::size_t at = plain.find(space); at != std::string::npos; at = plain.find(space, at))
    {
      plain.replace(at, space.size(), " ");
    }
  }
  const std::size_t from = plain.find_first_not_of(' ');
  return from == std::string::npos ? std::string()
                                   : plain.substr(from, plain.find_last_not_of(' ') - from + 1);
}

/// The number at the start of a tidied text, and the rest.
struct Split
{
  double number = 0.0;
  std::string number_text;
  std::string unit;
  bool beyond = false; ///< The number is too large or too small for a double.
};

std::optional<Split> split(const std::string& text)
{
  const std::size_t start = text[0] == '+' ? 1 : 0;
  const std::size_t first = start + (start == 0 && text[0] == '-' ? 1 : 0);
  if (first >= text.size() || (digits.find(text[first]) == std::string_view::npos &&
                               (text[first] != '.' || first + 1 >= text.size() ||
                                digits.find(text[first + 1]) == std::string_view::npos)))
  {
    return std::nullopt;
  }
  Split parts;
  const char* const end = text.data() + text.size();
  const auto [stop, status] = std::from_chars(text.data() + start, end, parts.number);
  parts.beyond = status == std::errc::result_out_of_range;
  parts.number_text = std::string(text.data(), stop);
  parts.unit = tidied(std::string(stop, end));
  return parts;
}

bool not_finite(std::string_view text)
{
  text.remove_prefix(text[0] == '-' || text[0] == '+' ? 1 : 0);
  const std::string_view word = text.substr(0, text.find(' '));
  return same_letters(word, "nan") || same_letters(word, "inf") || same_letters(word, "infinity");
}

/// How to mend "5,0 mm", whose number stops at a comma; empty for other texts.
std::string cure_of_comma(const std::string& text, const Split& parts)
{
  const std::size_t comma = text.find(',');
  if (comma != parts.number_text.size() || comma + 1 >= text.size() ||
      digits.find(text[comma + 1]) == std::string_view::npos)
  {
    return {};
  }
  if (text.find_first_of(",.", comma + 1) != std::string::npos || text.find('.') < comma)
  {
    return "write one decimal point and no commas";
  }
  std::string mended = text;
  mended[comma] = '.';
  return fmt::format("use a point: {}", in_quotes(mended));
}

Misread unknown_unit(const std::string& text, const std::string& unit, Kind kind)
{
  const std::string units(unit_list(kind));
  for (std::size_t at = 0; at < units.size();)
  {
    const std::size_t end = std::min(units.find_first_of(", ", at), units.size());
    const std::string known = units.substr(at, end - at);
    if (same_letters(known, unit))
    {
      return {fmt::format("has the unknown unit {}, got {}", in_quotes(unit), in_quotes(text)),
              fmt::format("did you mean \"{}\"?", known)};
    }
    at = end + 1;
  }
  return {fmt::format("has the unknown unit {}, got {}", in_quotes(unit), in_quotes(text)),
          fmt::format("use {}", units)};
}

/// What is wrong with a text whose number is sound and whose unit is not of the kind.
Misread wrong_unit(const std::string& text, const Split& parts, UnitStatus status, Kind kind)
{
  if (const auto gauge = wire_gauge(text))
  {
    return {fmt::format("takes no wire gauge, got {}", in_quotes(text)),
            fmt::format("only wire does; write \"{:.4g} mm\"", 1e3 * wire_gauge_diameter(*gauge))};
  }
  if (kind == Kind::wire && parts.unit.size() == 3 && same_letters(parts.unit, "awg"))
  {
    return {fmt::format("names no wire gauge, got {}", in_quotes(text)),
            "gauges are whole numbers from 4/0 AWG to 56 AWG"};
  }
  if (status == UnitStatus::other_kind)
  {
    const std::string_view other = measured_by(parts.unit);
    return {fmt::format("must be {}, got {}{}", noun(kind), in_quotes(text),
                        other.empty() ? std::string() : fmt::format(" ({})", other)),
            fmt::format("use {}", unit_list(kind))};
  }
  if (const std::string cure = cure_of_comma(text, parts); !cure.empty())
  {
    return {fmt::format("has a comma in its number, got {}", in_quotes(text)), cure};
  }
  if (parts.unit[0] == '/')
  {
    return {fmt::format("must be one number and one unit, got {}", in_quotes(text)),
            "write a fraction as a decimal, e.g. \"0.5 in\""};
  }
  const std::size_t gap = parts.unit.find_first_of(" ,;x*");
  const bool second_number =
      gap != std::string::npos && parts.unit.find_first_of(digits, gap) != std::string::npos;
  if (second_number || std::string_view(".,-+").find(parts.unit[0]) != std::string_view::npos)
  {
    return {fmt::format("must be one number and one unit, got {}", in_quotes(text)),
            write_example(kind)};
  }
  return unknown_unit(text, parts.unit, kind);
}

/// A unit without a number, or words.
Misread no_number(const std::string& text, Kind kind)
{
  if (text.empty())
  {
    return {"is empty", write_example(kind)};
  }
  if (not_finite(text))
  {
    return {fmt::format("must be a finite number, got {}", in_quotes(text)), write_example(kind)};
  }
  return {fmt::format("must start with a number, got {}", in_quotes(text)), write_example(kind)};
}

} // namespace

Misread bare_number(std::string_view got, std::string_view number, Kind kind)
{
  const std::string_view unit = example(kind).substr(example(kind).find(' ') + 1);
  const bool maybe_gauge =
      kind == Kind::wire && number.find_first_not_of(digits) == std::string_view::npos;
  return {fmt::format("needs a unit, got {}", got),
          fmt::format("write e.g. \"{} {}\"{}", number, unit,
                      maybe_gauge ? fmt::format(" or \"{} AWG\"", number) : std::string())};
}

std::variant<double, Misread> quantity(std::string_view written, Kind kind)
{
  const std::string text = tidied(written);
  if (kind == Kind::wire)
  {
    if (const auto gauge = wire_gauge(text))
    {
      return wire_gauge_diameter(*gauge);
    }
  }
  const auto parts = text.empty() ? std::nullopt : split(text);
  if (!parts)
  {
    return no_number(text, kind);
  }
  if (parts->beyond)
  {
    return Misread{fmt::format("is out of range, got {}", in_quotes(text)), write_example(kind)};
  }
  if (kind == Kind::number && parts->unit.empty())
  {
    return parts->number;
  }
  if (parts->unit.empty())
  {
    return bare_number(in_quotes(text), parts->number_text, kind);
  }
  const UnitValue value = in_si(parts->number, parts->unit, kind);
  if (value.status == UnitStatus::fits && std::isfinite(value.si))
  {
    return value.si;
  }
  return wrong_unit(text, *parts, value.status, kind);
}

} // namespace cases
