// Grids of numbers and plain scenes; lengths in metres, though only ratios matter to the check.
#include "post/check_axes.hpp"

#include <fmt/format.h>

#include <cmath>

namespace post
{

CheckAxis logarithmic(std::string label, double from, double to, int count, bool fine)
{
  CheckAxis axis = even(std::move(label), std::log(from), std::log(to), count, fine);
  for (double& value : axis.values)
  {
    value = std::exp(value);
  }
  axis.logarithmic = true;
  return axis;
}

CheckAxis even(std::string label, double from, double to, int count, bool fine)
{
  const int points = fine ? 2 * count - 1 : count;
  CheckAxis axis{.label = std::move(label), .values = {}};
  for (int i = 0; i < points; ++i)
  {
    axis.values.push_back(from + (to - from) * i / (points - 1));
  }
  return axis;
}

CheckAxis listed(std::string label, std::vector<double> values)
{
  CheckAxis axis{.label = std::move(label), .values = std::move(values)};
  for (const double value : axis.values)
  {
    axis.names.push_back(fmt::format("{:.4g}", value));
  }
  return axis;
}

CheckAxis named(std::string label, std::vector<std::string> names)
{
  CheckAxis axis{.label = std::move(label), .values = {}};
  for (std::size_t i = 0; i < names.size(); ++i)
  {
    axis.values.push_back(static_cast<double>(i));
  }
  axis.names = std::move(names);
  return axis;
}

solver::Problem wound(const mesh::Block& block, double turns, double centre)
{
  solver::Problem problem;
  problem.scene.windings = {{"coil", turns, block, centre}};
  return problem;
}

solver::Problem wound(const mesh::RoundTurns& turns, double count)
{
  solver::Problem problem;
  problem.scene.windings = {{"coil", count, turns, 0.0}};
  return problem;
}

void add_body(solver::Problem& problem, const std::string& name, const mesh::Shape& shape,
              double permeability, double centre)
{
  problem.materials[name] = {.permeability = permeability};
  problem.scene.parts.push_back({name, shape, name, centre, std::nullopt});
}

std::vector<CheckFamily> check_families(bool fine)
{
  std::vector<CheckFamily> all;
  for (const auto families : {coil_families, turn_families, core_families, background_families})
  {
    for (CheckFamily& family : families(fine))
    {
      all.push_back(std::move(family));
    }
  }
  return all;
}

} // namespace post
