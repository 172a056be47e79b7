// [[parts]]: bodies of revolution by shape.
#include "cases/bodies.hpp"

#include "cases/wording.hpp"

#include "mesh/outline.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>

namespace cases
{
namespace
{

constexpr std::size_t most_corners = 2000;

std::optional<mesh::Shape> read_rod(Section& section)
{
  const auto diameter = section.needed("diameter", extent_of_body);
  const auto length = section.needed("length", extent_of_body);
  return diameter && length ? std::optional<mesh::Shape>(mesh::Rod{*diameter, *length})
                            : std::nullopt;
}

std::optional<mesh::Shape> read_tube(Section& section)
{
  const auto inner = section.needed("inner_diameter", extent_of_body);
  const auto outer = section.needed("outer_diameter", extent_of_body);
  const auto length = section.needed("length", extent_of_body);
  if (inner && outer && *outer <= *inner)
  {
    section.fault_at("outer_diameter",
                     fmt::format("must exceed inner_diameter, got {} around {}",
                                 section.written("outer_diameter"),
                                 section.written("inner_diameter")),
                     "a tube has a wall; change one of them");
    return std::nullopt;
  }
  return inner && outer && length ? std::optional<mesh::Shape>(mesh::Tube{*inner, *outer, *length})
                                  : std::nullopt;
}

std::optional<mesh::Shape> read_ring(Section& section)
{
  const auto loop = section.needed("loop_diameter", extent_of_body);
  const auto thickness = section.needed("section_diameter", extent_of_body);
  if (loop && thickness && *loop <= *thickness)
  {
    section.fault_at("loop_diameter",
                     fmt::format("must exceed section_diameter, got {} with {}",
                                 section.written("loop_diameter"),
                                 section.written("section_diameter")),
                     "a ring has a hole; loop_diameter is that of the circle through the middle of "
                     "the section");
    return std::nullopt;
  }
  return loop && thickness ? std::optional<mesh::Shape>(mesh::Ring{*loop, *thickness})
                           : std::nullopt;
}

bool on_one_line(const std::vector<mesh::Point>& corners)
{
  const mesh::Point& a = corners.front();
  const auto from_a = [&](const mesh::Point& p) { return std::hypot(p.r - a.r, p.z - a.z); };
  const mesh::Point& b = *std::ranges::max_element(corners, {}, from_a);
  return std::ranges::all_of(corners,
                             [&](const mesh::Point& p)
                             {
                               const double twice_area =
                                   (p.r - a.r) * (b.z - a.z) - (b.r - a.r) * (p.z - a.z);
                               return std::abs(twice_area) < shortest * from_a(b);
                             });
}

/// What keeps corners from bounding a body, and the cure; both empty where nothing does.
std::pair<std::string, std::string> unfit_outline(const std::vector<mesh::Point>& corners)
{
  if (corners.size() < 3)
  {
    return {fmt::format("must have at least 3 corners, got {}", corners.size()),
            "write e.g. [[\"0 mm\", \"0 mm\"], [\"5 mm\", \"0 mm\"], [\"0 mm\", \"20 mm\"]]"};
  }
  if (corners.size() > most_corners)
  {
    return {fmt::format("has {} corners", corners.size()),
            fmt::format("this version takes at most {}", most_corners)};
  }
  for (std::size_t i = 0; i < corners.size(); ++i)
  {
    const mesh::Point& a = corners[i];
    const mesh::Point& b = corners[(i + 1) % corners.size()];
    const double step = std::hypot(b.r - a.r, b.z - a.z);
    if (step < shortest)
    {
      return {fmt::format("has corners {} and {} in one place", i, (i + 1) % corners.size()),
              "leave one of them out; corners count from 0"};
    }
  }
  if (on_one_line(corners))
  {
    return {"encloses no area", "all its corners lie on one line; move one off it"};
  }
  if (mesh::self_intersecting(corners))
  {
    return {"crosses or touches itself", "list the corners in order along the boundary"};
  }
  return {};
}

std::optional<mesh::Shape> read_outline(Section& section)
{
  auto corners = read_points(section, "points");
  if (!corners)
  {
    return std::nullopt;
  }
  if (corners->size() > 3 && corners->front().r == corners->back().r &&
      corners->front().z == corners->back().z) // closed by hand: the same polygon
  {
    corners->pop_back();
  }
  const auto [wrong, cure] = unfit_outline(*corners);
  if (!wrong.empty())
  {
    section.fault_at("points", wrong, cure);
    return std::nullopt;
  }
  return mesh::Profile{std::move(*corners)};
}

/// A closed can with a post in its middle, cut by a gap: a profile like any other from here on.
std::optional<mesh::Shape> read_pot(Section& section)
{
  const auto outer = section.needed("outer_diameter", extent_of_body);
  const auto length = section.needed("length", extent_of_body);
  const auto post = section.needed("post_diameter", extent_of_body);
  const auto wall = section.needed("wall", extent_of_body);
  const auto floor = section.needed("floor", extent_of_body);
  const auto gap = section.needed("gap", extent_of_body);
  if (!outer || !length || !post || !wall || !floor || !gap)
  {
    return std::nullopt;
  }
  const double R = *outer / 2.0, inner = R - *wall, a = *post / 2.0, half = *length / 2.0,
               room = half - *floor, g = *gap / 2.0;
  if (inner - a < shortest || room - g < shortest)
  {
    const bool across = inner - a < shortest;
    section.fault_at(across ? "wall" : "gap",
                     across ? "leaves no room between post and wall"
                            : "leaves nothing of the post between the floors",
                     across ? "post_diameter and twice the wall together stay below outer_diameter"
                            : "gap and twice the floor together stay below length");
    return std::nullopt;
  }
  return mesh::Profile{{{0.0, -half},
                        {R, -half},
                        {R, half},
                        {0.0, half},
                        {0.0, g},
                        {a, g},
                        {a, room},
                        {inner, room},
                        {inner, -room},
                        {a, -room},
                        {a, -g},
                        {0.0, -g}}};
}

struct ShapeKeys
{
  std::string name;
  std::string with_article;
  std::vector<std::string> keys;
  std::optional<mesh::Shape> (*read)(Section&);
};

const std::array<ShapeKeys, 5>& shapes()
{
  static const std::array<ShapeKeys, 5> all = {
      {{"rod", "a rod", {"diameter", "length"}, read_rod},
       {"tube", "a tube", {"inner_diameter", "outer_diameter", "length"}, read_tube},
       {"ring", "a ring", {"loop_diameter", "section_diameter"}, read_ring},
       {"outline", "an outline", {"points"}, read_outline},
       {"pot",
        "a pot",
        {"outer_diameter", "length", "post_diameter", "wall", "floor", "gap"},
        read_pot}}};
  return all;
}

/// The shape by its own keys; keys of other shapes are named as such.
std::optional<mesh::Shape> read_shape(Section& section, const std::string& shape)
{
  const auto own = std::ranges::find(shapes(), shape, &ShapeKeys::name);
  for (const ShapeKeys& other : shapes())
  {
    for (const std::string& key : other.keys)
    {
      if (std::ranges::find(own->keys, key) == own->keys.end())
      {
        section.misplaced(key, fmt::format("does not belong to {}", own->with_article),
                          fmt::format("{} has {}", own->with_article, in_words(own->keys)));
      }
    }
  }
  return own->read(section);
}

void read_part(Draft& draft, Section& section)
{
  const std::string name = checked_name(section, "core");
  Body* body = enter(draft, section, name);
  const std::vector<std::string> words = {"rod", "tube", "ring", "outline", "pot"};
  const auto word = section.choice("shape", words, true);
  const auto material = read_material(draft, section);
  const auto shape = word ? read_shape(section, *word) : std::nullopt;
  const auto centre = read_centre(section, body);
  bool sound = body && shape && material && centre;
  auto coating = read_coating(draft, section, sound);
  if (!word) // then a key of any shape is no slip
  {
    for (const ShapeKeys& any : shapes())
    {
      std::ranges::for_each(any.keys, [&](const std::string& key) { section.at(key); });
    }
  }
  const auto* const known = std::ranges::find(shapes(), word.value_or(""), &ShapeKeys::name);
  section.finish(known == shapes().end() ? "a part" : known->with_article);
  if (!sound)
  {
    return;
  }
  body->sound = true;
  draft.result.problem.scene.parts.push_back(
      {name, *shape, *material, *centre, std::move(coating)});
}

} // namespace

void read_parts(Draft& draft, Section& top)
{
  for (Section& section : sections(top, "parts"))
  {
    read_part(draft, section);
  }
}

} // namespace cases
