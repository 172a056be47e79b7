// [[probes]]: points to read the field at, listed or along a line.
#include "cases/bodies.hpp"

#include "cases/wording.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace cases
{
namespace
{

constexpr std::size_t most_points = 100000;

std::optional<std::vector<mesh::Point>> read_line(Section& section)
{
  std::vector<mesh::Point> ends;
  for (const std::string_view key : {"from", "to"})
  {
    const Node* node = section.at(key);
    if (!node)
    {
      section.missing(key, "[\"0 mm\", \"-50 mm\"]");
      continue;
    }
    if (const auto point = read_point(*node, section.path(key), section.faults()))
    {
      ends.push_back(*point);
    }
  }
  const auto count = section.needed("count", point_count);
  if (ends.size() < 2 || !count)
  {
    return std::nullopt;
  }
  std::vector<mesh::Point> points;
  const int last = static_cast<int>(*count) - 1;
  for (int i = 0; i <= last; ++i)
  {
    // Weights of both ends, so that the last point is the end itself.
    const double t = static_cast<double>(i) / last;
    points.push_back(
        {(1.0 - t) * ends[0].r + t * ends[1].r, (1.0 - t) * ends[0].z + t * ends[1].z});
  }
  return points;
}

std::optional<std::vector<mesh::Point>> read_probe_points(Section& section)
{
  const bool line = section.has("from") || section.has("to") || section.has("count");
  const bool listed = section.has("points");
  if (line != listed)
  {
    for (const std::string_view key : {"points", "from", "to", "count"})
    {
      section.at(key);
    }
    auto points = line ? read_line(section) : read_points(section, "points");
    if (points && points->empty())
    {
      section.fault_at("points", "is empty", "list points, e.g. [[\"0 mm\", \"0 mm\"]]");
      return std::nullopt;
    }
    return points;
  }
  section.fault(line ? "has points and a line" : "needs points, or from, to and count",
                line ? "keep either points, or from, to and count"
                     : "write e.g. points = [[\"0 mm\", \"0 mm\"]]");
  for (const std::string_view key : {"points", "from", "to", "count"})
  {
    section.at(key);
  }
  return std::nullopt;
}

} // namespace

void read_probes(Draft& draft, Section& top)
{
  std::map<std::string, SourcePlace> taken;
  for (Section& section : sections(top, "probes"))
  {
    std::string name = section.has("name")     ? checked_name(section, "axis")
                       : section.has("points") ? "points"
                                               : "line";
    section.at("name");
    const auto points = read_probe_points(section);
    section.finish("a probe");
    const auto [first, fresh] = taken.try_emplace(name, section.where());
    if (!fresh && !name.empty())
    {
      draft.faults.push_back(
          {section.place("name"),
           fmt::format("the probe name {} is taken{}", in_quotes(name), at_line(first->second)),
           "give each its own name"});
      continue;
    }
    for (std::size_t i = 0; points && i < points->size(); ++i)
    {
      draft.result.probes.push_back(
          {points->size() == 1 ? name : fmt::format("{}[{}]", name, i), (*points)[i]});
    }
    if (draft.result.probes.size() > most_points)
    {
      section.fault(fmt::format("brings the probe points above {}", most_points), "use fewer");
      return;
    }
  }
}

} // namespace cases
