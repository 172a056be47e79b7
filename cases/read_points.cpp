// Points of the half-plane, for outlines and probes.
#include "cases/bodies.hpp"

#include "cases/wording.hpp"

#include <fmt/format.h>

namespace cases
{

std::optional<mesh::Point> read_point(const Node& node, const std::string& path,
                                      std::vector<Fault>& faults)
{
  const auto* pair = std::get_if<List>(&node.value);
  if (!pair || pair->size() != 2)
  {
    const std::string got = pair ? fmt::format("{} values", pair->size()) : as_written(node);
    faults.push_back({node.where, fmt::format("{} must be a point [r, z], got {}", path, got),
                      "write e.g. [\"5 mm\", \"0 mm\"]"});
    return std::nullopt;
  }
  const auto r = checked((*pair)[0], path + "[r]", radius_of_point, faults);
  const auto z = checked((*pair)[1], path + "[z]", axial_position, faults);
  return r && z ? std::optional(mesh::Point{*r, *z}) : std::nullopt;
}

std::optional<std::vector<mesh::Point>> read_points(Section& section, std::string_view key)
{
  const std::string example = "[[\"5 mm\", \"0 mm\"], ...]";
  const Node* node = section.at(key);
  if (node == nullptr)
  {
    section.missing(key, example);
    return std::nullopt;
  }
  const auto* list = std::get_if<List>(&node->value);
  if (!list)
  {
    section.fault_at(key, fmt::format("must be a list of points, got {}", as_written(*node)),
                     fmt::format("write {} = {}", key, example));
    return std::nullopt;
  }
  std::vector<mesh::Point> points;
  for (std::size_t i = 0; i < list->size(); ++i)
  {
    const std::string path = fmt::format("{}[{}]", section.path(key), i);
    if (const auto point = read_point((*list)[i], path, section.faults()))
    {
      points.push_back(*point);
    }
  }
  return points.size() == list->size() ? std::optional(points) : std::nullopt;
}

} // namespace cases
