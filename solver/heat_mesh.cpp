// Conduction by the shared element matrices, surfaces by an edge matrix, radiation by Newton.
#include "solver/heat_mesh.hpp"

#include "solver/equation.hpp"
#include "solver/factor.hpp"
#include "solver/gather.hpp"
#include "solver/quadrature.hpp"
#include "solver/shapes.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace solver
{

namespace
{

using std::numbers::pi;

/// A point of quadrature on a surface.
struct SurfacePoint
{
  double area = 0.0; ///< Its share of the surface [m^2].
  Eigen::VectorXd shapes;
};

/// Points of one edge. 2 pi r dl = 2 pi sqrt(s_t^2 / 4 + s z_t^2) dt, smooth at the axis.
std::vector<SurfacePoint> surface_points(const Space& space, int triangle, int edge)
{
  const mesh::ElementMap map = mesh::element_map(space.mesh, space.bends, triangle);
  const LineRule& rule = line_rule(space.order + 6);
  std::vector<SurfacePoint> list;
  for (std::size_t i = 0; i < rule.points.size(); ++i)
  {
    const double t = rule.points[i];
    const mesh::EdgePlace at = mesh::edge_place(map, edge, t);
    std::array<double, 3> lambda{};
    lambda[static_cast<std::size_t>(edge)] = 1.0 - t;
    lambda[static_cast<std::size_t>((edge + 1) % 3)] = t;
    const double r_dl = std::sqrt(0.25 * at.tangent[0] * at.tangent[0] +
                                  std::max(0.0, at.point[0]) * at.tangent[1] * at.tangent[1]);
    list.push_back({2.0 * pi * r_dl * rule.weights[i], triangle_shapes(space.order, lambda).value});
  }
  return list;
}

/// What a square metre gives off at a rise, and how that grows a kelvin.
struct Given
{
  double convected = 0.0;
  double radiated = 0.0;
  double slope = 0.0;
};
Given given_off(const HeatProblem& problem, double rise)
{
  const double Ta = problem.ambient, T = Ta + rise, c = problem.emissivity * stefan_boltzmann;
  // T^4 - Ta^4 without the difference of large numbers.
  return {problem.convection * rise, c * rise * (T + Ta) * (T * T + Ta * Ta),
          problem.convection + 4.0 * c * T * T * T};
}

/// int q v dV of one triangle.
Eigen::VectorXd heat_load(const Space& space, int triangle, double density)
{
  const ElementTable table = triangle_table(space, triangle, Care::solving);
  Eigen::VectorXd w(table.points.size());
  for (std::size_t i = 0; i < table.points.size(); ++i)
    w[static_cast<Eigen::Index>(i)] = pi * table.points[i].weight * density;
  return table.shapes->value * w;
}

/// Nothing but its inner functions, kept at zero.
Eigen::MatrixXd idle(Eigen::Index size, Eigen::Index inner)
{
  Eigen::MatrixXd K = Eigen::MatrixXd::Zero(size, size);
  K.diagonal().tail(inner).setOnes();
  return K;
}

/// One step: every surface linearised about the rise so far. @return The change's largest entry.
double step(const HeatProblem& problem, const HeatParts& parts, const Space& space,
            const std::vector<Eigen::MatrixXd>& conduction, const Eigen::VectorXd& sources,
            const std::vector<bool>& held, HeatStep& made)
{
  Eigen::VectorXd load = sources;
  made.matrices = conduction;
  for (std::size_t k = 0; k < parts.open.size(); ++k)
    for (int e = 0; e < 3; ++e)
    {
      if (!parts.surface[k][static_cast<std::size_t>(e)])
        continue;
      const Eigen::VectorXd before =
          gathered(triangle_gather(space, static_cast<int>(k)), made.rise);
      Eigen::VectorXd part = Eigen::VectorXd::Zero(before.size());
      for (const SurfacePoint& x : surface_points(space, static_cast<int>(k), e))
      {
        const double rise = x.shapes.dot(before);
        const Given off = given_off(problem, rise);
        made.matrices[k] += x.area * off.slope * x.shapes * x.shapes.transpose();
        part += x.area * (off.slope * rise - off.convected - off.radiated) * x.shapes;
      }
      scatter(triangle_gather(space, static_cast<int>(k)), part, load);
    }
  const auto triangles = static_cast<int>(parts.open.size());
  const Equation<double> equation(
      space, held,
      [&](int k) -> Eigen::MatrixXd
      {
        if (k >= triangles)
        {
          const auto n =
              static_cast<Eigen::Index>(exterior_gather(space, k - triangles).index.size());
          return Eigen::MatrixXd::Identity(n, n);
        }
        return parts.open[k] ? idle(triangle_shape_count(space.order), bubble_count(space.order))
                             : made.matrices[k];
      });
  const Factor factor(equation.matrix());
  const Eigen::VectorXd next = equation.expanded(factor.solve(equation.reduced(load)), load);
  const double change = (next - made.rise)
                            .head(static_cast<Eigen::Index>(space.mesh.vertices.size()))
                            .cwiseAbs()
                            .maxCoeff();
  made.rise = next;
  made.unknowns = equation.unknowns();
  ++made.steps;
  return change;
}

/// Functions at points of an even lattice over the triangle, corners and middles of edges among
/// them.
Eigen::MatrixXd lattice(int order)
{
  constexpr int n = 6;
  Eigen::MatrixXd made(triangle_shape_count(order), (n + 1) * (n + 2) / 2);
  Eigen::Index column = 0;
  for (int i = 0; i <= n; ++i)
    for (int j = 0; i + j <= n; ++j)
    {
      const double a = static_cast<double>(i) / n, b = static_cast<double>(j) / n;
      made.col(column++) = triangle_shapes(order, {1.0 - a - b, a, b}).value;
    }
  return made;
}

} // namespace

HeatStep heat_step(const HeatProblem& problem, const HeatParts& parts, const Space& space)
{
  constexpr int most_steps = 60;
  const auto triangles = static_cast<int>(parts.open.size());
  std::vector<Eigen::MatrixXd> conduction(parts.open.size());
  std::vector<bool> held(space.count, true);
  Eigen::VectorXd sources = Eigen::VectorXd::Zero(space.count);
  for (int k = 0; k < triangles; ++k)
  {
    if (parts.open[k])
      continue;
    const Gather at = triangle_gather(space, k);
    for (const int i : at.index)
      held[i] = false;
    conduction[k] = parts.conductivity[k] * triangle_matrix(space, k, Weight::times_r);
    if (parts.density[k] > 0.0)
      scatter(at, heat_load(space, k, parts.density[k]), sources);
  }
  HeatStep made;
  made.rise = Eigen::VectorXd::Zero(space.count);
  // Radiation is convex in the rise: from below, the first step comes out too hot, and from there
  // the steps fall towards the solution.
  for (bool again = true; again;)
  {
    const double change = step(problem, parts, space, conduction, sources, held, made);
    const double largest =
        made.rise.head(static_cast<Eigen::Index>(space.mesh.vertices.size())).maxCoeff();
    again = problem.emissivity > 0.0 && change > 1e-10 * largest && made.steps < most_steps;
    made.settled = made.steps < most_steps;
  }
  return made;
}

void add_heat_sums(const HeatProblem& problem, const HeatParts& parts, HeatField& field)
{
  const Space& space = field.space;
  field.regions.assign(problem.regions.size(), {});
  field.sections.assign(problem.sections.size(), {});
  field.heat = field.convected = field.radiated = 0.0;
  const Eigen::MatrixXd looked_at = lattice(space.order);
  for (std::size_t k = 0; k < parts.open.size(); ++k)
  {
    if (parts.open[k])
      continue;
    const mesh::Triangle& t = space.mesh.triangles[k];
    HeatRise& own = t.conductor >= 0 ? field.sections[t.conductor] : field.regions[t.region];
    const Eigen::VectorXd rise = gathered(triangle_gather(space, static_cast<int>(k)), field.rise);
    own.hottest = std::max(own.hottest, (looked_at.transpose() * rise).maxCoeff());
    const ElementTable table = triangle_table(space, static_cast<int>(k), Care::solving);
    for (std::size_t i = 0; i < table.points.size(); ++i)
    {
      const double at = rise.dot(table.shapes->value.col(static_cast<Eigen::Index>(i)));
      const double dV = pi * table.points[i].weight;
      own.volume += dV;
      own.mean += at * dV; // over the volume below
      field.heat += parts.density[k] * dV;
    }
    for (int e = 0; e < 3; ++e)
    {
      if (!parts.surface[k][static_cast<std::size_t>(e)])
        continue;
      for (const SurfacePoint& x : surface_points(space, static_cast<int>(k), e))
      {
        const Given off = given_off(problem, x.shapes.dot(rise));
        field.convected += x.area * off.convected;
        field.radiated += x.area * off.radiated;
      }
    }
  }
  for (auto* list : {&field.regions, &field.sections})
    for (HeatRise& one : *list)
      one.mean = one.volume > 0.0 ? one.mean / one.volume : 0.0;
}

} // namespace solver
