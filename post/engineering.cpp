// Rounding and prefixes; see engineering.hpp for the rules.
#include "post/engineering.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>

namespace post
{

namespace
{

constexpr std::array<std::string_view, 9> prefixes = {"f", "p", "n", "u", "m", "", "k", "M", "G"};
constexpr int first_exponent = -15;
constexpr int no_prefix = 5;

/// Decimal exponent of the leading digit; `value` not zero.
int magnitude(double value)
{
  return static_cast<int>(std::floor(std::log10(std::abs(value))));
}

/// `value` rounded to so many significant digits.
double rounded(double value, int digits)
{
  if (value == 0.0 || !std::isfinite(value))
  {
    return value;
  }
  return std::stod(fmt::format("{:.{}e}", value, digits - 1));
}

/// Index of the prefix that puts 1 to 999 before the point, or the next larger one where the
/// digits do not reach the point; out of the table where there is none.
int prefix_index(double value, int digits)
{
  const int exponent = magnitude(value);
  const int group = static_cast<int>(std::floor(exponent / 3.0));
  const bool reaches_point = digits > exponent - 3 * group;
  return group - first_exponent / 3 + (reaches_point ? 0 : 1);
}

double scale(int index)
{
  return std::pow(10.0, first_exponent + 3 * index);
}

bool has_prefix(int index)
{
  return index >= 0 && index < static_cast<int>(prefixes.size());
}

/// Digits after the point that show `digits` significant ones.
int decimals(double scaled, int digits)
{
  return std::max(0, digits - 1 - magnitude(scaled));
}

} // namespace

int decided_digits(const Bounded& bounded)
{
  const double half = 0.5 * (bounded.upper - bounded.lower);
  for (int digits = 4; digits > 2; --digits)
  {
    const double shown = rounded(bounded.value, digits);
    // The small slack is for a half-width of exactly one unit, which round-off may lift above it.
    if (shown != 0.0 && half <= std::pow(10.0, magnitude(shown) - digits + 1) * (1.0 + 1e-9))
    {
      return digits;
    }
  }
  return 2;
}

std::string engineering(double value, std::string_view unit, int digits)
{
  const double shown = rounded(value, digits);
  if (shown == 0.0 || !std::isfinite(shown))
  {
    return fmt::format("{:g} {}", shown, unit);
  }
  const int index = prefix_index(shown, digits);
  if (!has_prefix(index))
  {
    return fmt::format("{:.{}e} {}", shown, digits - 1, unit);
  }
  const double scaled = shown / scale(index);
  return fmt::format("{:.{}f} {}{}", scaled, decimals(scaled, digits), prefixes[index], unit);
}

std::string engineering(const Bounded& bounded, std::string_view unit)
{
  const bool holds_zero = bounded.lower <= 0.0 && bounded.upper >= 0.0;
  return engineering(holds_zero ? 0.0 : bounded.value, unit, decided_digits(bounded));
}

Ends ends(const Bounded& bounded, std::string_view unit)
{
  const double largest = std::max(std::abs(bounded.lower), std::abs(bounded.upper));
  if (largest == 0.0 || !std::isfinite(largest))
  {
    return {number(bounded.lower), number(bounded.upper), std::string(unit)};
  }
  const double width = bounded.upper - bounded.lower;
  const int telling = width > 0.0 ? magnitude(largest) - magnitude(width) + 2 : 4;
  const int digits = std::clamp(telling, 3, 12);
  const int index = unit.empty() ? no_prefix : std::clamp(prefix_index(largest, digits), 0, 8);
  const int places = std::max(0, decimals(largest / scale(index), digits));
  const double step = std::pow(10.0, places);
  const double lower = std::floor(bounded.lower / scale(index) * step) / step;
  const double upper = std::ceil(bounded.upper / scale(index) * step) / step;
  return {fmt::format("{:.{}f}", lower, places), fmt::format("{:.{}f}", upper, places),
          fmt::format("{}{}", prefixes[index], unit)};
}

std::string number(double value, int digits)
{
  const double shown = rounded(value, digits);
  if (shown == 0.0 || !std::isfinite(shown))
  {
    return fmt::format("{:g}", shown);
  }
  if (magnitude(shown) >= 7 || magnitude(shown) < -4)
  {
    return fmt::format("{:.{}e}", shown, digits - 1);
  }
  return fmt::format("{:.{}f}", shown, decimals(shown, digits));
}

std::string count(double value, int digits)
{
  return fmt::format("{:.{}g}", value, digits);
}

std::string percent(double fraction)
{
  const double share = 100.0 * fraction;
  const double rest = 100.0 - share;
  if (share != 0.0 && std::abs(share) < 0.01)
  {
    return "less than 0.01 %";
  }
  if (rest > 0.0 && rest < 0.5) // "100 %" would deny the rest
  {
    return rest < 0.01 ? "over 99.99 %" : fmt::format("{:.{}f} %", share, -magnitude(rest));
  }
  return number(share, std::abs(share) < 100.0 ? 2 : 3) + " %";
}

std::string fine_percent(double fraction)
{
  return number(100.0 * fraction, 2) + " %";
}

std::string millimetres(double length)
{
  const double shown = rounded(length * 1e3, 6);
  return fmt::format("{:.6g} mm", shown);
}

} // namespace post
