// Solve at two orders, refine where they differ, until they agree.
#include "solver/heat.hpp"

#include "solver/adaptivity.hpp"
#include "solver/gather.hpp"
#include "solver/heat_mesh.hpp"
#include "solver/memory.hpp"
#include "solver/shapes.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

namespace solver
{

namespace
{

constexpr int order = 5;

/// Where the functions of a lower order stand among those of a higher, which begin with the same.
std::vector<int> among(int low, int high)
{
  std::vector<int> list = {0, 1, 2};
  for (int e = 0; e < 3; ++e)
    for (int k = 2; k <= low; ++k)
      list.push_back(3 + e * (high - 1) + k - 2);
  for (int i = 0, row = 3 * high; i <= low - 3; row += high - 2 - i, ++i)
    for (int j = 0; i + j <= low - 3; ++j)
      list.push_back(row + j);
  return list;
}

/// Energy of the change from order to order, one an element, exteriors last at zero.
Eigen::VectorXd changes(const HeatParts& parts, const Space& low, const HeatStep& before,
                        const Space& high, const HeatStep& after, double& whole)
{
  const std::vector<int> place = among(low.order, high.order);
  Eigen::VectorXd list =
      Eigen::VectorXd::Zero(static_cast<Eigen::Index>(parts.open.size() + high.exteriors.size()));
  whole = 0.0;
  for (std::size_t k = 0; k < parts.open.size(); ++k)
  {
    if (parts.open[k])
      continue;
    const Eigen::VectorXd now = gathered(triangle_gather(high, static_cast<int>(k)), after.rise);
    Eigen::VectorXd change = now;
    change(place) -= gathered(triangle_gather(low, static_cast<int>(k)), before.rise);
    list[static_cast<Eigen::Index>(k)] = change.dot(after.matrices[k] * change);
    whole += now.dot(after.matrices[k] * now);
  }
  return list;
}

/// Solves on one mesh; every element's share of the change.
Eigen::VectorXd solve_on_mesh(const HeatProblem& problem, const mesh::Mesh& mesh, HeatField& field)
{
  const Space low = space(mesh, order - 1);
  const HeatParts parts = heat_parts(problem, low);
  field.space = space(mesh, order);
  const HeatStep before = heat_step(problem, parts, low);
  HeatStep after = heat_step(problem, parts, field.space);
  double whole = 0.0;
  Eigen::VectorXd indicator = changes(parts, low, before, field.space, after, whole);
  if (!std::isfinite(whole) || !(whole > 0.0))
    throw std::runtime_error(
        "the temperature is not finite: sizes or conductivities too far apart");
  indicator /= whole;
  field.accuracy_met = indicator.sum();
  field.accuracy_reached = field.accuracy_met <= problem.accuracy && after.settled;
  field.limit = after.settled ? "" : "the temperature at which surfaces radiate did not settle";
  field.rise = std::move(after.rise);
  field.open = parts.open;
  field.steps = after.steps;
  field.unknowns = after.unknowns;
  add_heat_sums(problem, parts, field);
  return indicator;
}

std::vector<double> contrast(const HeatProblem& problem)
{
  std::vector<double> list;
  for (const HeatSource& region : problem.regions)
    list.push_back(region.conductivity);
  list.front() = 0.0;
  return list;
}

/// A finer mesh that does not fold and that memory can hold, where there is one.
bool refine(const HeatProblem& problem, HeatField& field, Eigen::VectorXd& indicator)
{
  HeatField next;
  next.refinements = field.refinements + 1;
  field.limit =
      solved_finer(field.space, indicator, contrast(problem), problem.accuracy,
                   [&](const mesh::Mesh& mesh)
                   {
                     std::string lacking = MemoryShare::lacking({mesh.triangles.size(), order, 1});
                     if (lacking.empty())
                       indicator = solve_on_mesh(problem, mesh, next);
                     return lacking;
                   });
  if (!field.limit.empty())
    return false;
  field = std::move(next);
  return true;
}

bool any_heat(const HeatProblem& problem)
{
  const auto lossy = [](const HeatSource& one) { return one.heat > 0.0; };
  return std::ranges::any_of(problem.regions, lossy) ||
         std::ranges::any_of(problem.sections, lossy);
}

} // namespace

HeatField solve_heat(const HeatProblem& problem)
{
  constexpr int most_refinements = 20, most_unknowns = 200000;
  if (!(problem.convection > 0.0) && !(problem.emissivity > 0.0))
    throw std::invalid_argument("nothing takes the heat from any surface");
  if (!any_heat(problem))
    throw std::invalid_argument("no body loses heat");
  const MemoryShare share;
  MemoryShare::require({problem.mesh.triangles.size(), order, 1});
  HeatField field;
  Eigen::VectorXd indicator = solve_on_mesh(problem, problem.mesh, field);
  while (!field.accuracy_reached && field.limit.empty())
  {
    if (field.refinements >= most_refinements || field.unknowns > most_unknowns)
    {
      field.limit = field.unknowns > most_unknowns ? "the mesh would need more than 200000 unknowns"
                                                   : "20 refinements were not enough";
      break;
    }
    if (!refine(problem, field, indicator))
      break;
  }
  return field;
}

double rise_in(const HeatField& field, int triangle, const std::array<double, 3>& lambda)
{
  if (field.open[static_cast<std::size_t>(triangle)])
    return 0.0;
  return triangle_shapes(field.space.order, lambda)
      .value.dot(gathered(triangle_gather(field.space, triangle), field.rise));
}

} // namespace solver
