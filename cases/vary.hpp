// What a sweep moves, and over which values: `--vary KEY=...`, or [sweep] of a case.
//
// Values stay texts as --set takes them, so that a point of a sweep is the case with those
// overrides and nothing else.
#pragma once

#include "cases/fault.hpp"
#include "cases/units.hpp"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace cases
{

struct VariedValue
{
  std::string text;   ///< "20 mm"
  double si = 0.0;    ///< Where all values of the key are numbers or quantities.
  double shown = 0.0; ///< The same in Varied::unit.
};

/// @brief One `--vary`: a key, or several that move alike.
struct Varied
{
  std::vector<std::string> keys;
  std::vector<VariedValue> values;
  bool numeric = false; ///< Every value is a number or a quantity, all of one kind.
  Kind kind = Kind::number;
  std::string unit; ///< As first written: "mm"; empty for pure numbers and words.
  bool logarithmic = false;
  SourcePlace where; ///< For faults that only the case can tell.
};

/// @brief A range as written, in a case or on the command line.
struct Range
{
  std::string from;
  std::string to;
  int count = 0;
  bool logarithmic = false;
};

inline constexpr int most_values = 100000;

/// @brief `KEY=FROM:TO:COUNT[:log]`, `KEY=A,B,C`, `KEY,KEY=...`.
/// @throws CaseError with one line that says how to write it.
Varied varied(const std::string& typed);

/// @brief Evenly spaced values, linear or logarithmic; both ends included, in the unit of `from`,
///        rounded to 12 digits so that each can be typed again.
/// @throws CaseError at where.
Varied over_range(std::vector<std::string> keys, const Range& range, const SourcePlace& where);
/// @brief The values of a list. @throws CaseError at where.
Varied over_list(std::vector<std::string> keys, const std::vector<std::string>& texts,
                 const SourcePlace& where);

/// @brief "parts.a.length, parts.b.length"
std::string keys_text(const Varied& varied);
/// @brief Name of a column or an axis: "rod.length", "powder packing"; without the unit.
std::string short_name(const Varied& varied);
/// @brief SI unit of a kind: "m"; empty for numbers.
std::string si_unit(Kind kind);

} // namespace cases
