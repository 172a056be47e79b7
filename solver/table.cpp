// Rules chosen by how fast 1/s varies over an element; tables kept by order, size and corner.
#include "solver/table.hpp"

#include "solver/shapes.hpp"

#include <Eigen/LU>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <mutex>
#include <tuple>

namespace solver
{

namespace
{

/// Extra Gauss points for an analytic function whose pole lies as far as that of 1/s on an interval
/// with this ratio of ends: the error falls as rho^(-2n) [Trefethen 2008]. Solving needs less: any
/// field is admissible, and its own error enters the bounds squared.
int extra_points(double ratio, Care care)
{
  const double root = std::sqrt(ratio);
  if (root < 1.0 + 1e-9)
    return 0;
  const double reduction = care == Care::bracketing ? 34.0 : 12.0; // natural logarithm
  const double rho = (root + 1.0) / (root - 1.0);
  const int most = care == Care::bracketing ? 60 : 12;
  return std::min(most, static_cast<int>(std::ceil(reduction / (2.0 * std::log(rho)))));
}

/// The vertex to collapse the rule at: one on the axis alone, or where a bent element closes up,
/// else the one nearest to the axis.
int collapse_corner(const mesh::ElementMap& map)
{
  int axis = -1, on_axis = 0, nearest = 0, sharpest = 0;
  double least = std::numeric_limits<double>::infinity();
  for (int i = 0; i < 3; ++i)
  {
    if (map.corners[i][0] == 0.0)
    {
      axis = i;
      ++on_axis;
    }
    if (map.corners[i][0] < map.corners[nearest][0])
      nearest = i;
    if (map.straight())
      continue;
    std::array<double, 3> lambda{};
    lambda[i] = 1.0;
    const double J = map.at(lambda).jacobian.determinant();
    if (J < least)
    {
      least = J;
      sharpest = i;
    }
  }
  if (on_axis == 1)
    return axis;
  return map.straight() ? nearest : sharpest;
}

int rule_size(const mesh::ElementMap& map, int p, Care care)
{
  double low = std::numeric_limits<double>::infinity(), high = 0.0;
  int on_axis = 0;
  for (const Eigen::Vector2d& corner : map.corners)
  {
    high = std::max(high, corner[0]);
    if (corner[0] > 0.0)
      low = std::min(low, corner[0]);
    else
      ++on_axis;
  }
  const int bent = map.straight() ? 0 : (care == Care::bracketing ? 10 : 4);
  return p + 1 + bent + (on_axis == 2 ? 0 : extra_points(high / low, care));
}

/// Ray element: edge functions by ray functions, at n_y x n_t points.
const ReferencePoints& ray_points(int p, int q, int n_y, int n_t)
{
  static std::map<std::tuple<int, int, int, int>, ReferencePoints> kept;
  static std::mutex guard;
  const std::lock_guard lock(guard);
  auto [it, fresh] = kept.try_emplace({p, q, n_y, n_t});
  ReferencePoints& made = it->second;
  if (!fresh)
    return made;
  const LineRule &across = line_rule(n_y), &outward = line_rule(n_t);
  made.shapes.value.resize(Eigen::Index{p + 1} * q, Eigen::Index{n_y} * n_t);
  made.shapes.d1 = made.shapes.d2 = made.shapes.value;
  for (int i = 0, column = 0; i < n_y; ++i)
    for (int j = 0; j < n_t; ++j, ++column)
    {
      const LineShapes along = edge_shapes(p, across.points[i]);
      const LineShapes out = ray_shapes(q, outward.points[j]);
      made.rule.points.push_back({across.points[i], outward.points[j], 0.0});
      made.rule.weights.push_back(across.weights[i] * outward.weights[j]);
      for (int m = 0; m < q; ++m)
      {
        const int row = m * (p + 1);
        made.shapes.value.col(column).segment(row, p + 1) = along.value * out.value[m];
        made.shapes.d1.col(column).segment(row, p + 1) = along.slope * out.value[m];
        made.shapes.d2.col(column).segment(row, p + 1) = along.value * out.slope[m];
      }
    }
  return made;
}

Eigen::Matrix2d gradient_rows(const Eigen::Matrix2d& J, double det)
{
  Eigen::Matrix2d rows;
  rows << J(1, 1) / det, -J(1, 0) / det, -J(0, 1) / det, J(0, 0) / det;
  return rows;
}

} // namespace

const ReferencePoints& reference_points(int p, int n, int corner)
{
  static std::map<std::tuple<int, int, int>, ReferencePoints> kept;
  static std::mutex guard;
  const std::lock_guard lock(guard);
  auto [it, fresh] = kept.try_emplace({p, n, corner});
  ReferencePoints& made = it->second;
  if (!fresh)
    return made;
  made.rule = triangle_rule(n, corner);
  const auto count = static_cast<Eigen::Index>(made.rule.points.size());
  made.shapes.value.resize(triangle_shape_count(p), count);
  made.shapes.d1 = made.shapes.d2 = made.shapes.value;
  for (Eigen::Index i = 0; i < count; ++i)
  {
    const ShapeValues shapes = triangle_shapes(p, made.rule.points[i]);
    made.shapes.value.col(i) = shapes.value;
    made.shapes.d1.col(i) = shapes.d1;
    made.shapes.d2.col(i) = shapes.d2;
  }
  return made;
}

StraightGradient straight_gradient(const mesh::ElementMap& map)
{
  Eigen::Matrix2d J;
  J << map.corners[1] - map.corners[0], map.corners[2] - map.corners[0];
  const double det = J.determinant();
  if (!(det > 0.0))
    throw FoldedElement();
  return {gradient_rows(J, det), det};
}

ElementTable triangle_table(const Space& space, int triangle, Care care)
{
  const mesh::ElementMap map = mesh::element_map(space.mesh, space.bends, triangle);
  const ReferencePoints& at =
      reference_points(space.order, rule_size(map, space.order, care), collapse_corner(map));
  ElementTable table{&at.shapes, {}};
  table.points.reserve(at.rule.points.size());
  const bool straight = map.straight();
  const StraightGradient fixed = straight ? straight_gradient(map) : StraightGradient{};
  for (std::size_t i = 0; i < at.rule.points.size(); ++i)
  {
    const auto& lambda = at.rule.points[i];
    if (straight)
    {
      const Eigen::Vector2d x =
          lambda[0] * map.corners[0] + lambda[1] * map.corners[1] + lambda[2] * map.corners[2];
      table.points.push_back({x[0], x[1], at.rule.weights[i] * fixed.determinant, fixed.gradient});
      continue;
    }
    const mesh::ElementMap::Place place = map.at(lambda);
    const double det = place.jacobian.determinant();
    if (!(det > 0.0))
      throw FoldedElement();
    table.points.push_back({place.point[0], place.point[1], at.rule.weights[i] * det,
                            gradient_rows(place.jacobian, det)});
  }
  return table;
}

ElementTable exterior_table(const Space& space, int exterior, Care care)
{
  const int p = space.order, q = space.ray_order;
  const mesh::Edge e = space.exteriors[exterior].edge;
  const mesh::Vertex &a = space.mesh.vertices[e.a], &b = space.mesh.vertices[e.b];
  const bool on_axis = mesh::on_axis(a) || mesh::on_axis(b);
  const double ratio = on_axis ? 1.0 : std::max(a.s, b.s) / std::min(a.s, b.s);
  const ReferencePoints& at = ray_points(p, q, p + 2 + extra_points(ratio, care), q + 2);
  ElementTable table{&at.shapes, {}};
  const double middle = space.mesh.box.middle;
  for (std::size_t i = 0; i < at.rule.points.size(); ++i)
  {
    const double y = at.rule.points[i][0], t = at.rule.points[i][1];
    // s = s_e / t^2, z - middle = z_e / t on the ray through the edge point (s_e, z_e).
    const double s_e = a.s + y * (b.s - a.s), z_e = a.z + y * (b.z - a.z) - middle;
    Eigen::Matrix2d J; // columns d/dy, d/dt of (s, z)
    J << (b.s - a.s) / (t * t), -2.0 * s_e / (t * t * t), (b.z - a.z) / t, -z_e / (t * t);
    const double det = J.determinant();
    table.points.push_back({s_e / (t * t), middle + z_e / t, at.rule.weights[i] * std::abs(det),
                            gradient_rows(J, det)});
  }
  return table;
}

} // namespace solver
