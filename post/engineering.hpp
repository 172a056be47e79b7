// Numbers as an engineer writes them: unit prefix, and only the digits a bracket decides.
//
// Plain ASCII ("uH"). Knows values and units, not what they belong to.
#pragma once

#include "post/result.hpp"

#include <string>
#include <string_view>

namespace post
{

/// @brief Significant digits, 2 to 4, of which the bracket leaves the last within one unit.
///
/// Half-width 1e-3 of the value gives at least 3, 1e-4 gives 4.
int decided_digits(const Bounded& bounded);

/// @brief `value` in `unit` with a prefix from f to G: engineering(8.12e-4, "H") is "812 uH".
///
/// Fewer digits than stand before the point move to the next prefix ("0.95 mH"), so that no
/// undecided zero is printed.
/// @param digits  Significant digits, 1 to 15.
std::string engineering(double value, std::string_view unit, int digits = 3);

/// @brief The value with the digits its bracket decides; "0" where the bracket holds zero.
std::string engineering(const Bounded& bounded, std::string_view unit);

/// @brief The two ends of a bracket, rounded outwards so that what is printed still holds.
struct Ends
{
  std::string lower; ///< Number only.
  std::string upper; ///< Number only.
  std::string unit;  ///< Prefix and unit of both.
};
/// @brief Ends with enough digits to tell them apart, in the prefix of the value; no prefix
///        where there is no unit.
Ends ends(const Bounded& bounded, std::string_view unit);

/// @brief Plain number of so many significant digits, never in powers of ten below 1e7.
std::string number(double value, int digits = 3);

/// @brief A given number as people write it, up to so many digits, no zeros added: "100", "12.5".
std::string count(double value, int digits = 6);

/// @brief A fraction in per cent: "97 %", "3.4 %", "0.27 %", "99.97 %", "less than 0.01 %".
std::string percent(double fraction);

/// @brief A fraction in per cent with two significant digits, however small: "0.0042 %".
std::string fine_percent(double fraction);

/// @brief A length [m] in millimetres: "60 mm".
std::string millimetres(double length);

} // namespace post
