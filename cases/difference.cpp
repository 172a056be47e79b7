// Why two cases differ: L = (L in air) x (apparent permeability), each factor set side by side.
#include "cases/insight.hpp"

#include "post/engineering.hpp"

#include <fmt/format.h>

namespace cases
{

namespace
{

/// "1.04 (1.039 to 1.041)".
std::string with_interval(const post::Bounded& ratio)
{
  const post::Ends ends = post::ends(ratio, "");
  return fmt::format("{} ({} to {})", post::number(ratio.value, post::decided_digits(ratio)),
                     ends.lower, ends.upper);
}

/// What the winding and the material each contribute; the product of the two is the ratio.
std::string factors(const post::WindingResult& yardstick, const post::WindingResult& winding)
{
  const double bare = winding.air_inductance.value / yardstick.air_inductance.value;
  const double material = winding.apparent_permeability / yardstick.apparent_permeability;
  if (winding.air_inductance.lower <= yardstick.air_inductance.upper &&
      yardstick.air_inductance.lower <= winding.air_inductance.upper)
  {
    return fmt::format("the empty windings are equal within their brackets, and the magnetic "
                       "material multiplies the one by {}, the yardstick's by {}",
                       post::number(winding.apparent_permeability),
                       post::number(yardstick.apparent_permeability));
  }
  const bool together = (bare > 1.0) == (material > 1.0);
  return fmt::format("the empty winding alone has {} times the yardstick's inductance, {} the "
                     "magnetic material multiplies it by {} instead of {}",
                     post::number(bare), together ? "and" : "but",
                     post::number(winding.apparent_permeability),
                     post::number(yardstick.apparent_permeability));
}

std::string turns_sentence(const post::WindingResult& winding, const post::Compared& compared)
{
  const std::string has = post::count(winding.turns);
  const std::string needs = post::number(*compared.turns_to_match, 4);
  return compared.turns_estimated
             ? fmt::format("About {} turns instead of {} would match the yardstick (estimate: "
                           "other turns would lie elsewhere).",
                           needs, has)
             : fmt::format("{} turns instead of {} in the same section would match the yardstick.",
                           needs, has);
}

} // namespace

std::string difference_sentences(const std::string& label, const post::Result& yardstick,
                                 const post::Result& result, const post::Compared& first,
                                 const post::Compared& compared)
{
  if (!compared.ratio)
  {
    return label + ": without a winding in both cases there is no ratio of inductances.";
  }
  const post::Bounded& ratio = *compared.ratio;
  const bool volumes = first.magnetic_volume > 0.0 && compared.magnetic_volume > 0.0;
  const std::string volume = volumes
                                 ? post::number(compared.magnetic_volume / first.magnetic_volume) +
                                       " times the magnetic volume, "
                                 : "";
  if (ratio.lower <= 1.0 && ratio.upper >= 1.0)
  {
    return fmt::format("{}: {}inductance equal within the brackets (ratio {} to {}); which is "
                       "larger is undecided at this accuracy.",
                       label, volume, post::ends(ratio, "").lower, post::ends(ratio, "").upper);
  }
  return fmt::format("{}: {}{} times the inductance, because {}. {}", label, volume,
                     with_interval(ratio),
                     factors(yardstick.windings.front(), result.windings.front()),
                     compared.turns_to_match ? turns_sentence(result.windings.front(), compared)
                                             : "Turns in parallel do not add up to a number of "
                                               "turns that would match.");
}

} // namespace cases
