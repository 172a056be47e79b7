// Scene -> Layout: outlines of parts and coatings by region, sections of the conductors.
#include "mesh/layout.hpp"
#include "mesh/piece.hpp"

#include <algorithm>
#include <cmath>

namespace mesh
{

namespace
{

template <class... Cases> struct Match : Cases...
{
  using Cases::operator()...;
};
template <class... Cases> Match(Cases...) -> Match<Cases...>;

/// Outer boundary of the coating joins its region; hollows closed by it are pockets of air.
void add_coating(const Part& part, Layout& layout)
{
  std::vector<Outline> boundary = offset(outline(part), part.coating->thickness);
  Region region{part.name + ".coating", part.coating->material, {boundary.front()}};
  layout.regions.push_back(std::move(region));
  auto& air = layout.regions.front().outlines;
  air.insert(air.end(), boundary.begin() + 1, boundary.end());
}

/// Whether a winding's section lies in material, and so needs an air pocket of its own.
bool within_any(const Outline& section, const std::vector<Outline>& bodies)
{
  return std::any_of(bodies.begin(), bodies.end(),
                     [&](const Outline& body)
                     {
                       const Relation lies = relation(section, body);
                       return lies == Relation::inside || lies == Relation::equal;
                     });
}

void add_block(const Winding& winding, int index, const std::vector<Outline>& bodies,
               Layout& layout)
{
  const auto& block = std::get<Block>(winding.build);
  const double low = winding.centre - block.length / 2;
  const double high = winding.centre + block.length / 2;
  const double inner = block.inner_diameter / 2;
  const double outer = block.outer_diameter / 2;
  Conductor conductor{index, winding.turns, BlockSection{inner, outer, low, high}};
  if (block.inner_diameter == block.outer_diameter)
    conductor.section = SheetSection{inner, low, high};
  else if (within_any(outline(conductor), bodies))
    layout.regions.front().outlines.push_back(outline(conductor));
  layout.conductors.push_back(conductor);
}

/// Part of one ampere in each turn: all of it in series; in parallel one voltage drives all, so
/// that a solid turn takes as its int 1/r dA, 2 pi (R - sqrt(R^2 - a^2)).
std::vector<double> shares(const std::vector<Point>& centres, double a, bool parallel)
{
  std::vector<double> list(centres.size(), 1.0);
  if (!parallel)
    return list;
  double sum = 0.0;
  for (std::size_t i = 0; i < centres.size(); ++i)
  {
    const double R = centres[i].r;
    list[i] = a * a / (R + std::sqrt((R - a) * (R + a))); // R - sqrt(R^2 - a^2), without loss
    sum += list[i];
  }
  for (double& share : list)
    share /= sum;
  return list;
}

void add_turns(const Winding& winding, int index, const std::vector<Outline>& bodies,
               bool insulation_drawn, Layout& layout)
{
  const auto& build = std::get<RoundTurns>(winding.build);
  const double wire = build.wire_diameter / 2;
  const double insulated = wire + build.insulation;
  Region coating{winding.name + ".coating", build.coating ? build.coating->material : "", {}};
  Region insulation{winding.name + ".insulation", build.insulation_material, {}};
  const std::vector<Point> centres = turn_centres(winding);
  const std::vector<double> ampere_turns = shares(centres, wire, build.parallel);
  for (std::size_t i = 0; i < centres.size(); ++i)
  {
    const Point centre = centres[i];
    layout.conductors.push_back({index, ampere_turns[i], RoundSection{centre, wire, build.strand}});
    if (build.coating)
      coating.outlines.push_back(circle(centre, insulated + build.coating->thickness));
    if (insulation_drawn && build.insulation > 0.0)
      insulation.outlines.push_back(circle(centre, insulated));
    else if (build.coating || within_any(circle(centre, insulated), bodies))
      layout.regions.front().outlines.push_back(circle(centre, insulated));
  }
  if (build.coating)
    layout.regions.push_back(std::move(coating));
  if (!insulation.outlines.empty())
    layout.regions.push_back(std::move(insulation));
}

} // namespace

Outline outline(const Part& part)
{
  const double z = part.centre;
  return std::visit(
      Match{[&](const Rod& rod)
            { return rectangle(0.0, rod.diameter / 2, z - rod.length / 2, z + rod.length / 2); },
            [&](const Tube& tube)
            {
              return rectangle(tube.inner_diameter / 2, tube.outer_diameter / 2,
                               z - tube.length / 2, z + tube.length / 2);
            },
            [&](const Ring& ring) {
              return circle({ring.loop_diameter / 2, z}, ring.section_diameter / 2);
            },
            [&](const Profile& profile)
            {
              std::vector<Point> points = profile.points;
              for (Point& point : points)
                point.z += z;
              return polygon(points);
            }},
      part.shape);
}

Outline outline(const Conductor& conductor)
{
  return std::visit(
      Match{[](const BlockSection& block)
            { return rectangle(block.r_inner, block.r_outer, block.z_low, block.z_high); },
            [](const SheetSection&) { return Outline{}; },
            [](const RoundSection& turn) { return circle(turn.centre, turn.radius); }},
      conductor.section);
}

namespace
{

Layout laid_out(const Scene& scene, bool insulation_drawn)
{
  Layout result;
  result.regions.push_back({"air", "air", {}});
  std::vector<Outline> bodies;
  for (const Part& part : scene.parts)
  {
    result.regions.push_back({part.name, part.material, {outline(part)}});
    bodies.push_back(outline(part));
    if (!part.coating)
      continue;
    add_coating(part, result);
    bodies.push_back(result.regions.back().outlines.front());
  }
  for (std::size_t i = 0; i < scene.windings.size(); ++i)
  {
    const Winding& winding = scene.windings[i];
    if (std::holds_alternative<Block>(winding.build))
      add_block(winding, static_cast<int>(i), bodies, result);
    else
      add_turns(winding, static_cast<int>(i), bodies, insulation_drawn, result);
  }
  return result;
}

} // namespace

Layout layout(const Scene& scene)
{
  return laid_out(scene, false);
}

Layout insulated_layout(const Scene& scene)
{
  return laid_out(scene, true);
}

} // namespace mesh
