// Mesh, solve both sides, bracket, refine where the gap is; again until it is small enough.
#include "solver/solve.hpp"

#include "mesh/mesher.hpp"
#include "mesh/refine.hpp"
#include "solver/adaptivity.hpp"
#include "solver/equation.hpp"
#include "solver/factor.hpp"
#include "solver/solution.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <future>
#include <limits>
#include <stdexcept>
#include <utility>

namespace solver
{

namespace
{

/// Relative round-off of the sums in a bracket: the identity upper - lower = gap holds to a tenth
/// of it.
constexpr double round_off = 1e-13;

/// Adds the time since the last lap to a stage.
class Stopwatch
{
public:
  void lap(double& stage)
  {
    const auto now = std::chrono::steady_clock::now();
    stage += std::chrono::duration<double>(now - _last).count();
    _last = now;
  }

private:
  std::chrono::steady_clock::time_point _last = std::chrono::steady_clock::now();
};

/// Bound of the relative change of L that misplaced arcs can make.
///
/// Arcs are followed to 4e-16 of their distance R from the axis; a map of space that moves them
/// back changes lengths by e = 4e-16 R / l at most, l the lesser of the radius and half the
/// clearance, and inductances by 9 e [DEVELOPERS.md, geometry]. The shortest mesh edge stands for
/// the clearance.
double curve_error(const mesh::Mesh& mesh)
{
  double shortest = std::numeric_limits<double>::infinity(), worst = 0.0;
  for (const mesh::Triangle& t : mesh.triangles)
    for (int i = 0; i < 3; ++i)
    {
      const mesh::Vertex &a = mesh.vertices[t.vertices[i]],
                         &b = mesh.vertices[t.vertices[(i + 1) % 3]];
      shortest = std::min(shortest, std::hypot(a.r() - b.r(), a.z - b.z));
    }
  for (const mesh::Curve& curve : mesh.curves)
    if (curve.kind == mesh::Curve::Kind::arc)
      worst =
          std::max(worst, (curve.centre.r + curve.radius) / std::min(curve.radius, 0.5 * shortest));
  return 9.0 * 4e-16 * worst;
}

/// One side's values, and what they took.
struct Side
{
  Eigen::MatrixXd values;
  int unknowns = 0;
  double assemble = 0.0;
  double factor = 0.0;
};

/// One of the two equations: assemble, factorise, solve for all sources.
Side solved(const Space& space, Weight weight, std::span<const double> coefficient, double outside,
            const Eigen::MatrixXd& loads)
{
  Side side;
  Stopwatch watch;
  const Equation<double> equation(space, weight, coefficient, outside);
  watch.lap(side.assemble);
  const Factor factor(equation.matrix());
  side.values = equation.expanded(factor.solve(equation.reduced(loads)), loads);
  watch.lap(side.factor);
  side.unknowns = equation.unknowns();
  return side;
}

/// Both equations, at once where there are threads for it; wall time shared out by stage.
void solve_both(Solution& solution, const Eigen::MatrixXd& flux_loads,
                const Eigen::MatrixXd& potential_loads, int threads)
{
  const Space& s = solution.space;
  std::vector<double> reluctivity, permeability;
  for (const mesh::Triangle& t : s.mesh.triangles)
  {
    permeability.push_back(mu0 * solution.permeability[t.region]);
    reluctivity.push_back(1.0 / permeability.back());
  }
  Stopwatch watch;
  std::future<Side> other =
      std::async(threads > 1 ? std::launch::async : std::launch::deferred,
                 [&] { return solved(s, Weight::over_r, reluctivity, 1.0 / mu0, flux_loads); });
  Side potential = solved(s, Weight::times_r, permeability, mu0, potential_loads);
  Side flux = other.get();
  double wall = 0.0;
  watch.lap(wall);
  const double assemble = flux.assemble + potential.assemble,
               factor = flux.factor + potential.factor;
  solution.timing.assemble += wall * assemble / (assemble + factor);
  solution.timing.factor += wall * factor / (assemble + factor);
  solution.unknowns = flux.unknowns + potential.unknowns;
  solution.flux = std::move(flux.values);
  solution.potential = std::move(potential.values);
}

void solve_on_mesh(Solution& solution, const mesh::Mesh& mesh, int order, int threads,
                   Stopwatch& watch)
{
  solution.space = space(mesh, order);
  const Space& s = solution.space;
  solution.sources.clear();
  for (std::size_t w = 0; w < solution.problem.scene.windings.size(); ++w)
    solution.sources.push_back(winding_source(s, solution.layout, static_cast<int>(w)));
  if (solution.problem.background)
    solution.sources.push_back(background_source(s, solution.layout, *solution.problem.background));
  const auto n = static_cast<Eigen::Index>(solution.sources.size());
  Eigen::MatrixXd flux_loads(s.count, n), potential_loads(s.count, n);
  for (Eigen::Index j = 0; j < n; ++j)
  {
    flux_loads.col(j) = flux_load(s, solution.layout, solution.sources[j], solution.permeability);
    potential_loads.col(j) =
        potential_load(s, solution.layout, solution.sources[j], solution.permeability);
  }
  watch.lap(solution.timing.assemble);
  solve_both(solution, flux_loads, potential_loads, threads);
  double counted = 0.0; // solve_both shared its time out already
  watch.lap(counted);
  solution.bracket = bracket(s, solution.layout, solution.sources, solution.permeability,
                             solution.flux, solution.potential, flux_loads, threads);
  watch.lap(solution.timing.bracket);
}

/// One more mesh: solved, or false where it folds, and the solution before kept.
bool step(Solution& solution, const mesh::Mesh& mesh, int order, int threads, Stopwatch& watch)
{
  Solution next = solution;
  try
  {
    solve_on_mesh(next, mesh, order, threads, watch);
  }
  catch (const FoldedElement&)
  {
    if (solution.sources.empty())
      throw; // not even the coarse mesh is admissible
    return false;
  }
  next.accuracy_met = relative_half_width(next.bracket);
  // Nothing is promised below round-off and geometry, however narrow the bracket looks.
  next.accuracy_reached =
      next.accuracy_met + round_off + next.geometry_error <= next.problem.accuracy;
  solution = std::move(next);
  return true;
}

/// A finer mesh that does not fold: which edges are cut in which order decides, so other marks are
/// tried before giving up.
bool refine(Solution& solution, int order, int threads, Stopwatch& watch)
{
  for (const double factor : {1.0, 0.3, 3.0, 0.1})
  {
    const mesh::Mesh mesh = mesh::refined(
        solution.space.mesh, marks(solution, 2.0 * factor * solution.problem.accuracy));
    watch.lap(solution.timing.mesh);
    if (step(solution, mesh, order, threads, watch))
    {
      ++solution.refinements;
      return true;
    }
  }
  solution.limit = "curved boundaries so close together fold the finer mesh";
  return false;
}

/// Why to stop short of the asked accuracy, or nothing while refinement still pays.
std::string floor_met(const Solution& solution, const std::vector<double>& widths)
{
  constexpr int most_refinements = 40, most_unknowns = 500000, patience = 5;
  if (solution.refinements >= most_refinements)
    return "40 refinements were not enough";
  if (solution.unknowns > most_unknowns)
    return "the mesh would need more than 500000 unknowns";
  if (widths.size() > patience && widths.back() > 0.5 * widths[widths.size() - 1 - patience])
    return "round-off: refining no longer narrows the bracket";
  return {};
}

} // namespace

Solution solve(const Problem& problem, int threads)
{
  if (problem.scene.windings.empty() && !problem.background)
    throw std::invalid_argument("nothing to solve: no winding and no background field");
  Solution solution;
  solution.problem = problem;
  Stopwatch watch;
  solution.layout = mesh::layout(problem.scene);
  for (const mesh::Region& region : solution.layout.regions)
    solution.permeability.push_back(material(problem, region.material).permeability);
  const mesh::Mesh mesh = mesh::coarse_mesh(solution.layout);
  solution.geometry_error = curve_error(mesh);
  watch.lap(solution.timing.mesh);
  const int order = order_for(problem.accuracy);
  step(solution, mesh, order, threads, watch);
  for (std::vector<double> widths; !solution.accuracy_reached;)
  {
    widths.push_back(solution.accuracy_met);
    solution.limit = floor_met(solution, widths);
    if (!solution.limit.empty() || !refine(solution, order, threads, watch))
      break;
  }
  return solution;
}

} // namespace solver
