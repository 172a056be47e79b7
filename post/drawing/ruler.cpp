// Range, unit and direction of an axis.
#include "post/drawing/ruler.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>

namespace post::drawing
{

namespace
{

/// @brief Units whose values get a prefix.
bool takes_prefix(const std::string& unit)
{
  constexpr std::array<std::string_view, 15> units = {
      "H", "m", "ohm", "Hz", "A", "V", "T", "Wb", "F", "J", "W", "s", "S/m", "A/m", "H/m"};
  return std::find(units.begin(), units.end(), unit) != units.end();
}

/// @brief What the values are divided by, and its sign before the unit.
struct Prefix
{
  double factor = 1.0;
  std::string sign;
};

Prefix prefix_for(double greatest, double least)
{
  static const char* const signs[] = {"f", "p", "n", "\u00B5", "m", "", "k", "M", "G", "T"};
  const double size = std::max(std::abs(greatest), std::abs(least));
  if (!(size > 0.0))
    return {};
  const int thousand =
      std::clamp(static_cast<int>(std::floor(std::log10(size) / 3.0 + 1e-9)), -5, 4);
  return {std::pow(1000.0, thousand), signs[thousand + 5]};
}

/// @brief A unit as it is printed.
std::string printed(const std::string& unit)
{
  if (unit.starts_with("ohm"))
    return "\u2126" + unit.substr(3);
  return unit == "deg" ? "\u00B0" : unit;
}

/// @brief The next of 1, 2, 5 times a power of ten, outwards.
double outward(double value, bool up)
{
  const double decade = std::pow(10.0, std::floor(std::log10(value) + 1e-9));
  const double part = value / decade;
  if (up)
    return decade * (part <= 1.0 + 1e-9 ? 1.0 : part <= 2.0 ? 2.0 : part <= 5.0 ? 5.0 : 10.0);
  return decade * (part >= 5.0 ? 5.0 : part >= 2.0 ? 2.0 : 1.0);
}

/// @brief Both ends moved outwards to round numbers; zero joins an axis that comes near it.
void round_ends(Ruler& ruler, int most)
{
  if (ruler.logarithmic)
  {
    ruler.from = outward(ruler.from, false);
    ruler.to = outward(ruler.to, true);
    return;
  }
  if (ruler.from > 0.0 && ruler.from < 0.5 * ruler.to)
    ruler.from = 0.0;
  const std::vector<Tick> ticks = even_ticks(ruler.from, ruler.to, most, 1.0);
  if (ticks.size() < 2)
    return;
  const double step = ticks[1].value - ticks[0].value;
  ruler.from = step * std::floor(ruler.from / step + 1e-9);
  ruler.to = step * std::ceil(ruler.to / step - 1e-9);
}

/// @brief The range with room where something goes on beyond it, or where it has no width.
void set_ends(Ruler& ruler, const Range& drawn)
{
  const auto room = [&](double value, double part)
  {
    if (ruler.logarithmic)
      return value * std::pow(std::max(drawn.upper / drawn.lower, 1.5), part);
    const double width = drawn.upper - drawn.lower;
    return value + part * (width > 0.0 ? width : value != 0.0 ? 0.2 * std::abs(value) : 1.0);
  };
  const double beyond = drawn.upper > drawn.lower ? 0.12 : 0.5;
  const bool flat = beyond > 0.12;
  ruler.from = flat || drawn.below ? room(drawn.lower, -beyond) : drawn.lower;
  ruler.to = flat || drawn.above ? room(drawn.upper, beyond) : drawn.upper;
  if (drawn.lower >= 0.0 && !ruler.logarithmic) // room alone does not make an axis of both signs
    ruler.from = std::max(ruler.from, 0.0);
}

/// @brief The ends as given, others from what is drawn.
void choose_ends(Ruler& ruler, const ChartAxis& axis, Range drawn, int most, bool round)
{
  if (!axis.names.empty())
    drawn = {0.5, static_cast<double>(axis.names.size()) + 0.5};
  else if (drawn.lower > drawn.upper)
    drawn.lower = drawn.upper = 1.0; // nothing finite is drawn
  drawn.lower = axis.from.value_or(axis.to ? std::min(drawn.lower, *axis.to) : drawn.lower);
  drawn.upper = axis.to.value_or(std::max(drawn.upper, drawn.lower));
  set_ends(ruler, drawn);
  if (round && axis.names.empty())
    round_ends(ruler, most);
  ruler.from = axis.from.value_or(ruler.from);
  ruler.to = axis.to.value_or(ruler.to);
}

} // namespace

double Ruler::at(double value) const
{
  constexpr double far = 1e9;
  const double part = logarithmic
                          ? (value > 0.0 ? std::log(value / from) / std::log(to / from) : -far)
                          : (value - from) / (to - from);
  return low + std::clamp(part * (high - low), -far, far);
}

double Ruler::value(double place) const
{
  const double part = (place - low) / (high - low);
  return logarithmic ? from * std::pow(to / from, part) : from + part * (to - from);
}

void Range::hold(double value)
{
  below = below || value == -HUGE_VAL;
  above = above || value == HUGE_VAL;
  if (!std::isfinite(value))
    return;
  const bool first = lower > upper;
  lower = first ? value : std::min(lower, value);
  upper = first ? value : std::max(upper, value);
}

Ruler ruler(const ChartAxis& axis, const Range& drawn, double low, double high, int most,
            bool round)
{
  Ruler result{axis.logarithmic, 0.0, 1.0, low, high, axis.label, {}};
  choose_ends(result, axis, drawn, most, round);
  if (!axis.names.empty())
  {
    for (std::size_t k = 0; k < axis.names.size(); ++k)
      if (const double value = double(k + 1); value >= result.from && value <= result.to)
        result.ticks.push_back({value, axis.names[k]});
    return result;
  }
  const bool prefix = takes_prefix(axis.unit);
  Prefix shared = prefix ? prefix_for(result.to, result.from) : Prefix{};
  // On a long logarithmic axis one prefix would make long numbers: each tick then has its own.
  const bool each = prefix && result.logarithmic && result.from / shared.factor < 0.0099;
  if (each)
    shared = {};
  result.ticks = result.logarithmic
                     ? decade_ticks(result.from, result.to, most, shared.factor, each)
                     : even_ticks(result.from, result.to, most, shared.factor);
  const auto worded = std::count_if(result.ticks.begin(), result.ticks.end(),
                                    [](const Tick& tick) { return !tick.words.empty(); });
  if (result.logarithmic && worded < 3 && !each)
    result.ticks = even_ticks(result.from, result.to, most, shared.factor);
  if (!axis.unit.empty())
    result.title += fmt::format(" [{}{}]", shared.sign, printed(axis.unit));
  return result;
}

} // namespace post::drawing
