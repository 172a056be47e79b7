// Thresholds here only choose words; every number printed comes from the result.
#include "cases/insight.hpp"

#include "cases/doublings.hpp"
#include "post/engineering.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace cases
{

namespace
{

using post::percent;

constexpr double little_gain = 1.1; // apparent permeability below which the body hardly shows
constexpr double mostly = 0.85;     // share above which one place is called decisive
constexpr double about_half = 0.5;

/// What 10 % more permeability gives, to first order.
std::string tenth(double sensitivity)
{
  const std::string gain = percent(0.1 * sensitivity);
  return gain.starts_with("less") ? gain : "about " + gain;
}

double share(const post::WindingResult& winding, const std::string& region)
{
  for (const auto& [name, value] : winding.shares)
  {
    if (name == region)
    {
      return value;
    }
  }
  return 0.0;
}

/// Both ends in per cent, rounded outwards, with as many decimals as the width needs.
std::string percent_range(double low, double high)
{
  const double width = std::max(100.0 * (high - low), 1e-9);
  const int places = std::clamp(1 - static_cast<int>(std::floor(std::log10(width))), 0, 3);
  const double step = std::pow(10.0, places);
  return fmt::format("{:.{}f} to {:.{}f} %", std::floor(100.0 * low * step) / step, places,
                     std::ceil(100.0 * high * step) / step, places);
}

/// "less than 0.08 %", rounded up, so that what is printed holds.
std::string less_than(double fraction)
{
  const double share = std::max(100.0 * fraction, 1e-9);
  const double step = std::pow(10.0, std::floor(std::log10(share)) - 1.0);
  return "less than " + post::number((std::floor(share / step) + 1.0) * step, 2) + " %";
}

/// "adds 1.6 to 1.9 %", "takes away ...", or that the brackets cannot tell.
std::string change_words(const post::Bounded& before, const post::Bounded& after)
{
  const double low = after.lower / before.upper - 1.0;
  const double high = after.upper / before.lower - 1.0;
  if (low > 0.0)
  {
    return "adds " + percent_range(low, high);
  }
  if (high < 0.0)
  {
    return "takes away " + percent_range(-high, -low);
  }
  return "changes " + less_than(std::max(high, -low)) + ", undecided by the brackets";
}

std::string ledger_sentence(const post::Result& result, const post::RegionResult& main)
{
  const post::WindingResult& winding = result.windings.front();
  const double air = air_share(result);
  const double own = share(winding, main.name);
  const std::string name = main.name;
  if (winding.apparent_permeability > 1.0 && winding.apparent_permeability < little_gain)
  {
    const std::string gain = percent(winding.apparent_permeability - 1.0);
    return fmt::format("The magnetic material adds {}{} to the inductance of the empty winding: "
                       "too little or too far away to matter much.",
                       gain.starts_with("less") ? "" : "only ", gain);
  }
  if (air >= mostly)
  {
    return fmt::format("{} of the energy sits in the air around {}: its permeability hardly "
                       "matters (10 % more gives {}), its shape and place do.",
                       percent(air), name, tenth(own));
  }
  if (own >= mostly)
  {
    return fmt::format("{} of the energy sits in {}: its permeability decides almost alone (10 % "
                       "more gives {}).",
                       percent(own), name, tenth(own));
  }
  return fmt::format("{} of the energy sits in {} and {} in the air: {} decides more, but both "
                     "count (10 % more permeability of {} gives {}).",
                     percent(own), name, percent(air),
                     own >= about_half ? "the permeability" : "the shape", name, tenth(own));
}

/// What holds a part's apparent permeability where it is: mu_app = mu / (1 + (mu - 1) N), so
/// d ln mu_app / d ln mu = (1 - N) / (1 + (mu - 1) N) at the same N.
std::string background_sentence(const post::RegionResult& region)
{
  const post::Demagnetisation& data = *region.demagnetisation;
  const std::string gathered =
      fmt::format("{} gathers {} times the background in its middle, where its material in a "
                  "closed circuit would gather {} times",
                  region.name, post::number(data.apparent_permeability_middle),
                  post::count(region.permeability, 4));
  if (!data.ballistic)
  {
    return gathered + ".";
  }
  const double N = *data.ballistic;
  const double gain = (1.0 - N) / (1.0 + (region.permeability - 1.0) * N);
  return fmt::format("{}; at its demagnetising factor {}, 10 % more permeability would give "
                     "{}, so the {} decides.",
                     gathered, post::number(N), tenth(gain),
                     gain < about_half ? "shape" : "permeability");
}

/// The part gain is judged by in a background field; null without one.
const post::RegionResult* background_part(const post::Result& result, const std::string& name)
{
  for (const post::RegionResult& region : result.regions)
  {
    if (region.name == name && region.demagnetisation)
    {
      return &region;
    }
  }
  return nullptr;
}

/// Change of the flux density in the middle: an estimate, no bracket.
std::string middle_words(const post::Result& before, const post::Result& after,
                         const std::string& name)
{
  const post::RegionResult* old_part = background_part(before, name);
  const post::RegionResult* new_part = background_part(after, name);
  if (!old_part || !new_part)
  {
    return "";
  }
  const double gain = new_part->demagnetisation->apparent_permeability_middle /
                          old_part->demagnetisation->apparent_permeability_middle -
                      1.0;
  return fmt::format("{} about {} in the middle", gain >= 0.0 ? "adds" : "takes away",
                     percent(std::abs(gain)));
}

} // namespace

double air_share(const post::Result& result)
{
  double sum = 0.0;
  for (const auto& [name, value] : result.windings.front().shares)
  {
    const auto region =
        std::find_if(result.regions.begin(), result.regions.end(),
                     [&name = name](const post::RegionResult& one) { return one.name == name; });
    sum += region == result.regions.end() || region->permeability == 1.0 ? value : 0.0;
  }
  return sum;
}

std::string limit_sentence(const post::Result& result)
{
  const post::RegionResult* main = main_region(result);
  if (!main)
  {
    return result.windings.empty()
               ? "Nothing here is magnetic: at rest the parts leave the field as it is."
               : "Nothing here is magnetic: only the winding's own shape counts.";
  }
  if (!result.windings.empty())
  {
    const std::string alone = result.windings.size() > 1
                                  ? "With " + result.windings.front().name + " driven alone: "
                                  : "";
    return alone + ledger_sentence(result, *main);
  }
  return main->demagnetisation ? background_sentence(*main) : "";
}

std::string gain_sentence(const post::Result& result, std::span<const Tried> tried)
{
  std::string list;
  const post::RegionResult* main = main_region(result);
  for (const Tried& one : tried)
  {
    const bool wound = !result.windings.empty() && !one.result.windings.empty();
    const std::string words = wound ? change_words(result.windings.front().inductance,
                                                   one.result.windings.front().inductance)
                                    : middle_words(result, one.result, main ? main->name : "");
    list += words.empty() ? "" : (list.empty() ? "" : "; ") + one.what + " " + words;
  }
  const std::string of =
      result.windings.size() > 1 ? ", inductance of " + result.windings.front().name : "";
  return list.empty() ? "" : "Solved again with one thing changed" + of + ": " + list + ".";
}

} // namespace cases
