// Bodies as outlines and as words: what each is, with its sizes.
#include "cases/report_page.hpp"
#include "cases/wording.hpp"
#include "mesh/layout.hpp"
#include "post/engineering.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <map>
#include <numbers>

namespace cases
{

namespace
{

using post::millimetres;
using Area = std::vector<std::pair<double, double>>;

/// Corners, arcs in steps of at most ten degrees.
Area corners(const mesh::Outline& outline)
{
  Area list;
  for (const mesh::Piece& piece : outline)
  {
    list.emplace_back(piece.from.r, piece.from.z);
    if (!piece.arc)
    {
      continue;
    }
    const double turn = piece.arc->to - piece.arc->from;
    const int steps =
        std::max(1, static_cast<int>(std::ceil(std::abs(turn) * 18.0 / std::numbers::pi)));
    for (int i = 1; i < steps; ++i)
    {
      const double angle = piece.arc->from + turn * i / steps;
      list.emplace_back(piece.arc->centre.r + piece.arc->radius * std::cos(angle),
                        piece.arc->centre.z + piece.arc->radius * std::sin(angle));
    }
  }
  return list;
}

Area corners(const mesh::Conductor& conductor)
{
  if (const auto* sheet = std::get_if<mesh::SheetSection>(&conductor.section))
  {
    return {{sheet->r, sheet->z_low}, {sheet->r, sheet->z_high}};
  }
  return corners(mesh::outline(conductor));
}

std::string sizes(const mesh::Shape& shape)
{
  struct Words
  {
    std::string operator()(const mesh::Rod& rod) const
    {
      return fmt::format("rod, diameter {}, length {}", millimetres(rod.diameter),
                         millimetres(rod.length));
    }
    std::string operator()(const mesh::Tube& tube) const
    {
      return fmt::format("tube, inner diameter {}, outer diameter {}, length {}",
                         millimetres(tube.inner_diameter), millimetres(tube.outer_diameter),
                         millimetres(tube.length));
    }
    std::string operator()(const mesh::Ring& ring) const
    {
      return fmt::format("ring, loop diameter {}, section diameter {}",
                         millimetres(ring.loop_diameter), millimetres(ring.section_diameter));
    }
    std::string operator()(const mesh::Profile& profile) const
    {
      return fmt::format("turned body with an outline of {} corners", profile.points.size());
    }
  };
  return std::visit(Words(), shape);
}

std::string material_words(const solver::Problem& problem, const std::string& name)
{
  return fmt::format("of {} (permeability {})", plain(name),
                     post::count(solver::material(problem, name).permeability, 4));
}

std::string coating_words(const solver::Problem& problem, const mesh::Coating& coating)
{
  return fmt::format("coating, {} thick, {}", millimetres(coating.thickness),
                     material_words(problem, coating.material));
}

std::string winding_words(const mesh::Winding& winding)
{
  const std::string turns = post::count(winding.turns) + " turns";
  if (const auto* turn = std::get_if<mesh::RoundTurns>(&winding.build))
  {
    return fmt::format("{} of wire {} thick in {} layer{}, on {}", turns,
                       millimetres(turn->wire_diameter), turn->layers, turn->layers == 1 ? "" : "s",
                       millimetres(turn->inner_diameter));
  }
  const auto& block = std::get<mesh::Block>(winding.build);
  return block.inner_diameter == block.outer_diameter
             ? fmt::format("{} as a thin sheet, diameter {}, length {}", turns,
                           millimetres(block.outer_diameter), millimetres(block.length))
             : fmt::format("{}, inner diameter {}, outer diameter {}, length {}", turns,
                           millimetres(block.inner_diameter), millimetres(block.outer_diameter),
                           millimetres(block.length));
}

/// Parts and coatings as regions of the layout, then windings; the larger before the smaller.
std::vector<post::PageBody> bodies(const solver::Problem& problem)
{
  using Kind = post::PageBody::Kind;
  const mesh::Layout layout = mesh::layout(problem.scene);
  const mesh::Scene& scene = problem.scene;
  std::map<std::string, std::pair<Kind, std::string>> known;
  for (const mesh::Part& part : scene.parts)
  {
    known[part.name] = {Kind::part,
                        sizes(part.shape) + ", " + material_words(problem, part.material)};
    if (part.coating)
    {
      known[part.name + ".coating"] = {Kind::coating, coating_words(problem, *part.coating)};
    }
  }
  for (const mesh::Winding& winding : scene.windings)
  {
    const auto* turns = std::get_if<mesh::RoundTurns>(&winding.build);
    if (turns != nullptr && turns->coating)
    {
      known[winding.name + ".coating"] = {Kind::coating, coating_words(problem, *turns->coating)};
    }
  }
  std::vector<post::PageBody> list;
  std::vector<double> sizes_of;
  for (const mesh::Region& region : layout.regions)
  {
    const auto found = known.find(region.name);
    for (std::size_t i = 0; i < region.outlines.size(); ++i)
    {
      if (i == 0 || found == known.end())
      {
        list.push_back({found == known.end() ? "" : plain(region.name),
                        found == known.end() ? "" : found->second.second,
                        found == known.end() ? Kind::hollow : found->second.first,
                        {}});
        sizes_of.push_back(mesh::area(region.outlines[i]));
      }
      list.back().areas.push_back(corners(region.outlines[i]));
    }
  }
  std::vector<std::size_t> order(list.size());
  for (std::size_t i = 0; i < order.size(); ++i)
  {
    order[i] = i;
  }
  std::ranges::stable_sort(order, std::greater(), [&](std::size_t i) { return sizes_of[i]; });
  std::vector<post::PageBody> sorted;
  for (const std::size_t i : order)
  {
    sorted.push_back(std::move(list[i]));
  }
  for (std::size_t w = 0; w < scene.windings.size(); ++w)
  {
    sorted.push_back(
        {plain(scene.windings[w].name), winding_words(scene.windings[w]), Kind::winding, {}});
    for (const mesh::Conductor& conductor : layout.conductors)
    {
      if (conductor.winding == static_cast<int>(w))
      {
        sorted.back().areas.push_back(corners(conductor));
      }
    }
  }
  return sorted;
}

} // namespace

post::PageSection parts_section(const Case& read, const std::string& heading)
{
  post::PageSection made{heading, "section through the axis, to scale", {}};
  if (std::vector<post::PageBody> all = bodies(read.problem); !all.empty())
  {
    made.blocks.emplace_back(post::PageParts{std::move(all)});
  }
  return made;
}

} // namespace cases
