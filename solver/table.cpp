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
/// field is admissible, and its own error enters the bounds squared. Large tables are shared:
/// rounded up.
int extra_points(double ratio, Care care)
{
  const double root = std::sqrt(ratio);
  if (root < 1.0 + 1e-9)
    return 0;
  const double reduction = care == Care::bracketing ? 34.0 : 12.0; // natural logarithm
  const double rho = (root + 1.0) / (root - 1.0);
  const int most = care == Care::bracketing ? 60 : 12;
  const double wanted = std::ceil(reduction / (2.0 * std::log(rho)));
  if (care != Care::bracketing)
    return std::min(most, static_cast<int>(wanted));
  for (const int count : {2, 4, 6, 8, 10, 12, 15, 18, 22, 27, 33, 40, 50})
    if (wanted <= count)
      return std::min(most, count);
  return most;
}

double ratio(double a, double b)
{
  return std::max(a, b) / std::min(a, b);
}

/// The vertex where a bent element closes up.
int sharpest_corner(const mesh::ElementMap& map)
{
  int sharpest = 0;
  double least = std::numeric_limits<double>::infinity();
  for (int i = 0; i < 3; ++i)
  {
    std::array<double, 3> lambda{};
    lambda[i] = 1.0;
    const double J = map.at(lambda).jacobian.determinant();
    if (J < least)
    {
      least = J;
      sharpest = i;
    }
  }
  return sharpest;
}

/// How to place an element's points, see triangle_rule().
struct Rule
{
  int outward = 0;
  int across = 0;
  int corner = 0;
};

/// With vertices on the axis collapsed there, where the unknown vanishes as s does; else at the
/// vertex that leaves 1/s the least to vary across, or where a bent element closes up.
Rule rule(const mesh::ElementMap& map, int p, Care care)
{
  const int base = care == Care::slopes ? p : p + 1;
  std::array<double, 3> s{};
  int axis = -1, on_axis = 0;
  double low = std::numeric_limits<double>::infinity(), high = 0.0;
  for (int i = 0; i < 3; ++i)
  {
    s[i] = map.corners[i][0];
    high = std::max(high, s[i]);
    if (s[i] > 0.0)
      low = std::min(low, s[i]);
    else
      ++on_axis;
    if (s[i] == 0.0 && axis < 0)
      axis = i;
  }
  if (!map.straight())
  {
    const int bent = care == Care::bracketing ? 10 : 4;
    const int n = base + bent + (on_axis == 2 ? 0 : extra_points(high / low, care));
    return {n, n, on_axis == 1 ? axis : sharpest_corner(map)};
  }
  if (on_axis == 2)
    return {base, base, axis};
  if (on_axis == 1)
    return {base, base + extra_points(high / low, care), axis};
  int corner = 0;
  double across = std::numeric_limits<double>::infinity();
  for (int i = 0; i < 3; ++i)
    if (const double opposite = ratio(s[(i + 1) % 3], s[(i + 2) % 3]); opposite < across)
    {
      across = opposite;
      corner = i;
    }
  return {base + extra_points(high / low, care), base + extra_points(across, care), corner};
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

ShapeTable shape_table(int p, const std::vector<std::array<double, 3>>& points)
{
  ShapeTable made;
  const auto count = static_cast<Eigen::Index>(points.size());
  made.value.resize(triangle_shape_count(p), count);
  made.d1 = made.d2 = made.value;
  for (Eigen::Index i = 0; i < count; ++i)
    triangle_shapes(p, points[i], made.value.col(i), made.d1.col(i), made.d2.col(i));
  return made;
}

const ReferencePoints& reference_points(int p, int outward, int across, int corner)
{
  struct Entry
  {
    std::once_flag once;
    ReferencePoints points;
  };
  static std::map<std::array<int, 4>, Entry> kept;
  static std::mutex guard;
  std::unique_lock lock(guard);
  Entry& entry = kept[{p, outward, across, corner}];
  lock.unlock(); // others look theirs up while this one is worked out
  std::call_once(entry.once,
                 [&]
                 {
                   entry.points.rule = triangle_rule(outward, across, corner);
                   entry.points.shapes = shape_table(p, entry.points.rule.points);
                 });
  return entry.points;
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

/// An element of a halved mesh stands for its mirror image too.
double images(const Space& space)
{
  return space.mesh.box.halved ? 2.0 : 1.0;
}

ElementTable triangle_table(const Space& space, int triangle, Care care)
{
  const mesh::ElementMap map = mesh::element_map(space.mesh, space.bends, triangle);
  const Rule placed = rule(map, space.order, care);
  const ReferencePoints& at =
      reference_points(space.order, placed.outward, placed.across, placed.corner);
  ElementTable table{&at.shapes, {}};
  table.points.reserve(at.rule.points.size());
  const bool straight = map.straight();
  const StraightGradient fixed = straight ? straight_gradient(map) : StraightGradient{};
  const double copies = images(space);
  for (std::size_t i = 0; i < at.rule.points.size(); ++i)
  {
    const auto& lambda = at.rule.points[i];
    if (straight)
    {
      const Eigen::Vector2d x =
          lambda[0] * map.corners[0] + lambda[1] * map.corners[1] + lambda[2] * map.corners[2];
      table.points.push_back(
          {x[0], x[1], copies * at.rule.weights[i] * fixed.determinant, fixed.gradient});
      continue;
    }
    const mesh::ElementMap::Place place = map.at(lambda);
    const double det = place.jacobian.determinant();
    if (!(det > 0.0))
      throw FoldedElement();
    table.points.push_back({place.point[0], place.point[1], copies * at.rule.weights[i] * det,
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
    table.points.push_back({s_e / (t * t), middle + z_e / t,
                            images(space) * at.rule.weights[i] * std::abs(det),
                            gradient_rows(J, det)});
  }
  return table;
}

} // namespace solver
