// Round numbers along an axis and how they are written.
#include "post/drawing/ruler.hpp"
#include "post/drawing/words.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace post::drawing
{

namespace
{

/// @brief A round number with no zeros added: a true minus sign, thousands set apart from 10 000.
std::string plain(double number)
{
  if (number == 0.0)
    return "0";
  std::string words = fmt::format("{:.10g}", std::abs(number));
  const auto whole = std::min(words.find_first_not_of("0123456789"), words.size());
  if (whole > 4 && words.find('e') == std::string::npos)
    for (auto at = static_cast<std::ptrdiff_t>(whole) - 3; at > 0; at -= 3)
      words.insert(static_cast<std::size_t>(at), "\u2009");
  return number < 0.0 ? "\u2212" + words : words;
}

/// @brief "10 k": every tick with a prefix of its own.
std::string prefixed(double number)
{
  static const char* const prefixes[] = {"f", "p", "n", "\u00B5", "m", "", "k", "M", "G", "T"};
  const int thousand =
      std::clamp(static_cast<int>(std::floor(std::log10(number) / 3.0 + 1e-9)), -5, 4);
  const char* const prefix = prefixes[thousand + 5];
  const std::string words = plain(number / std::pow(1000.0, thousand));
  return *prefix == '\0' ? words : words + "\u00A0" + prefix;
}

} // namespace

std::vector<Tick> even_ticks(double from, double to, int most, double factor)
{
  const double least = (to - from) / factor / std::max(most, 1);
  double step = round_step(least);
  if (step < least * (1.0 - 1e-9))
    step = round_step(2.5 * step * 1.0001); // the next of 1, 2, 5
  std::vector<Tick> ticks;
  const double first = std::ceil(from / factor / step - 1e-9);
  const double last = std::floor(to / factor / step + 1e-9);
  for (double k = first; k <= last; k += 1.0)
    ticks.push_back({k * step * factor, plain(k == 0.0 ? 0.0 : k * step)});
  return ticks;
}

std::vector<Tick> decade_ticks(double from, double to, int most, double factor, bool prefixes)
{
  const int first = static_cast<int>(std::floor(std::log10(from) + 1e-9));
  const int last = static_cast<int>(std::floor(std::log10(to) + 1e-9));
  const double decades = std::log10(to / from);
  const int every = std::max(1, static_cast<int>(std::ceil(decades / most)));
  std::vector<Tick> ticks;
  for (int decade = first; decade <= last; ++decade)
    for (int digit = 1; digit <= 9; ++digit)
    {
      const double value = digit * std::pow(10.0, decade);
      if (value < from * (1.0 - 1e-9) || value > to * (1.0 + 1e-9))
        continue;
      const bool worded =
          digit == 1 ? decade % every == 0 : (digit == 2 || digit == 5) && 3.0 * decades <= most;
      if (digit > 1 && decades > 12.0)
        continue;
      ticks.push_back({value, !worded ? "" : prefixes ? prefixed(value) : plain(value / factor)});
    }
  return ticks;
}

} // namespace post::drawing
