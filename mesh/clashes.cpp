// Which bodies of a scene may not be where they are.
//
// Parts may touch or nest. A winding's section may lie in a part or beside it, but no boundary may
// cut it, no part lie in it, and no other winding share its place. A sheet may follow a surface.
#include "mesh/layout.hpp"
#include "mesh/piece.hpp"
#include "mesh/visits.hpp"

#include <algorithm>
#include <cmath>

namespace mesh
{

namespace
{

/// A part as others meet it: its own outline, its coating's, and hollows closed by the coating.
struct Body
{
  std::string name;
  Outline bare;
  Outline full;
  std::vector<Outline> hollows;
};

/// A winding as others meet it: sections with insulation and coating, or a sheet.
struct Coil
{
  std::string name;
  std::vector<Outline> sections;
  std::optional<Piece> sheet;
  Extent box;
};

Body body_of(const Part& part)
{
  Body body{part.name, outline(part), outline(part), {}};
  if (!part.coating)
    return body;
  std::vector<Outline> boundary = offset(body.bare, part.coating->thickness);
  body.full = boundary.front();
  body.hollows.assign(boundary.begin() + 1, boundary.end());
  return body;
}

Coil coil_of(const Winding& winding)
{
  Coil coil{winding.name, {}, {}, {}};
  if (const auto* turns = std::get_if<RoundTurns>(&winding.build))
    for (Point centre : turn_centres(winding))
      coil.sections.push_back(circle(centre, full_diameter(*turns) / 2));
  else
  {
    const auto& block = std::get<Block>(winding.build);
    const double low = winding.centre - block.length / 2;
    const double high = winding.centre + block.length / 2;
    const double inner = block.inner_diameter / 2;
    if (block.inner_diameter == block.outer_diameter)
      coil.sheet = Piece{{inner, low}, {inner, high}};
    else
      coil.sections.push_back(rectangle(inner, block.outer_diameter / 2, low, high));
  }
  Outline all = coil.sheet ? Outline{*coil.sheet} : Outline{};
  for (const Outline& section : coil.sections)
    all.insert(all.end(), section.begin(), section.end());
  coil.box = extent(all);
  return coil;
}

/// Whether two sheets share a stretch; both run along z.
bool coincide(const Piece& a, const Piece& b)
{
  const double tolerance = 1e-9 * std::min(length(a), length(b));
  return std::abs(a.from.r - b.from.r) <= tolerance && a.from.z < b.to.z - tolerance &&
         b.from.z < a.to.z - tolerance;
}

bool crosses(const Piece& sheet, const Outline& boundary)
{
  const Visits sides = visits({sheet}, boundary);
  return sides.inside && sides.outside;
}

bool cut_by(const Outline& section, const Outline& boundary)
{
  return relation(section, boundary) == Relation::overlapping;
}

bool clash(const Body& a, const Body& b)
{
  for (const Outline& hollow : a.hollows)
    if (cut_by(b.bare, hollow) || cut_by(b.full, hollow))
      return true;
  for (const Outline& hollow : b.hollows)
    if (cut_by(a.bare, hollow) || cut_by(a.full, hollow))
      return true;
  const Relation outer = relation(a.full, b.full);
  if (outer == Relation::apart)
    return false;
  if (outer == Relation::overlapping)
    return true;
  // The inner body may lie in the outer one or in its coating, but not across their border; and
  // what lies around the outer body itself (or fills all of its outline) would cut it off from its
  // own coating.
  const Body& inner = outer == Relation::inside ? a : b;
  const Body& around = outer == Relation::inside ? b : a;
  const Relation full = relation(inner.full, around.bare);
  return full == Relation::overlapping || full == Relation::contains || full == Relation::equal;
}

bool clash(const Outline& section, const Body& body)
{
  for (const Outline* boundary : {&body.bare, &body.full})
  {
    const Relation lies = relation(section, *boundary);
    if (lies != Relation::apart && lies != Relation::inside)
      return true;
  }
  return std::any_of(body.hollows.begin(), body.hollows.end(),
                     [&](const Outline& hollow) { return cut_by(section, hollow); });
}

bool clash(const Coil& coil, const Body& body)
{
  if (!near(coil.box, extent(body.full), 0.0))
    return false;
  if (coil.sheet)
  {
    std::vector<Outline> boundaries = body.hollows;
    boundaries.insert(boundaries.end(), {body.bare, body.full});
    return std::any_of(boundaries.begin(), boundaries.end(),
                       [&](const Outline& boundary) { return crosses(*coil.sheet, boundary); });
  }
  return std::any_of(coil.sections.begin(), coil.sections.end(),
                     [&](const Outline& section) { return clash(section, body); });
}

bool clash(const Coil& a, const Coil& b)
{
  if (!near(a.box, b.box, 0.0))
    return false;
  if (a.sheet && b.sheet)
    return coincide(*a.sheet, *b.sheet);
  if (b.sheet)
    return clash(b, a);
  for (const Outline& section : b.sections)
  {
    if (a.sheet ? visits({*a.sheet}, section).inside
                : std::any_of(a.sections.begin(), a.sections.end(),
                              [&](const Outline& own)
                              { return relation(own, section) != Relation::apart; }))
      return true;
  }
  return false;
}

bool turns_overlap(const Winding& winding)
{
  const auto* turns = std::get_if<RoundTurns>(&winding.build);
  return turns && turns->pitch > 0 && turns->pitch < full_diameter(*turns) * (1 - 1e-9);
}

} // namespace

std::vector<Clash> clashes(const Scene& scene)
{
  std::vector<Clash> found;
  std::vector<Body> bodies;
  std::vector<Coil> coils;
  for (const Part& part : scene.parts)
  {
    bodies.push_back(body_of(part));
    for (std::size_t i = 0; i + 1 < bodies.size(); ++i)
      if (clash(bodies[i], bodies.back()))
        found.push_back({bodies[i].name, part.name});
  }
  for (const Winding& winding : scene.windings)
  {
    coils.push_back(coil_of(winding));
    for (const Body& body : bodies)
      if (clash(coils.back(), body))
        found.push_back({body.name, winding.name});
    for (std::size_t i = 0; i + 1 < coils.size(); ++i)
      if (clash(coils[i], coils.back()))
        found.push_back({coils[i].name, winding.name});
    if (turns_overlap(winding))
      found.push_back({winding.name, winding.name});
  }
  return found;
}

} // namespace mesh
