// Two scalar equations a permeability, at once where there are threads for it.
#include "solver/sides.hpp"

#include "solver/at_once.hpp"
#include "solver/equation.hpp"
#include "solver/factor.hpp"
#include "solver/problem.hpp"
#include "solver/stopwatch.hpp"

#include <algorithm>
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
      space, held_by_symmetry(space, weight),
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

UnitMatrices unit_matrices(const Space& space, int threads)
{
  const std::size_t triangles = space.mesh.triangles.size();
  const std::size_t elements = triangles + space.exteriors.size();
  UnitMatrices made;
  made.over_r.resize(elements);
  made.times_r.resize(elements);
  const auto matrix = [&](std::size_t k, Weight weight)
  {
    return k < triangles ? triangle_matrix(space, static_cast<int>(k), weight)
                         : exterior_matrix(space, static_cast<int>(k - triangles), weight);
  };
  constexpr std::size_t portion = 16; // of elements at a time
  at_once((elements + portion - 1) / portion, threads,
          [&](std::size_t i)
          {
            for (std::size_t k = i * portion; k < std::min(elements, (i + 1) * portion); ++k)
            {
              made.over_r[k] = matrix(k, Weight::over_r);
              made.times_r[k] = matrix(k, Weight::times_r);
            }
          });
  return made;
}

Shared shared(const Space& space, const mesh::Layout& layout, std::span<const Source> sources,
              int threads)
{
  return {space, layout, sources, unit_matrices(space, threads)};
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
  std::future<Side> other = std::async(
      policy(threads),
      [&]
      {
        for (Eigen::Index j = 0; j < n; ++j)
          made.flux_load.col(j) = flux_load(s, given.layout, given.sources[j], permeability);
        return solved(s, Weight::over_r, given.unit.over_r, nu, 1.0 / mu0, made.flux_load);
      });
  Eigen::MatrixXd loads(s.count, n);
  for (Eigen::Index j = 0; j < n; ++j)
    loads.col(j) = potential_load(s, given.layout, given.sources[j], permeability);
  Side potential = solved(s, Weight::times_r, given.unit.times_r, mu, mu0, loads);
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
