// Mesh, solve both sides, bracket, refine where the gap is; again until it is small enough.
#include "solver/solve.hpp"

#include "mesh/mesher.hpp"
#include "mesh/refine.hpp"
#include "solver/equation.hpp"
#include "solver/factor.hpp"
#include "solver/solution.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace solver
{

namespace
{

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

/// One of the two equations: assemble, factorise, solve for all sources.
Eigen::MatrixXd solved(const Space& space, Weight weight, std::span<const double> coefficient,
                       double outside, const Eigen::MatrixXd& loads, Solution& solution,
                       Stopwatch& watch)
{
  const Equation<double> equation(space, weight, coefficient, outside);
  watch.lap(solution.timing.assemble);
  const Factor factor(equation.matrix());
  Eigen::MatrixXd values = equation.expanded(factor.solve(equation.reduced(loads)), loads);
  watch.lap(solution.timing.factor);
  solution.unknowns += equation.unknowns();
  return values;
}

void solve_on_mesh(Solution& solution, mesh::Mesh mesh, int order, Stopwatch& watch)
{
  solution.space = space(std::move(mesh), order);
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
  std::vector<double> reluctivity, permeability;
  for (const mesh::Triangle& t : s.mesh.triangles)
  {
    permeability.push_back(mu0 * solution.permeability[t.region]);
    reluctivity.push_back(1.0 / permeability.back());
  }
  solution.unknowns = 0;
  solution.flux = solved(s, Weight::over_r, reluctivity, 1.0 / mu0, flux_loads, solution, watch);
  solution.potential =
      solved(s, Weight::times_r, permeability, mu0, potential_loads, solution, watch);
  solution.bracket = bracket(s, solution.layout, solution.sources, solution.permeability,
                             solution.flux, solution.potential, flux_loads);
  watch.lap(solution.timing.bracket);
}

/// Relative gap of every element, the worst over the sources: triangles, then exteriors.
Eigen::VectorXd indicators(const Bracket& b)
{
  const Eigen::VectorXd scale = (b.lower + 0.5 * b.gap.diagonal()).cwiseAbs().cwiseInverse();
  Eigen::VectorXd all(b.triangle_gap.rows() + b.exterior_gap.rows());
  all << (b.triangle_gap * scale.asDiagonal()).rowwise().maxCoeff(),
      (b.exterior_gap * scale.asDiagonal()).rowwise().maxCoeff();
  return all;
}

double relative_half_width(const Bracket& b)
{
  double worst = 0.0;
  for (Eigen::Index j = 0; j < b.lower.size(); ++j)
  {
    if (b.lower[j] == 0.0 && b.gap(j, j) == 0.0)
      continue; // a background field that meets no body
    const double width = 0.5 * b.gap(j, j) / std::abs(b.lower[j] + 0.5 * b.gap(j, j));
    if (!std::isfinite(width))
      throw std::runtime_error("the solution is not finite: permeabilities or sizes too far apart");
    worst = std::max(worst, width);
  }
  return worst;
}

/// Decades the gap at a corner falls by with each layer of grading: the field goes as d^(lambda -
/// 1), lambda down to 2/3 where permeabilities meet at a right angle, else the corner is mild.
std::vector<double> decades_a_layer(const Solution& solution)
{
  const mesh::Mesh& mesh = solution.space.mesh;
  std::vector<double> low(mesh.vertices.size(), std::numeric_limits<double>::infinity()),
      high(mesh.vertices.size(), 0.0), decades(mesh.vertices.size(), 0.0);
  for (const mesh::Triangle& t : mesh.triangles)
    for (const int v : t.vertices)
    {
      low[v] = std::min(low[v], solution.permeability[t.region]);
      high[v] = std::max(high[v], solution.permeability[t.region]);
    }
  for (std::size_t v = 0; v < decades.size(); ++v)
    if (mesh.corner[v] != mesh::Corner::none)
      decades[v] = high[v] > low[v] ? 1.0 : 3.0;
  return decades;
}

/// What to refine so that all gaps come near an even share of the target, the small ones left out.
mesh::Marks marks(const Solution& solution, double target)
{
  const mesh::Mesh& mesh = solution.space.mesh;
  const Eigen::VectorXd gap = indicators(solution.bracket);
  const double share = 1.0 * target / static_cast<double>(gap.size());
  const double least = std::max(share, 5e-2 * gap.maxCoeff());
  const std::vector<double> decades = decades_a_layer(solution);
  mesh::Marks made{std::vector<bool>(mesh.triangles.size(), false),
                   std::vector<int>(mesh.vertices.size(), 0)};
  mesh::EdgeMap<int> beside;
  for (std::size_t k = 0; k < mesh.triangles.size(); ++k)
  {
    const auto& v = mesh.triangles[k].vertices;
    made.bisect[k] = gap[k] > least;
    for (int i = 0; i < 3; ++i)
    {
      beside[mesh::edge(v[i], v[(i + 1) % 3])] = static_cast<int>(k);
      if (made.bisect[k] && decades[v[i]] > 0.0)
        made.layers[v[i]] = std::max(
            made.layers[v[i]],
            std::clamp(static_cast<int>(std::ceil(std::log10(gap[k] / share) / decades[v[i]])), 1,
                       6));
    }
  }
  for (std::size_t x = 0; x < solution.space.exteriors.size(); ++x)
    if (gap[mesh.triangles.size() + x] > least)
      made.bisect[beside.at(solution.space.exteriors[x].edge)] = true;
  return made;
}

int order_for(double accuracy)
{
  const double digits = -std::log10(accuracy);
  return std::clamp(static_cast<int>(std::lround(digits < 5.5 ? digits + 1.0 : digits)), 3, 8);
}

} // namespace

Solution solve(const Problem& problem)
{
  Solution solution;
  solution.problem = problem;
  if (problem.scene.windings.empty() && !problem.background)
    throw std::invalid_argument("nothing to solve: no winding and no background field");
  Stopwatch watch;
  solution.layout = mesh::layout(problem.scene);
  for (const mesh::Region& region : solution.layout.regions)
    solution.permeability.push_back(material(problem, region.material).permeability);
  mesh::Mesh mesh = mesh::coarse_mesh(solution.layout);
  watch.lap(solution.timing.mesh);
  const int order = order_for(problem.accuracy);
  constexpr int most_refinements = 25, most_unknowns = 400000;
  for (;;)
  {
    solve_on_mesh(solution, std::move(mesh), order, watch);
    solution.accuracy_met = relative_half_width(solution.bracket);
    solution.accuracy_reached = solution.accuracy_met <= problem.accuracy;
    if (solution.accuracy_reached)
      break;
    if (solution.refinements == most_refinements || solution.unknowns > most_unknowns)
    {
      solution.limit = "the mesh would grow beyond reason";
      break;
    }
    ++solution.refinements;
    mesh = mesh::refined(solution.space.mesh, marks(solution, 2.0 * problem.accuracy));
    watch.lap(solution.timing.mesh);
  }
  return solution;
}

} // namespace solver
