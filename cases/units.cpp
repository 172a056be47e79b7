// The units themselves: a small system of the trade's units, parsed and converted by UDUNITS-2.
//
// The library's own database holds thousands of units, costs 4 ms a start and must be found on the
// machine at run time. Ours is built in code at the first question, in 0.07 ms, and knows no
// furlong. The library is not safe for threads, so one lock guards it.
#include "cases/units.hpp"

#include "cases/unit_tables.hpp"

#include <cassert>
#include <mutex>
#include <udunits2.h>

namespace cases
{
namespace
{

const Measure& measure(Kind kind)
{
  for (const Measure& entry : measures)
  {
    if (entry.kind == kind)
    {
      return entry;
    }
  }
  assert(false);
  return measures.back();
}

/// A parsed unit that frees itself; empty where the text is no unit.
class Unit
{
public:
  Unit(ut_system* system, const std::string& text) : _unit(ut_parse(system, text.c_str(), UT_UTF8))
  {
  }
  ~Unit() { ut_free(_unit); }
  Unit(const Unit&) = delete;
  Unit& operator=(const Unit&) = delete;

  explicit operator bool() const { return _unit != nullptr; }

  /// Same dimension; the library alone would also turn seconds into hertz, by the reciprocal.
  bool same_dimension(const Unit& other) const
  {
    ut_unit* ratio = ut_divide(_unit, other._unit);
    const bool same = ratio != nullptr && ut_is_dimensionless(ratio) != 0;
    ut_free(ratio);
    return same;
  }

  double convert(double value, const Unit& to) const
  {
    cv_converter* converter = ut_get_converter(_unit, to._unit);
    const double converted = cv_convert_double(converter, value);
    cv_free(converter);
    return converted;
  }

private:
  ut_unit* _unit;
};

ut_system* built_system()
{
  ut_set_error_message_handler(ut_ignore);
  ut_system* system = ut_new_system();
  for (const char* symbol : {"m", "kg", "s", "A", "K"})
  {
    ut_unit* base = ut_new_base_unit(system);
    ut_map_symbol_to_unit(symbol, UT_UTF8, base);
    ut_free(base);
  }
  for (const auto& [symbol, factor] : prefixes)
  {
    ut_add_symbol_prefix(system, symbol, factor);
  }
  for (const Definition& definition : definitions)
  {
    ut_unit* unit = ut_parse(system, definition.meaning, UT_UTF8);
    assert(unit != nullptr);
    ut_map_symbol_to_unit(definition.symbol, UT_UTF8, unit);
    ut_free(unit);
  }
  return system;
}

/// The system, built at the first call and kept for the life of the program.
ut_system* unit_system()
{
  static ut_system* const system = built_system();
  return system;
}

std::mutex& library_lock()
{
  static std::mutex lock;
  return lock;
}

bool is_digit(char letter)
{
  return letter >= '0' && letter <= '9';
}

/// Whether a digit at `at` is an exponent: "m2", "m^2", "m-1", "m^-1", and not a factor.
bool exponent(std::string_view unit, std::size_t at)
{
  while (at > 0 && is_digit(unit[at - 1]))
  {
    --at;
  }
  at -= at > 1 && (unit[at - 1] == '-' || unit[at - 1] == '+') ? 1 : 0;
  return at > 0 && std::string_view(" ./*+-").find(unit[at - 1]) == std::string_view::npos;
}

/// Whether the library may see the text: its grammar also takes factors, offsets and logarithms.
bool plain(std::string_view unit)
{
  for (std::size_t i = 0; i < unit.size(); ++i)
  {
    if ((is_digit(unit[i]) && !exponent(unit, i)) ||
        std::string_view("@():;,'\"").find(unit[i]) != std::string_view::npos)
    {
      return false;
    }
  }
  for (const std::string_view word : {"since", "after", "from", "ref", "SINCE", "AFTER", "FROM"})
  {
    if (unit.find(word) != std::string_view::npos)
    {
      return false;
    }
  }
  return !unit.empty();
}

/// "W/(m K)" as "W/m/K": people write the one, and the library sees no brackets.
std::string without_brackets(std::string_view unit)
{
  const std::size_t open = unit.find("/(");
  if (open == std::string_view::npos || !unit.ends_with(')'))
  {
    return std::string(unit);
  }
  const std::string_view inside = unit.substr(open + 2, unit.size() - open - 3);
  if (inside.empty() || inside.find_first_of("/()*-") != std::string_view::npos)
  {
    return std::string(unit);
  }
  std::string made(unit.substr(0, open));
  bool between = true;
  for (const char letter : inside)
  {
    const bool space = letter == ' ' || letter == '.';
    made += !space && between ? "/" : "";
    made += space ? "" : std::string(1, letter);
    between = space;
  }
  return made;
}

/// "1/K" is the one factor people write; the library may not see it as one.
std::string without_factor(std::string_view per)
{
  return per.starts_with("1/") && per.find_first_of(" ./*0", 2) == per.npos
             ? std::string(per.substr(2)) + "-1"
             : without_brackets(per);
}

} // namespace

std::string_view noun(Kind kind)
{
  return measure(kind).noun;
}

std::string_view unit_list(Kind kind)
{
  return measure(kind).list;
}

UnitValue in_si(double value, std::string_view per, Kind kind)
{
  const std::string unit = without_factor(per);
  if (!plain(unit))
  {
    return {};
  }
  const std::lock_guard guard(library_lock());
  const Unit written(unit_system(), unit);
  if (!written)
  {
    return {};
  }
  const Unit wanted(unit_system(), measure(kind).unit);
  if (!written.same_dimension(wanted))
  {
    return {UnitStatus::other_kind};
  }
  return {UnitStatus::fits, written.convert(value, wanted)};
}

std::string_view measured_by(std::string_view per)
{
  const std::string unit = without_factor(per);
  if (!plain(unit))
  {
    return {};
  }
  const std::lock_guard guard(library_lock());
  const Unit written(unit_system(), unit);
  for (const Dimension& dimension : dimensions)
  {
    if (written && written.same_dimension(Unit(unit_system(), dimension.unit)))
    {
      return dimension.noun;
    }
  }
  return {};
}

} // namespace cases
