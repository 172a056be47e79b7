// Headline and notes from the numbers of a result.
#include "post/drawing/notes.hpp"
#include "post/drawing/words.hpp"
#include "post/engineering.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace post::drawing
{

std::vector<std::string> headline(const Result& result)
{
  constexpr std::size_t most = 4;
  std::vector<std::string> lines;
  for (const WindingResult& winding : result.windings)
    if (lines.size() < most)
      lines.push_back(fmt::format("{}: {}", winding.name, bracketed(winding.inductance, "H")));
  if (result.windings.size() > most)
    lines.push_back(fmt::format("and {} more windings", result.windings.size() - most));
  if (!result.accuracy_reached)
    lines.push_back(fmt::format("Accuracy asked for not reached: half-width {:.2g} of the value, "
                                "asked {:.2g}. {}",
                                result.accuracy_met, result.accuracy_asked, result.limit));
  return lines;
}

std::vector<std::string> notes(const Result& result, const FluxPicture& flux, const Scale& scale,
                               double strongest)
{
  std::vector<std::string> lines;
  if (flux.step > 0.0)
    lines.push_back(
        fmt::format("Between neighbouring flux lines flow {} (all round the axis). Each "
                    "colour is about 1.26 times as strong as the one before it.",
                    with_micro_sign(engineering(flux.step, "Wb", 1), "Wb")));
  std::vector<std::string> corners;
  for (const RegionResult& region : result.regions)
    if (region.peak_at_corner && region.name != "air") // it lies in the body's corner as well
      corners.push_back(region.name);
  const double top = scale.edges.back();
  if (strongest > top && !corners.empty())
    lines.push_back(fmt::format("Caution: the peak at a corner ({}) depends on the mesh and is "
                                "capped in this picture: all above {:g} {} has one colour.",
                                fmt::join(corners, ", "), top / scale.unit, scale.unit_name));
  else if (strongest > top)
    lines.push_back(fmt::format("Capped in this picture: all above {:g} {} has one colour.",
                                top / scale.unit, scale.unit_name));
  else if (!corners.empty())
    lines.push_back(fmt::format("Caution: the peak at a corner ({}) depends on the mesh.",
                                fmt::join(corners, ", ")));
  return lines;
}

} // namespace post::drawing
