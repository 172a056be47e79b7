// Mesh, solve both sides, bracket, refine where the gap is; again until it is small enough.
#include "solver/solve.hpp"

#include "mesh/mesher.hpp"
#include "mesh/refine.hpp"
#include "solver/adaptivity.hpp"
#include "solver/sides.hpp"
#include "solver/solution.hpp"
#include "solver/stopwatch.hpp"

#include <algorithm>
#include <cmath>
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

void solve_on_mesh(Solution& solution, const mesh::Mesh& mesh, int order, int threads,
                   Stopwatch& watch)
{
  solution.space = space(mesh, order);
  const Space& s = solution.space;
  solution.sources =
      sources(s, solution.layout, static_cast<int>(solution.problem.scene.windings.size()),
              solution.problem.background);
  const Shared given = shared(s, solution.layout, solution.sources, threads);
  watch.lap(solution.timing.assemble);
  Sides sides = both_sides(given, solution.permeability, threads);
  solution.timing.assemble += sides.assemble;
  solution.timing.factor += sides.factor;
  solution.unknowns = sides.unknowns;
  solution.flux = std::move(sides.flux);
  solution.potential = std::move(sides.potential);
  double counted = 0.0; // both_sides told its time already
  watch.lap(counted);
  solution.bracket = bracket(s, solution.layout, solution.sources, solution.permeability,
                             solution.flux, solution.potential, sides.flux_load, threads);
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

/// Solves on the mesh, then on finer ones until the accuracy or a floor is met.
void refine_until_reached(Solution& solution, const mesh::Mesh& mesh, int threads, Stopwatch& watch)
{
  const int order = order_for(solution.problem.accuracy);
  step(solution, mesh, order, threads, watch);
  for (std::vector<double> widths; !solution.accuracy_reached;)
  {
    widths.push_back(solution.accuracy_met);
    solution.limit = floor_met(solution, widths);
    if (!solution.limit.empty() || !refine(solution, order, threads, watch))
      break;
  }
}

std::vector<double> permeabilities(const Problem& problem, const mesh::Layout& layout)
{
  std::vector<double> list;
  for (const mesh::Region& region : layout.regions)
    list.push_back(material(problem, region.material).permeability);
  return list;
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
  solution.permeability = permeabilities(problem, solution.layout);
  const mesh::Mesh mesh = mesh::coarse_mesh(solution.layout);
  solution.geometry_error = curve_error(mesh);
  watch.lap(solution.timing.mesh);
  refine_until_reached(solution, mesh, threads, watch);
  return solution;
}

Solution solve_from(const Problem& problem, const Solution& start, int threads)
{
  Solution solution;
  solution.problem = problem;
  solution.layout = start.layout;
  solution.permeability = permeabilities(problem, solution.layout);
  solution.geometry_error = start.geometry_error;
  Stopwatch watch;
  refine_until_reached(solution, start.space.mesh, threads, watch);
  return solution;
}

} // namespace solver
