// Two scalar equations a permeability, at once where there are threads for it.
#include "solver/sides.hpp"

#include "solver/at_once.hpp"
#include "solver/equation.hpp"
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
Side solved(const Space& space, Weight weight, const std::vector<Condensed<double>>& unit,
            const std::vector<double>& coefficient, const Eigen::MatrixXd& loads, Factor& factor)
{
  Side side;
  Stopwatch watch;
  const Equation<double> equation(space, held_by_symmetry(space, weight), unit, coefficient);
  watch.lap(side.assemble);
  factor.compute(equation.matrix());
  side.values = equation.expanded(factor.solve(equation.reduced(loads)), loads);
  watch.lap(side.factor);
  side.unknowns = equation.unknowns();
  return side;
}

Eigen::MatrixXd unit_matrix(const Space& space, int element, Weight weight)
{
  const auto triangles = static_cast<int>(space.mesh.triangles.size());
  return element < triangles ? triangle_matrix(space, element, weight)
                             : exterior_matrix(space, element - triangles, weight);
}

bool same_place(const mesh::Vertex& a, const mesh::Vertex& b)
{
  return a.s == b.s && a.z == b.z;
}

/// Whether triangle k is the same in both; one with a bent edge only where nothing was refined.
bool same_triangle(const Space& a, const Space& b, std::size_t k)
{
  if (k >= b.mesh.triangles.size())
    return false;
  const auto &v = a.mesh.triangles[k].vertices, &w = b.mesh.triangles[k].vertices;
  const bool refined = a.mesh.triangles.size() != b.mesh.triangles.size();
  for (int i = 0; i < 3; ++i)
  {
    if (v[i] != w[i] || !same_place(a.mesh.vertices[v[i]], b.mesh.vertices[w[i]]))
      return false;
    const mesh::Edge e = mesh::edge(v[i], v[(i + 1) % 3]);
    if (refined && (a.mesh.curved.contains(e) || b.mesh.curved.contains(e)))
      return false;
  }
  return true;
}

bool same_exterior(const Space& a, const Space& b, std::size_t x)
{
  if (x >= b.exteriors.size() || !(a.exteriors[x].edge == b.exteriors[x].edge))
    return false;
  const mesh::Edge e = a.exteriors[x].edge;
  return same_place(a.mesh.vertices[e.a], b.mesh.vertices[e.a]) &&
         same_place(a.mesh.vertices[e.b], b.mesh.vertices[e.b]);
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

UnitMatrices unit_matrices(const Space& space)
{
  UnitMatrices made;
  const std::size_t elements = space.mesh.triangles.size() + space.exteriors.size();
  for (std::size_t k = 0; k < elements; ++k)
  {
    made.over_r.push_back(unit_matrix(space, static_cast<int>(k), Weight::over_r));
    made.times_r.push_back(unit_matrix(space, static_cast<int>(k), Weight::times_r));
  }
  return made;
}

UnitElements unit_elements(const Space& space, int threads, const Space* before,
                           const UnitElements* known)
{
  const std::size_t triangles = space.mesh.triangles.size();
  const std::size_t elements = triangles + space.exteriors.size();
  const std::size_t old = before ? before->mesh.triangles.size() : 0;
  UnitElements made;
  made.over_r.resize(elements);
  made.times_r.resize(elements);
  const auto fill = [&](std::size_t k)
  {
    const bool inside = k < triangles;
    if (before &&
        (inside ? same_triangle(space, *before, k) : same_exterior(space, *before, k - triangles)))
    {
      const std::size_t there = inside ? k : k - triangles + old;
      made.over_r[k] = known->over_r[there];
      made.times_r[k] = known->times_r[there];
      return;
    }
    const int element = static_cast<int>(k);
    made.over_r[k] = condensed(space, element, unit_matrix(space, element, Weight::over_r));
    made.times_r[k] = condensed(space, element, unit_matrix(space, element, Weight::times_r));
  };
  constexpr std::size_t portion = 16; // of elements at a time
  at_once((elements + portion - 1) / portion, threads,
          [&](std::size_t i)
          {
            for (std::size_t k = i * portion; k < std::min(elements, (i + 1) * portion); ++k)
              fill(k);
          });
  return made;
}

Sides both_sides(const Shared& given, std::span<const double> permeability, int threads,
                 SideFactors& factors)
{
  Stopwatch watch;
  const Space& s = given.space;
  std::vector<double> nu, mu;
  for (const mesh::Triangle& t : s.mesh.triangles)
  {
    mu.push_back(mu0 * permeability[t.region]);
    nu.push_back(1.0 / mu.back());
  }
  mu.resize(mu.size() + s.exteriors.size(), mu0);
  nu.resize(mu.size(), 1.0 / mu0);
  const auto n = static_cast<Eigen::Index>(given.sources.size());
  Sides made;
  made.flux_load.resize(s.count, n);
  std::future<Side> other = std::async(
      policy(threads),
      [&]
      {
        for (Eigen::Index j = 0; j < n; ++j)
          made.flux_load.col(j) = flux_load(s, given.layout, given.sources[j], permeability);
        return solved(s, Weight::over_r, given.unit->over_r, nu, made.flux_load, factors.flux);
      });
  Eigen::MatrixXd loads(s.count, n);
  for (Eigen::Index j = 0; j < n; ++j)
    loads.col(j) = potential_load(s, given.layout, given.sources[j], permeability);
  Side potential = solved(s, Weight::times_r, given.unit->times_r, mu, loads, factors.potential);
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
