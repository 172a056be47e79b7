// Mesh, solve both sides, bracket, refine where the gap is; again until it is small enough.
#include "solver/solve.hpp"

#include "mesh/mesher.hpp"
#include "solver/adaptivity.hpp"
#include "solver/floors.hpp"
#include "solver/memory.hpp"
#include "solver/sides.hpp"
#include "solver/solution.hpp"
#include "solver/stopwatch.hpp"

#include <stdexcept>
#include <utility>

namespace solver
{

namespace
{

/// Beyond so many numbers matrices are worked out again rather than kept.
constexpr double most_kept = 1e7;

/// @param solution  As solved on a coarser mesh or of other materials on this one, or fresh.
void solve_on_mesh(Solution& solution, const mesh::Mesh& mesh, int order, int threads,
                   Stopwatch& watch)
{
  // A mesh that folds leaves by an exception: its space must not meet matrices of another.
  const auto kept = std::exchange(solution.unit, nullptr);
  const Space before = std::exchange(solution.space, space(mesh, order));
  const Space& s = solution.space;
  solution.sources =
      sources(s, solution.layout, static_cast<int>(solution.problem.scene.windings.size()),
              solution.problem.background);
  const bool known = kept && before.order == order;
  const auto unit = std::make_shared<const UnitElements>(
      unit_elements(s, threads, known ? &before : nullptr, known ? kept.get() : nullptr));
  const Shared given{s, solution.layout, solution.sources, unit};
  const double functions = 0.5 * (order + 1.0) * (order + 2.0);
  const bool small =
      functions * functions * static_cast<double>(mesh.triangles.size()) <= most_kept;
  solution.unit = small ? unit : nullptr;
  watch.lap(solution.timing.assemble);
  auto factors = std::exchange(solution.factors, nullptr);
  if (!factors)
    factors = std::make_shared<SideFactors>();
  Sides sides = both_sides(given, solution.permeability, threads, *factors);
  solution.factors = small ? std::move(factors) : nullptr;
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
  solution.accuracy_met = relative_half_width(solution.bracket);
  // Nothing is promised below round-off and geometry, however narrow the bracket looks.
  solution.accuracy_reached =
      solution.accuracy_met + round_off + solution.geometry_error <= solution.problem.accuracy;
}

MeshSize size_of(const Solution& solution, const mesh::Mesh& mesh, int order)
{
  const Problem& problem = solution.problem;
  // What is drawn in the end is both halves of a halved mesh.
  return {(mesh.box.halved ? 2 : 1) * mesh.triangles.size(), order,
          problem.scene.windings.size() + (problem.background ? 1 : 0)};
}

/// A finer mesh that does not fold and that memory can hold, where there is one.
bool refine(Solution& solution, int order, int threads, Stopwatch& watch)
{
  Solution next = solution;
  ++next.refinements;
  solution.limit = solved_finer(solution.space, indicators(solution.bracket), solution.permeability,
                                2.0 * solution.problem.accuracy,
                                [&](const mesh::Mesh& mesh)
                                {
                                  watch.lap(next.timing.mesh);
                                  std::string lacking =
                                      MemoryShare::lacking(size_of(solution, mesh, order));
                                  if (lacking.empty())
                                    solve_on_mesh(next, mesh, order, threads, watch);
                                  return lacking;
                                });
  if (!solution.limit.empty())
    return false;
  solution = std::move(next);
  return true;
}

/// Solves on the mesh, then on finer ones until the accuracy or a floor is met.
void refine_until_reached(Solution& solution, const mesh::Mesh& mesh, int threads, Stopwatch& watch)
{
  const int order = order_for(solution.problem.accuracy);
  const MemoryShare share;
  MemoryShare::require(size_of(solution, mesh, order));
  solve_on_mesh(solution, mesh, order, threads, watch);
  for (std::vector<double> widths; !solution.accuracy_reached;)
  {
    widths.push_back(solution.accuracy_met);
    solution.limit = floor_met(solution.refinements, solution.unknowns, widths);
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
  // Of a body in a background the flux through its middle is asked, and on a mirror the field at a
  // point converges slowest.
  const mesh::Mesh coarse = mesh::coarse_mesh(
      solution.layout, problem.background ? mesh::Portion::whole : mesh::Portion::half_if_mirrored);
  solution.geometry_error = curve_error(coarse);
  solved_graded(coarse, solution.permeability, problem.accuracy,
                [&](const mesh::Mesh& mesh)
                {
                  watch.lap(solution.timing.mesh);
                  refine_until_reached(solution, mesh, threads, watch);
                });
  return solution;
}

Solution solve_from(const Problem& problem, const Solution& start, int threads)
{
  Solution solution;
  solution.problem = problem;
  solution.layout = start.layout;
  solution.permeability = permeabilities(problem, solution.layout);
  solution.geometry_error = start.geometry_error;
  solution.space = start.space;
  solution.unit = start.unit;
  solution.factors = start.factors;
  Stopwatch watch;
  refine_until_reached(solution, start.space.mesh, threads, watch);
  return solution;
}

} // namespace solver
