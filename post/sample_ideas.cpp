// A reduced model a sample; bounds inverted by bisection.
#include "post/sample_ideas.hpp"

#include "post/quantities.hpp"

#include "mesh/layout.hpp"
#include "post/engineering.hpp"
#include "solver/reduced_model.hpp"

#include <algorithm>
#include <cmath>

namespace post
{

namespace
{

constexpr double least = 1.0, most = 1e5; // of the permeabilities tried

/// Where a rising function of ln mu crosses a level; an end that does not is endless.
template <class Bound> double crossing(const Bound& bound, double level)
{
  double low = std::log(least), high = std::log(most);
  if (bound(least) >= level)
    return -endless;
  if (bound(most) <= level)
    return endless;
  for (int i = 0; i < 60; ++i)
  {
    const double middle = 0.5 * (low + high);
    (bound(std::exp(middle)) < level ? low : high) = middle;
  }
  return std::exp(0.5 * (low + high));
}

SampleIdea worked_out(const std::string& what, const solver::Problem& problem,
                      const std::string& material, std::size_t winding, double assumed,
                      double tolerance, int threads)
{
  const solver::ReducedModel model =
      solver::reduced_model(problem, {{material, least, most}}, threads);
  const solver::ReducedWinding& read = model.windings.at(winding);
  const auto at = [&read](double mu) { return solver::inductance(read, {&mu, 1}); };
  const double L = at(assumed).value();
  return {what,
          L,
          {crossing([&](double mu) { return at(mu).upper; }, L * (1.0 - tolerance)),
           crossing([&](double mu) { return at(mu).lower; }, L * (1.0 + tolerance))},
          true};
}

double* length(mesh::Shape& shape)
{
  if (auto* rod = std::get_if<mesh::Rod>(&shape))
    return &rod->length;
  auto* tube = std::get_if<mesh::Tube>(&shape);
  return tube ? &tube->length : nullptr;
}

/// Area of the section the flux runs through along the axis [m^2].
double section(const mesh::Shape& shape)
{
  constexpr double quarter_pi = 0.25 * std::numbers::pi;
  if (const auto* rod = std::get_if<mesh::Rod>(&shape))
    return quarter_pi * rod->diameter * rod->diameter;
  const auto* tube = std::get_if<mesh::Tube>(&shape);
  return tube ? quarter_pi * (tube->outer_diameter * tube->outer_diameter -
                              tube->inner_diameter * tube->inner_diameter)
              : 0.0;
}

/// The first rod or tube of the material, or its end.
std::size_t sample_part(const solver::Problem& problem, const std::string& material)
{
  std::size_t i = 0;
  for (; i < problem.scene.parts.size(); ++i)
    if (mesh::Shape shape = problem.scene.parts[i].shape;
        problem.scene.parts[i].material == material && length(shape))
      break;
  return i;
}

struct Variant
{
  std::string what;
  solver::Problem problem;
};

std::vector<Variant> variants(const solver::Problem& problem, std::size_t part, std::size_t winding)
{
  std::vector<Variant> list = {{"this sample", problem}};
  for (const double factor : {2.0, 4.0})
  {
    Variant longer{"", problem};
    double& extent = *length(longer.problem.scene.parts[part].shape);
    extent *= factor;
    longer.what = "the part " + count(factor) + " times as long (" + millimetres(extent) + ")";
    list.push_back(std::move(longer));
  }
  const auto* block = std::get_if<mesh::Block>(&problem.scene.windings[winding].build);
  mesh::Shape shape = problem.scene.parts[part].shape;
  const double tenth = 0.1 * *length(shape);
  if (block && (block->length > tenth ||
                problem.scene.windings[winding].centre != problem.scene.parts[part].centre))
  {
    Variant middle{"the coil short (" + millimetres(std::min(block->length, tenth)) +
                       ") and at the middle",
                   problem};
    auto& build = std::get<mesh::Block>(middle.problem.scene.windings[winding].build);
    build.length = std::min(build.length, tenth);
    middle.problem.scene.windings[winding].centre = problem.scene.parts[part].centre;
    list.push_back(std::move(middle));
  }
  return list;
}

/// Whether a changed part overlaps, touches or swallows what it did not before.
bool meets_others(const mesh::Scene& before, const mesh::Scene& after, std::size_t part)
{
  if (!mesh::clashes(after).empty())
    return true;
  const auto relation = [part](const mesh::Scene& scene, std::size_t i)
  { return mesh::relation(mesh::outline(scene.parts[part]), mesh::outline(scene.parts[i])); };
  for (std::size_t i = 0; i < before.parts.size(); ++i)
    if (i != part && relation(before, i) != relation(after, i))
      return true;
  return false;
}

} // namespace

std::vector<SampleIdea> sample_ideas(const solver::Problem& problem, const std::string& material,
                                     std::size_t winding, double assumed, double tolerance,
                                     int threads)
{
  std::vector<SampleIdea> ideas;
  const std::size_t part = sample_part(problem, material);
  if (part == problem.scene.parts.size())
    return ideas;
  for (const Variant& one : variants(problem, part, winding))
    try
    {
      if (meets_others(problem.scene, one.problem.scene, part))
        continue;
      ideas.push_back(
          worked_out(one.what, one.problem, material, winding, assumed, tolerance, threads));
    }
    catch (const std::exception&)
    {
      // what cannot be meshed or solved is no idea
    }
  // Closed ring: L = mu0 mu N^2 A / l, so a reading's tolerance is the permeability's.
  mesh::Shape shape = problem.scene.parts[part].shape;
  const double turns = series_turns(problem.scene.windings[winding]);
  ideas.push_back({"a closed ring of its section and length",
                   solver::mu0 * assumed * turns * turns * section(shape) / *length(shape),
                   {assumed * (1.0 - tolerance), assumed * (1.0 + tolerance)},
                   false});
  return ideas;
}

} // namespace post
