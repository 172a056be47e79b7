// Where bodies come to lie: centres given by a neighbour, and bodies that overlap.
#include "cases/draft.hpp"

#include "cases/wording.hpp"

#include "mesh/layout.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace cases
{
namespace
{

/// Lowest and highest z of a body, seen from its centre [m].
struct Span
{
  double low = 0.0;
  double high = 0.0;
};

Span span_of(const mesh::Shape& shape)
{
  if (const auto* rod = std::get_if<mesh::Rod>(&shape))
  {
    return {-rod->length / 2.0, rod->length / 2.0};
  }
  if (const auto* tube = std::get_if<mesh::Tube>(&shape))
  {
    return {-tube->length / 2.0, tube->length / 2.0};
  }
  if (const auto* ring = std::get_if<mesh::Ring>(&shape))
  {
    return {-ring->section_diameter / 2.0, ring->section_diameter / 2.0};
  }
  const auto& corners = std::get<mesh::Profile>(shape).points;
  const auto [low, high] = std::ranges::minmax(corners, {}, &mesh::Point::z);
  return {low.z, high.z};
}

Span span_of(const mesh::Part& part)
{
  const Span bare = span_of(part.shape);
  const double coating = part.coating ? part.coating->thickness : 0.0;
  return {bare.low - coating, bare.high + coating};
}

Span span_of(const mesh::Winding& winding)
{
  if (const auto* block = std::get_if<mesh::Block>(&winding.build))
  {
    return {-block->length / 2.0, block->length / 2.0};
  }
  mesh::Winding centred = winding;
  centred.centre = 0.0;
  const auto centres = mesh::turn_centres(centred);
  const auto [low, high] = std::ranges::minmax(centres, {}, &mesh::Point::z);
  const double radius = mesh::full_diameter(std::get<mesh::RoundTurns>(winding.build)) / 2.0;
  return {low.z - radius, high.z + radius};
}

/// Resolves centres one after another, each body after the one it stands by.
class Placing
{
public:
  explicit Placing(Draft& draft) : _draft(draft)
  {
    mesh::Scene& scene = draft.result.problem.scene;
    for (mesh::Part& part : scene.parts)
    {
      _placed.emplace(part.name, Placed{span_of(part), &part.centre});
    }
    for (mesh::Winding& winding : scene.windings)
    {
      _placed.emplace(winding.name, Placed{span_of(winding), &winding.centre});
    }
  }

  /// True where the body has a centre now; false where it or one beneath it is at fault.
  bool place(const std::string& name)
  {
    Body& body = _draft.bodies.at(name);
    if (!body.sound || !body.neighbour)
    {
      return body.sound;
    }
    const Neighbour neighbour = *body.neighbour;
    if (!known(body, neighbour))
    {
      body.sound = false;
      return false;
    }
    _path.push_back(name);
    const bool circle = std::ranges::find(_path, neighbour.name) != _path.end();
    if (circle)
    {
      refuse_circle(body, neighbour);
    }
    body.sound = !circle && place(neighbour.name);
    _path.pop_back();
    if (body.sound)
    {
      const Placed& own = _placed.at(name);
      const Placed& other = _placed.at(neighbour.name);
      *own.centre = neighbour.above
                        ? *other.centre + other.span.high + neighbour.gap - own.span.low
                        : *other.centre + other.span.low - neighbour.gap - own.span.high;
      body.neighbour.reset();
    }
    return body.sound;
  }

private:
  struct Placed
  {
    Span span;
    double* centre;
  };

  bool known(const Body& body, const Neighbour& neighbour)
  {
    if (_draft.bodies.contains(neighbour.name))
    {
      return true;
    }
    std::vector<std::string> names;
    for (const auto& [name, other] : _draft.bodies)
    {
      if (&other != &body)
      {
        names.push_back(name);
      }
    }
    _draft.faults.push_back(
        {neighbour.where,
         fmt::format("{}.centre names no part or winding, got {}", body.path,
                     in_quotes(neighbour.name)),
         did_you_mean(neighbour.name, names,
                      names.empty() ? "there is no other"
                                    : fmt::format("there are {}", in_words(names)))});
    return false;
  }

  void refuse_circle(const Body& body, const Neighbour& neighbour)
  {
    const auto from = std::ranges::find(_path, neighbour.name);
    std::vector<std::string> round(from, _path.end());
    const std::string what = round.size() == 1
                                 ? fmt::format("{}.centre places it by itself", body.path)
                                 : fmt::format("{}.centre closes a circle: {} wait for one another",
                                               body.path, in_words(round));
    _draft.faults.push_back({neighbour.where, what,
                             "give one of them a position, e.g. centre = "
                             "\"0 mm\""});
  }

  Draft& _draft;
  std::map<std::string, Placed> _placed;
  std::vector<std::string> _path; ///< Bodies waiting for the one being placed.
};

} // namespace

void place_bodies(Draft& draft)
{
  Placing placing(draft);
  for (const auto& [name, body] : draft.bodies)
  {
    placing.place(name);
  }
}

void check_overlaps(Draft& draft)
{
  const auto unsound = [&](const auto& body) { return !draft.bodies.at(body.name).sound; };
  mesh::Scene scene = draft.result.problem.scene;
  std::erase_if(scene.parts, unsound);
  std::erase_if(scene.windings, unsound);
  for (const mesh::Clash& clash : mesh::clashes(scene))
  {
    const Body& first = draft.bodies.at(clash.first);
    const Body& second = draft.bodies.at(clash.second);
    draft.faults.push_back({second.where, fmt::format("{} overlaps {}", second.path, first.path),
                            "bodies may touch or lie wholly one inside another; change a diameter, "
                            "a length or a centre"});
  }
}

} // namespace cases
