// The units themselves: a small system of the trade's units, parsed and converted by UDUNITS-2.
//
// The library's own database holds thousands of units, costs 4 ms a start and must be found on the
// machine at run time. Ours is built in code at the first question, in 0.07 ms, and knows no
// furlong. The library is not safe for threads, so one lock guards it.
#include "cases/units.hpp"

#include <array>
#include <cassert>
#include <mutex>
#include <udunits2.h>
#include <utility>

namespace cases
{
namespace
{

struct Definition
{
  const char* symbol;
  const char* meaning;
};

constexpr std::array<std::pair<const char*, double>, 10> prefixes = {
    {{"G", 1e9},
     {"M", 1e6},
     {"k", 1e3},
     {"c", 1e-2},
     {"m", 1e-3},
     {"u", 1e-6},
     {"\u00b5", 1e-6}, // micro sign
     {"\u03bc", 1e-6}, // Greek letter mu
     {"n", 1e-9},
     {"p", 1e-12}}};

// "min" is a time, so that it is not read as a thousandth of an inch.
constexpr std::array<Definition, 18> definitions = {{{"g", "1e-3 kg"},
                                                     {"min", "60 s"},
                                                     {"Hz", "s-1"},
                                                     {"in", "0.0254 m"},
                                                     {"inch", "in"},
                                                     {"inches", "in"},
                                                     {"ft", "0.3048 m"},
                                                     {"mil", "2.54e-5 m"},
                                                     {"thou", "mil"},
                                                     {"T", "kg s-2 A-1"},
                                                     {"Gs", "1e-4 T"},
                                                     {"H", "T m2/A"},
                                                     {"S", "A2 s3 kg-1 m-2"},
                                                     {"ohm", "S-1"},
                                                     {"\u03a9", "ohm"},
                                                     {"V", "A ohm"},
                                                     {"degC", "K @ 273.15"},
                                                     {"\u00b0C", "degC"}}};

struct Measure
{
  Kind kind;
  const char* unit;
  std::string_view noun;
  std::string_view list;
};

constexpr std::array<Measure, 10> measures = {
    {{Kind::length, "m", "a length", "um, mm, cm, m, mil or in"},
     {Kind::wire, "m", "a wire diameter", "mm, mil, in or AWG"},
     {Kind::frequency, "Hz", "a frequency", "Hz, kHz or MHz"},
     {Kind::current, "A", "a current", "uA, mA or A"},
     {Kind::flux_density, "T", "a flux density", "uT, mT or T"},
     {Kind::conductivity, "S/m", "a conductivity", "S/m or MS/m"},
     {Kind::density, "kg/m3", "a density", "g/cm3 or kg/m3"},
     {Kind::temperature, "K", "a temperature", "degC or K"},
     {Kind::inductance, "H", "an inductance", "nH, uH, mH or H"},
     {Kind::number, "1", "a plain number", "no unit"}}};

struct Dimension
{
  const char* unit;
  std::string_view noun;
};

// Looked through in this order, so that a length is not taken for a wire.
constexpr std::array<Dimension, 12> dimensions = {{{"m", "a length"},
                                                   {"m2", "an area"},
                                                   {"s", "a time"},
                                                   {"Hz", "a frequency"},
                                                   {"kg", "a mass"},
                                                   {"A", "a current"},
                                                   {"T", "a flux density"},
                                                   {"S/m", "a conductivity"},
                                                   {"kg/m3", "a density"},
                                                   {"K", "a temperature"},
                                                   {"H", "an inductance"},
                                                   {"ohm m", "a resistivity"}}};

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

/// Whether the library may see the text: its grammar also takes factors, offsets and logarithms.
bool plain(std::string_view unit)
{
  constexpr std::string_view digits = "0123456789";
  for (std::size_t i = 0; i < unit.size(); ++i)
  {
    const bool digit = digits.find(unit[i]) != std::string_view::npos;
    const bool first = i == 0 || unit[i - 1] == ' ' || unit[i - 1] == '/' || unit[i - 1] == '*';
    if ((digit && first) || std::string_view("@():;,'\"").find(unit[i]) != std::string_view::npos)
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

} // namespace

std::string_view noun(Kind kind)
{
  return measure(kind).noun;
}

std::string_view unit_list(Kind kind)
{
  return measure(kind).list;
}

UnitValue in_si(double value, std::string_view unit, Kind kind)
{
  if (!plain(unit))
  {
    return {};
  }
  const std::lock_guard guard(library_lock());
  const Unit written(unit_system(), std::string(unit));
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

std::string_view measured_by(std::string_view unit)
{
  const std::lock_guard guard(library_lock());
  const Unit written(unit_system(), std::string(unit));
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
