// Two scalar equations a permeability, at once where there are threads for it.
#include "solver/sides.hpp"

#include "solver/equation.hpp"
#include "solver/factor.hpp"
#include "solver/problem.hpp"
#include "solver/stopwatch.hpp"

#include <future>

namespace solver
{

namespace
{

/// One side's values, and what they took.
struct Side
{
  Eigen::MatrixXd values;
  int unknowns = 0;
  double assemble = 0.0;
  double factor = 0.0;
};

/// One of the two equations: assemble, factorise, solve for all sources.
Side solved(const Space& space, Weight weight, const std::vector<Eigen::MatrixXd>& unit,
            std::span<const double> coefficient, double outside, const Eigen::MatrixXd& loads)
{
  Side side;
  Stopwatch watch;
  const Equation<double> equation(
      space, held_on_axis(space, weight),
      [&](int k)
      {
        const auto triangles = static_cast<int>(space.mesh.triangles.size());
        return Eigen::MatrixXd((k < triangles ? coefficient[k] : outside) * unit[k]);
      });
  watch.lap(side.assemble);
  const Factor factor(equation.matrix());
  side.values = equation.expanded(factor.solve(equation.reduced(loads)), loads);
  watch.lap(side.factor);
  side.unknowns = equation.unknowns();
  return side;
}

std::launch policy(int threads)
{
  return threads > 1 ? std::launch::async : std::launch::deferred;
}

} // namespace

std::vector<Source> sources(const Space& space, const mesh::Layout& layout, int windings,
                            std::optional<double> background)
{
  std::vector<Source> list;
  for (int w = 0; w < windings; ++w)
    list.push_back(winding_source(space, layout, w));
  if (background)
    list.push_back(background_source(space, layout, *background));
  return list;
}

std::vector<Eigen::MatrixXd> unit_matrices(const Space& space, Weight weight)
{
  std::vector<Eigen::MatrixXd> list;
  list.reserve(space.mesh.triangles.size() + space.exteriors.size());
  for (std::size_t k = 0; k < space.mesh.triangles.size(); ++k)
    list.push_back(triangle_matrix(space, static_cast<int>(k), weight));
  for (std::size_t k = 0; k < space.exteriors.size(); ++k)
    list.push_back(exterior_matrix(space, static_cast<int>(k), weight));
  return list;
}

Shared shared(const Space& space, const mesh::Layout& layout, std::span<const Source> sources,
              int threads)
{
  std::future<std::vector<Eigen::MatrixXd>> other =
      std::async(policy(threads), [&space] { return unit_matrices(space, Weight::over_r); });
  Shared made{space, layout, sources, {}, unit_matrices(space, Weight::times_r)};
  made.over_r = other.get();
  return made;
}

Sides both_sides(const Shared& given, std::span<const double> permeability, int threads)
{
  Stopwatch watch;
  const Space& s = given.space;
  std::vector<double> nu, mu;
  for (const mesh::Triangle& t : s.mesh.triangles)
  {
    mu.push_back(mu0 * permeability[t.region]);
    nu.push_back(1.0 / mu.back());
  }
  const auto n = static_cast<Eigen::Index>(given.sources.size());
  Sides made;
  made.flux_load.resize(s.count, n);
  Eigen::MatrixXd potential_loads(s.count, n);
  for (Eigen::Index j = 0; j < n; ++j)
  {
    made.flux_load.col(j) = flux_load(s, given.layout, given.sources[j], permeability);
    potential_loads.col(j) = potential_load(s, given.layout, given.sources[j], permeability);
  }
  watch.lap(made.assemble);
  std::future<Side> other = std::async(
      policy(threads),
      [&] { return solved(s, Weight::over_r, given.over_r, nu, 1.0 / mu0, made.flux_load); });
  Side potential = solved(s, Weight::times_r, given.times_r, mu, mu0, potential_loads);
  Side flux = other.get();
  double wall = 0.0;
  watch.lap(wall);
  const double assemble = flux.assemble + potential.assemble,
               factor = flux.factor + potential.factor;
  made.assemble += wall * assemble / (assemble + factor);
  made.factor = wall * factor / (assemble + factor);
  made.unknowns = flux.unknowns + potential.unknowns;
  made.flux = std::move(flux.values);
  made.potential = std::move(potential.values);
  return made;
}

} // namespace solver
