// Mesh, solve both sides, bracket, refine where the gap is; again until it is small enough.
#include "solver/solve.hpp"

#include "mesh/mesher.hpp"
#include "mesh/refine.hpp"
#include "solver/assembly.hpp"
#include "solver/solution.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
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

/// Rows of a full vector that an equation solves for, and back.
Eigen::MatrixXd gathered(const Eigen::MatrixXd& full, const Unknowns& unknowns)
{
  Eigen::MatrixXd part(unknowns.count, full.cols());
  for (Eigen::Index i = 0; i < full.rows(); ++i)
    if (unknowns.position[i] >= 0)
      part.row(unknowns.position[i]) = full.row(i);
  return part;
}

Eigen::MatrixXd scattered(const Eigen::MatrixXd& part, const Unknowns& unknowns)
{
  Eigen::MatrixXd full = Eigen::MatrixXd::Zero(unknowns.position.size(), part.cols());
  for (Eigen::Index i = 0; i < full.rows(); ++i)
    if (unknowns.position[i] >= 0)
      full.row(i) = part.row(unknowns.position[i]);
  return full;
}

/// One of the two equations: assemble, factorise, solve for all sources.
Eigen::MatrixXd solved(const Space& space, Weight weight, std::span<const double> coefficient,
                       double outside, const Eigen::MatrixXd& loads, Solution& solution,
                       Stopwatch& watch)
{
  const Unknowns free = unknowns(space, weight);
  const Eigen::SparseMatrix<double> A =
      stiffness<double>(space, free, weight, coefficient, outside);
  watch.lap(solution.timing.assemble);
  const Factor factor(A);
  const Eigen::MatrixXd x = factor.solve(gathered(loads, free));
  watch.lap(solution.timing.factor);
  solution.unknowns += free.count;
  return scattered(x, free);
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

/// How often each triangle is to be refined so that all gaps come near an even share of the target.
std::vector<int> refinement_levels(const Space& space, const Bracket& b, double target)
{
  const Eigen::VectorXd gap = indicators(b);
  const double share = 0.5 * target / static_cast<double>(gap.size());
  const double least = std::max(share, 1e-3 * gap.maxCoeff());
  std::vector<int> levels(space.mesh.triangles.size(), 0);
  mesh::EdgeMap<int> beside;
  for (std::size_t k = 0; k < levels.size(); ++k)
  {
    if (gap[k] > least)
      levels[k] = std::clamp(static_cast<int>(std::ceil(std::log10(gap[k] / share))), 1, 6);
    const auto& v = space.mesh.triangles[k].vertices;
    for (int i = 0; i < 3; ++i)
      beside[mesh::edge(v[i], v[(i + 1) % 3])] = static_cast<int>(k);
  }
  for (std::size_t x = 0; x < space.exteriors.size(); ++x)
    if (gap[levels.size() + x] > least)
    {
      int& level = levels[beside.at(space.exteriors[x].edge)];
      level = std::max(level, 1);
    }
  return levels;
}

int order_for(double accuracy)
{
  return std::clamp(static_cast<int>(std::lround(1.0 - std::log10(accuracy))), 3, 8);
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
    mesh = mesh::refined(solution.space.mesh, refinement_levels(solution.space, solution.bracket,
                                                                2.0 * problem.accuracy));
    watch.lap(solution.timing.mesh);
  }
  return solution;
}

} // namespace solver
