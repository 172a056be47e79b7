// Digits, and words where a disc leaves none.
#include "cases/impedance_text.hpp"

#include "cases/table.hpp"
#include "post/engineering.hpp"

#include <algorithm>
#include <cmath>

namespace cases
{

namespace
{

/// Digits the disc leaves, where it leaves any.
int digits(double value, double disc)
{
  return disc > 0.0 && value > 0.0
             ? std::clamp(static_cast<int>(std::floor(std::log10(value / disc))) + 1, 2, 5)
             : 4;
}

} // namespace

std::string resistance_text(const post::WindingImpedance& one)
{
  return one.resistance > 0.0 && one.resistance <= one.disc
             ? "< " + post::engineering(one.resistance + one.disc, "ohm", 2)
             : post::engineering(
                   one.resistance, "ohm",
                   std::min(digits(one.resistance, one.disc), one.proximity_resistance ? 3 : 5));
}

bool inductance_open(const post::WindingImpedance& one)
{
  return one.inductance * one.omega <= one.disc;
}

std::string quality_text(const post::WindingImpedance& one)
{
  const bool known = !inductance_open(one) && one.resistance > one.disc;
  return known && std::isfinite(one.quality()) ? post::number(one.quality(), 3) : "-";
}

std::string inductance_text(const post::WindingImpedance& one)
{
  return inductance_open(one)
             ? "not told"
             : post::engineering(one.inductance, "H", digits(one.inductance * one.omega, one.disc));
}

std::string loss_parts(const post::WindingImpedance& one)
{
  auto list = one.by_body;
  std::ranges::stable_sort(list, std::greater(), [](const auto& part) { return part.second; });
  std::string words;
  for (const auto& [name, part] : list)
  {
    if (part > 0.005 * one.resistance)
    {
      words +=
          (words.empty() ? "" : ", ") + plain(name) + " " + post::percent(part / one.resistance);
    }
  }
  return words;
}

} // namespace cases
