// Point evaluation: find the triangle or the outward ray element, then its shape functions.
#include "solver/field.hpp"

#include "solver/gather.hpp"
#include "solver/section_field.hpp"
#include "solver/shapes.hpp"
#include "solver/solution.hpp"
#include "solver/table.hpp"

#include <Eigen/LU>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace solver
{

namespace
{

/// Value and (s, z) slope of one scalar at a point.
struct Local
{
  double value = 0.0;
  Eigen::Vector2d slope = Eigen::Vector2d::Zero();
};

/// @param psi  Flux function without background.
/// @param h    Potential side as h_s ds + h_z dz, background left out.
FieldPoint mean_field(const Local& psi, const Eigen::Vector2d& h, double s, double background,
                      double permeability, int region)
{
  const double mu = mu0 * permeability, r = std::sqrt(s);
  FieldPoint f;
  f.region = region;
  f.flux = 2.0 * std::numbers::pi * (psi.value + 0.5 * background * s);
  const double B_r = s > 0.0 ? -psi.slope[1] / r : 0.0; // psi = s q near the axis
  const double B_z = 2.0 * psi.slope[0] + background;
  f.B_r = 0.5 * (B_r + mu * 2.0 * r * h[0]);
  f.B_z = 0.5 * (B_z + mu * (h[1] + background / mu0));
  f.H_r = f.B_r / mu;
  f.H_z = f.B_z / mu;
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

Place beyond_box(const Space& space, mesh::Point point)
{
  const mesh::Box& box = space.mesh.box;
  const double z = point.z - box.middle;
  Place made;
  made.t = 1.0 / std::max(point.r / box.radius, std::abs(z) / box.half_height);
  const double s_e = point.r * point.r * made.t * made.t, z_e = box.middle + z * made.t;
  double least = std::numeric_limits<double>::infinity();
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
      made.exterior = static_cast<int>(x);
      made.y = y;
    }
  }
  return made;
}

Local beyond_box(const Space& space, const Place& place, mesh::Point point,
                 const Eigen::VectorXd& coefficients)
{
  const mesh::Edge e = space.exteriors[place.exterior].edge;
  const mesh::Vertex &a = space.mesh.vertices[e.a], &b = space.mesh.vertices[e.b];
  const double t = place.t, z = point.z - space.mesh.box.middle, s_e = point.r * point.r * t * t;
  const LineShapes along = edge_shapes(space.order, place.y), out = ray_shapes(space.ray_order, t);
  const Gather gather = exterior_gather(space, place.exterior);
  Eigen::Matrix2d J;
  J << (b.s - a.s) / (t * t), -2.0 * s_e / (t * t * t), (b.z - a.z) / t, -z * t / (t * t);
  Local made;
  for (int m = 0; m < space.ray_order; ++m)
    for (int k = 0; k <= space.order; ++k)
    {
      const double c = coefficients[gather.index[m * (space.order + 1) + k]];
      made.value += c * along.value[k] * out.value[m];
      made.slope +=
          c * Eigen::Vector2d{along.slope[k] * out.value[m], along.value[k] * out.slope[m]};
    }
  made.slope = J.transpose().inverse() * made.slope;
  return made;
}

Local within(const Space& space, int triangle, const std::array<double, 3>& lambda,
             const Eigen::VectorXd& coefficients)
{
  const mesh::ElementMap::Place place =
      mesh::element_map(space.mesh, space.bends, triangle).at(lambda);
  const ShapeValues shapes = triangle_shapes(space.order, lambda);
  const Gather gather = triangle_gather(space, triangle);
  Local made;
  for (std::size_t i = 0; i < gather.index.size(); ++i)
  {
    const auto row = static_cast<Eigen::Index>(i);
    const double c = gather.sign[i] * coefficients[gather.index[i]];
    made.value += c * shapes.value[row];
    made.slope += c * Eigen::Vector2d{shapes.d1[row], shapes.d2[row]};
  }
  made.slope = place.jacobian.transpose().inverse() * made.slope;
  return made;
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

DrivenField driven_field(const Solution& solution, const Eigen::VectorXd& currents)
{
  Source all = combined(solution.sources, currents);
  return {solution.flux * currents, solution.potential * currents, std::move(all.offset),
          std::move(all.ampere_turns), all.background};
}

FieldPoints::FieldPoints(int order, std::vector<std::array<double, 3>> lambda)
    : _lambda(std::move(lambda)), _shapes(shape_table(order, _lambda))
{
}

std::vector<FieldPoint> FieldPoints::in(const Solution& solution, const DrivenField& driven,
                                        int triangle) const
{
  const Space& space = solution.space;
  const mesh::Triangle& t = space.mesh.triangles[triangle];
  const mesh::ElementMap map = mesh::element_map(space.mesh, space.bends, triangle);
  const Gather gather = triangle_gather(space, triangle);
  const Eigen::VectorXd psi = gathered(gather, driven.flux);
  Eigen::VectorXd phi = gathered(gather, driven.potential);
  phi.head<3>() += driven.offset[triangle];
  const Eigen::VectorXd value = _shapes.value.transpose() * psi;
  const Eigen::VectorXd psi_1 = _shapes.d1.transpose() * psi, psi_2 = _shapes.d2.transpose() * psi;
  const Eigen::VectorXd phi_1 = _shapes.d1.transpose() * phi, phi_2 = _shapes.d2.transpose() * phi;
  std::vector<FieldPoint> made;
  made.reserve(_lambda.size());
  for (std::size_t i = 0; i < _lambda.size(); ++i)
  {
    const auto q = static_cast<Eigen::Index>(i);
    const mesh::ElementMap::Place place = map.at(_lambda[i]);
    const Eigen::Matrix2d slopes = place.jacobian.transpose().inverse();
    const double s = std::max(0.0, place.point[0]);
    Eigen::Vector2d h = -slopes * Eigen::Vector2d{phi_1[q], phi_2[q]};
    if (t.conductor >= 0 && driven.ampere_turns[t.conductor] != 0.0)
      h += section_field(solution.layout.conductors[t.conductor], driven.ampere_turns[t.conductor],
                         s, place.point[1]);
    made.push_back(mean_field({value[q], slopes * Eigen::Vector2d{psi_1[q], psi_2[q]}}, h, s,
                              driven.background, solution.permeability[t.region], t.region));
  }
  return made;
}

FieldPoint field_in(const Solution& solution, const DrivenField& driven, int triangle,
                    const std::array<double, 3>& lambda)
{
  return FieldPoints(solution.space.order, {lambda}).in(solution, driven, triangle).front();
}

Place locate(const Space& space, mesh::Point point)
{
  const mesh::Box& box = space.mesh.box;
  if (point.r > box.radius || std::abs(point.z - box.middle) > box.half_height)
    return beyond_box(space, point);
  const Eigen::Vector2d target{point.r * point.r, point.z};
  Place made;
  made.triangle = 0;
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
    made.triangle = static_cast<int>(k);
    made.lambda = lambda;
  }
  return made;
}

FluxPoint flux_at(const Space& space, const Place& place, mesh::Point point,
                  const Eigen::VectorXd& flux)
{
  const Local psi = place.triangle >= 0 ? within(space, place.triangle, place.lambda, flux)
                                        : beyond_box(space, place, point, flux);
  FluxPoint made;
  made.flux = 2.0 * std::numbers::pi * psi.value;
  made.B_r = point.r > 0.0 ? -psi.slope[1] / point.r : 0.0;
  made.B_z = 2.0 * psi.slope[0];
  return made;
}

FieldPoint field_at(const Solution& solution, const DrivenField& driven, mesh::Point point)
{
  const Space& space = solution.space;
  const mesh::Box& box = space.mesh.box;
  if (box.halved && point.z < box.middle)
  {
    FieldPoint image = field_at(solution, driven, {point.r, 2.0 * box.middle - point.z});
    image.B_r = -image.B_r;
    image.H_r = -image.H_r;
    return image;
  }
  const Place place = locate(space, point);
  if (place.triangle < 0)
    return mean_field(beyond_box(space, place, point, driven.flux),
                      -beyond_box(space, place, point, driven.potential).slope, point.r * point.r,
                      driven.background, 1.0, 0);
  FieldPoint found = field_in(solution, driven, place.triangle, place.lambda);
  if (point.r ==
      0.0) // by symmetry; dividing by the root of what round-off leaves of s tells nothing
    found.flux = found.B_r = found.H_r = 0.0;
  return found;
}

} // namespace solver
