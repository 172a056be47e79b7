// Point evaluation: find the triangle or the outward ray element, then its shape functions.
#include "solver/field.hpp"

#include "solver/shapes.hpp"
#include "solver/solution.hpp"

#include <Eigen/LU>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace solver
{

namespace
{

/// Field from psi's value and (s, z) derivatives, without background.
FieldPoint from_derivatives(double psi, double psi_s, double psi_z, double s,
                            const DrivenFlux& flux, double permeability, int region)
{
  FieldPoint f;
  f.flux = 2.0 * std::numbers::pi * (psi + 0.5 * flux.background * s);
  f.B_r = s > 0.0 ? -psi_z / std::sqrt(s) : 0.0; // psi = s q near the axis
  f.B_z = 2.0 * psi_s + flux.background;
  f.H_r = f.B_r / (mu0 * permeability);
  f.H_z = f.B_z / (mu0 * permeability);
  f.region = region;
  return f;
}

/// Barycentric coordinates of (s, z), by Newton's method where the triangle is bent; minus infinity
/// where it finds none, as may be far outside.
std::array<double, 3> barycentric(const mesh::ElementMap& map, const Eigen::Vector2d& target)
{
  std::array<double, 3> lambda{1.0 / 3.0, 1.0 / 3.0, 1.0 / 3.0};
  double last = 0.0;
  for (int step = 0; step < (map.straight() ? 1 : 30); ++step)
  {
    const mesh::ElementMap::Place place = map.at(lambda);
    const Eigen::Vector2d change = place.jacobian.inverse() * (target - place.point);
    lambda[1] += change[0];
    lambda[2] += change[1];
    lambda[0] = 1.0 - lambda[1] - lambda[2];
    last = change.norm();
    if (last < 1e-14)
      break;
  }
  if (!map.straight() && !(last < 1e-6))
    lambda.fill(-std::numeric_limits<double>::infinity());
  return lambda;
}

FieldPoint beyond_box(const Solution& solution, const DrivenFlux& flux, mesh::Point point)
{
  const Space& space = solution.space;
  const mesh::Box& box = space.mesh.box;
  const double z = point.z - box.middle;
  const double t = 1.0 / std::max(point.r / box.radius, std::abs(z) / box.half_height);
  const double s_e = point.r * point.r * t * t, z_e = box.middle + z * t;
  int best = 0;
  double y_best = 0.0, least = std::numeric_limits<double>::infinity();
  for (std::size_t x = 0; x < space.exteriors.size(); ++x)
  {
    const mesh::Vertex &a = space.mesh.vertices[space.exteriors[x].edge.a],
                       &b = space.mesh.vertices[space.exteriors[x].edge.b];
    const double ds = b.s - a.s, dz = b.z - a.z;
    // On a box edge one of the two coordinates is constant.
    const bool level = std::abs(dz) * box.radius < std::abs(ds) * 1e-9;
    const double y = std::clamp(level ? (s_e - a.s) / ds : (z_e - a.z) / dz, 0.0, 1.0);
    const double miss = std::abs(a.s + y * ds - s_e) / box.radius + std::abs(a.z + y * dz - z_e);
    if (miss < least)
    {
      least = miss;
      best = static_cast<int>(x);
      y_best = y;
    }
  }
  const mesh::Edge e = space.exteriors[best].edge;
  const mesh::Vertex &a = space.mesh.vertices[e.a], &b = space.mesh.vertices[e.b];
  const LineShapes along = edge_shapes(space.order, y_best), out = ray_shapes(space.ray_order, t);
  const Gather gather = exterior_gather(space, best);
  double psi = 0.0, by_y = 0.0, by_t = 0.0;
  for (int m = 0; m < space.ray_order; ++m)
    for (int k = 0; k <= space.order; ++k)
    {
      const double c = flux.coefficients[gather.index[m * (space.order + 1) + k]];
      psi += c * along.value[k] * out.value[m];
      by_y += c * along.slope[k] * out.value[m];
      by_t += c * along.value[k] * out.slope[m];
    }
  Eigen::Matrix2d J;
  J << (b.s - a.s) / (t * t), -2.0 * s_e / (t * t * t), (b.z - a.z) / t, -z * t / (t * t);
  const Eigen::Vector2d slope = J.transpose().inverse() * Eigen::Vector2d{by_y, by_t};
  return from_derivatives(psi, slope[0], slope[1], point.r * point.r, flux, 1.0, 0);
}

} // namespace

Eigen::VectorXd drive(const Solution& solution)
{
  const auto windings = static_cast<Eigen::Index>(solution.problem.scene.windings.size());
  Eigen::VectorXd currents =
      Eigen::VectorXd::Ones(static_cast<Eigen::Index>(solution.sources.size()));
  for (Eigen::Index w = 0; w < windings && !solution.problem.currents.empty(); ++w)
    currents[w] = solution.problem.currents[w];
  return currents;
}

DrivenFlux driven_flux(const Solution& solution, const Eigen::VectorXd& currents)
{
  DrivenFlux flux{solution.flux * currents, 0.0};
  for (std::size_t j = 0; j < solution.sources.size(); ++j)
    flux.background += currents[static_cast<Eigen::Index>(j)] * solution.sources[j].background;
  return flux;
}

FieldPoint field_in(const Solution& solution, const DrivenFlux& flux, int triangle,
                    const std::array<double, 3>& lambda)
{
  const Space& space = solution.space;
  const mesh::ElementMap::Place place =
      mesh::element_map(space.mesh, space.bends, triangle).at(lambda);
  const ShapeValues shapes = triangle_shapes(space.order, lambda);
  const Gather gather = triangle_gather(space, triangle);
  double psi = 0.0;
  Eigen::Vector2d by = Eigen::Vector2d::Zero();
  for (std::size_t i = 0; i < gather.index.size(); ++i)
  {
    const double c = gather.sign[i] * flux.coefficients[gather.index[i]];
    const auto row = static_cast<Eigen::Index>(i);
    psi += c * shapes.value[row];
    by += c * Eigen::Vector2d{shapes.d1[row], shapes.d2[row]};
  }
  const Eigen::Vector2d slope = place.jacobian.transpose().inverse() * by;
  const int region = space.mesh.triangles[triangle].region;
  return from_derivatives(psi, slope[0], slope[1], std::max(0.0, place.point[0]), flux,
                          solution.permeability[region], region);
}

FieldPoint field_at(const Solution& solution, const DrivenFlux& flux, mesh::Point point)
{
  const Space& space = solution.space;
  const mesh::Box& box = space.mesh.box;
  if (point.r > box.radius || std::abs(point.z - box.middle) > box.half_height)
    return beyond_box(solution, flux, point);
  const Eigen::Vector2d target{point.r * point.r, point.z};
  int best = 0;
  std::array<double, 3> where{1.0 / 3.0, 1.0 / 3.0, 1.0 / 3.0};
  double most = -std::numeric_limits<double>::infinity();
  for (std::size_t k = 0; k < space.mesh.triangles.size() && most < 0.0; ++k)
  {
    const mesh::ElementMap map = mesh::element_map(space.mesh, space.bends, static_cast<int>(k));
    const auto& c = map.corners;
    const double reach = map.straight() ? 1e-9 : 0.5;
    const auto [s0, s1] = std::minmax({c[0][0], c[1][0], c[2][0]});
    const auto [z0, z1] = std::minmax({c[0][1], c[1][1], c[2][1]});
    if (target[0] < s0 - reach * (s1 - s0) || target[0] > s1 + reach * (s1 - s0) ||
        target[1] < z0 - reach * (z1 - z0) || target[1] > z1 + reach * (z1 - z0))
      continue;
    const std::array<double, 3> lambda = barycentric(map, target);
    const double inside = std::min({lambda[0], lambda[1], lambda[2]});
    if (!(inside > most))
      continue;
    most = inside;
    best = static_cast<int>(k);
    where = lambda;
  }
  FieldPoint found = field_in(solution, flux, best, where);
  if (point.r ==
      0.0) // by symmetry; dividing by the root of what round-off leaves of s tells nothing
    found.flux = found.B_r = found.H_r = 0.0;
  return found;
}

} // namespace solver
