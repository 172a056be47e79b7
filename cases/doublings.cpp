// Scene edits by the name of the region they concern.
#include "cases/doublings.hpp"

#include "cases/arrangement.hpp"
#include "mesh/layout.hpp"
#include "post/engineering.hpp"

#include <algorithm>
#include <optional>

namespace cases
{

namespace
{

constexpr double gain_accuracy = 1e-3;
constexpr std::string_view coating_suffix = ".coating";

/// Share of the first winding's energy, or volume where there is no winding.
double weight(const post::Result& result, const post::RegionResult& region)
{
  if (result.windings.empty())
  {
    return region.volume;
  }
  for (const auto& [name, share] : result.windings.front().shares)
  {
    if (name == region.name)
    {
      return share;
    }
  }
  return 0.0;
}

std::optional<std::string> material_of(const solver::Problem& problem, const std::string& region)
{
  for (const mesh::Region& one : mesh::layout(problem.scene).regions)
  {
    if (one.name == region && problem.materials.contains(one.material))
    {
      return one.material;
    }
  }
  return std::nullopt;
}

std::optional<Change> permeability_doubled(const solver::Problem& problem,
                                           const post::RegionResult& region)
{
  const std::optional<std::string> name = material_of(problem, region.name);
  if (!name)
  {
    return std::nullopt;
  }
  Change change{"", problem};
  solver::Material& material = change.problem.materials.at(*name);
  material.permeability *= 2.0;
  material.powder.reset(); // the doubled law is no longer that mixture's
  change.what = "twice the permeability of " + region.name + " (" +
                post::count(material.permeability, 4) + ")";
  return change;
}

double* length(mesh::Shape& shape)
{
  if (auto* rod = std::get_if<mesh::Rod>(&shape))
  {
    return &rod->length;
  }
  auto* tube = std::get_if<mesh::Tube>(&shape);
  return tube ? &tube->length : nullptr;
}

/// The diameter a designer would call the part's; a ring's section must stay off the axis.
double* diameter(mesh::Shape& shape)
{
  if (auto* rod = std::get_if<mesh::Rod>(&shape))
  {
    return &rod->diameter;
  }
  if (auto* tube = std::get_if<mesh::Tube>(&shape))
  {
    return &tube->outer_diameter;
  }
  auto* ring = std::get_if<mesh::Ring>(&shape);
  const bool room = ring && 2.0 * ring->section_diameter < ring->loop_diameter;
  return room ? &ring->section_diameter : nullptr;
}

std::string diameter_name(const mesh::Shape& shape)
{
  return std::holds_alternative<mesh::Rod>(shape)    ? "diameter"
         : std::holds_alternative<mesh::Tube>(shape) ? "outer diameter"
                                                     : "section diameter";
}

std::string length_name(const mesh::Shape&)
{
  return "length";
}

/// The dimension of the part of that name doubled, if the part has it.
std::optional<Change> part_doubled(const solver::Problem& problem, const std::string& name,
                                   double* (*dimension)(mesh::Shape&),
                                   std::string (*called)(const mesh::Shape&))
{
  Change change{"", problem};
  for (mesh::Part& part : change.problem.scene.parts)
  {
    double* size = part.name == name ? dimension(part.shape) : nullptr;
    if (size)
    {
      *size *= 2.0;
      change.what =
          "twice the " + called(part.shape) + " of " + name + " (" + post::millimetres(*size) + ")";
      return change;
    }
  }
  return std::nullopt;
}

/// Twice the thickness of a part's coating; a coating on turns needs a pitch that leaves room.
std::optional<Change> coating_doubled(const solver::Problem& problem, const std::string& region)
{
  if (!region.ends_with(coating_suffix))
  {
    return std::nullopt;
  }
  const std::string body = region.substr(0, region.size() - coating_suffix.size());
  Change change{"", problem};
  double thickness = 0.0;
  for (mesh::Part& part : change.problem.scene.parts)
  {
    if (part.name == body && part.coating)
    {
      thickness = part.coating->thickness *= 2.0;
    }
  }
  for (mesh::Winding& winding : change.problem.scene.windings)
  {
    auto* turns = std::get_if<mesh::RoundTurns>(&winding.build);
    if (winding.name == body && turns && turns->coating)
    {
      thickness = turns->coating->thickness *= 2.0;
      thickness = mesh::full_diameter(*turns) <= turns->pitch ? thickness : 0.0;
    }
  }
  if (thickness == 0.0)
  {
    return std::nullopt;
  }
  change.what = "twice the thickness of " + region + " (" + post::millimetres(thickness) + ")";
  return change;
}

} // namespace

const post::RegionResult* main_region(const post::Result& result)
{
  const post::RegionResult* found = nullptr;
  for (const post::RegionResult& region : result.regions)
  {
    const bool magnetic = region.permeability != 1.0 && region.volume > 0.0;
    if (magnetic && (!found || weight(result, region) > weight(result, *found)))
    {
      found = &region;
    }
  }
  return found;
}

std::vector<Change> doublings(const solver::Problem& problem, const post::Result& result)
{
  const post::RegionResult* region = main_region(result);
  if (!region)
  {
    return {};
  }
  const std::optional<Change> tried[] = {
      permeability_doubled(problem, *region),
      part_doubled(problem, region->name, length, length_name),
      part_doubled(problem, region->name, diameter, diameter_name),
      coating_doubled(problem, region->name)};
  std::vector<Change> changes;
  for (const std::optional<Change>& change : tried)
  {
    if (change && keeps_arrangement(problem.scene, change->problem.scene))
    {
      changes.push_back(*change);
      changes.back().problem.accuracy = gain_accuracy;
    }
  }
  return changes;
}

} // namespace cases
