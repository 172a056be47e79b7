// Element tables by collapsed Gauss rules; matrices as weighted products of them.
#include "solver/form.hpp"

#include "solver/quadrature.hpp"
#include "solver/shapes.hpp"

#include <Eigen/LU>

#include <algorithm>
#include <cmath>
#include <map>
#include <mutex>
#include <numbers>
#include <tuple>

namespace solver
{

namespace
{

/// Reference shape functions at a rule's points, kept: they depend on order and rule only.
struct Reference
{
  TriangleRule rule;
  Eigen::MatrixXd value, d1, d2;
};

const Reference& reference(int p, int n, int corner)
{
  static std::map<std::tuple<int, int, int>, Reference> kept;
  static std::mutex guard;
  const std::lock_guard lock(guard);
  auto [it, fresh] = kept.try_emplace({p, n, corner});
  Reference& made = it->second;
  if (!fresh)
    return made;
  made.rule = triangle_rule(n, corner);
  const auto count = static_cast<Eigen::Index>(made.rule.points.size());
  made.value.resize(triangle_shape_count(p), count);
  made.d1 = made.d2 = made.value;
  for (Eigen::Index i = 0; i < count; ++i)
  {
    const ShapeValues shapes = triangle_shapes(p, made.rule.points[i]);
    made.value.col(i) = shapes.value;
    made.d1.col(i) = shapes.d1;
    made.d2.col(i) = shapes.d2;
  }
  return made;
}

/// Extra Gauss points for an analytic function whose pole lies as far as that of 1/s on an interval
/// with this ratio of ends: the error falls as rho^(-2n) [Trefethen 2008].
int extra_points(double ratio, Care care)
{
  const double root = std::sqrt(ratio);
  if (root < 1.0 + 1e-9)
    return 0;
  const double digits = care == Care::bracketing ? 34.0 : 14.0; // ln of the reduction wanted
  const double rho = (root + 1.0) / (root - 1.0);
  const int most = care == Care::bracketing ? 60 : 12;
  return std::min(most, static_cast<int>(std::ceil(digits / (2.0 * std::log(rho)))));
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

int rule_size(const mesh::ElementMap& map, int p, int corner, Care care)
{
  double low = std::numeric_limits<double>::infinity(), high = 0.0;
  int axis = 0;
  for (int i = 0; i < 3; ++i)
  {
    const double s = map.corners[i][0];
    high = std::max(high, s);
    if (s > 0.0)
      low = std::min(low, s);
    else
      ++axis;
  }
  (void)corner;
  const int bent = map.straight() ? 0 : (care == Care::bracketing ? 10 : 4);
  const int curved = axis == 2 ? 0 : extra_points(high / low, care);
  return p + 1 + bent + curved;
}

} // namespace

ElementTable triangle_table(const Space& space, int triangle, Care care)
{
  const mesh::ElementMap map = mesh::element_map(space.mesh, space.bends, triangle);
  const int corner = collapse_corner(map);
  const Reference& ref = reference(space.order, rule_size(map, space.order, corner, care), corner);
  ElementTable table;
  table.value = ref.value;
  table.d_s.resizeLike(ref.value);
  table.d_z.resizeLike(ref.value);
  const bool straight = map.straight();
  mesh::ElementMap::Place place = map.at(ref.rule.points[0]);
  for (std::size_t i = 0; i < ref.rule.points.size(); ++i)
  {
    const auto& lambda = ref.rule.points[i];
    if (straight)
      place.point =
          lambda[0] * map.corners[0] + lambda[1] * map.corners[1] + lambda[2] * map.corners[2];
    else
      place = map.at(lambda);
    const Eigen::Matrix2d& J = place.jacobian;
    const double det = J.determinant();
    if (!(det > 0.0))
      throw FoldedElement();
    const auto c = static_cast<Eigen::Index>(i);
    table.d_s.col(c) = (J(1, 1) / det) * ref.d1.col(c) - (J(1, 0) / det) * ref.d2.col(c);
    table.d_z.col(c) = (J(0, 0) / det) * ref.d2.col(c) - (J(0, 1) / det) * ref.d1.col(c);
    table.points.push_back(
        {place.point[0], place.point[1], ref.rule.weights[i] * det, static_cast<int>(i)});
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
  const LineRule& across = line_rule(p + 2 + extra_points(ratio, care));
  const LineRule& outward = line_rule(q + 2);
  ElementTable table;
  const auto count = static_cast<Eigen::Index>(across.points.size() * outward.points.size());
  table.value.resize((p + 1) * q, count);
  table.d_s.resizeLike(table.value);
  table.d_z.resizeLike(table.value);
  const double zm = space.mesh.box.middle;
  int column = 0;
  for (std::size_t i = 0; i < across.points.size(); ++i)
    for (std::size_t j = 0; j < outward.points.size(); ++j, ++column)
    {
      const double y = across.points[i], t = outward.points[j];
      const LineShapes along = edge_shapes(p, y), out = ray_shapes(q, t);
      // s = s_e / t^2, z - zm = z_e / t on the ray through the edge point (s_e, z_e).
      const double s_e = a.s + y * (b.s - a.s), z_e = a.z + y * (b.z - a.z) - zm;
      Eigen::Matrix2d J; // columns d/dy, d/dt of (s, z)
      J << (b.s - a.s) / (t * t), -2.0 * s_e / (t * t * t), (b.z - a.z) / t, -z_e / (t * t);
      const double det = J.determinant();
      for (int m = 0; m < q; ++m)
        for (int k = 0; k <= p; ++k)
        {
          const double by_y = along.slope[k] * out.value[m], by_t = along.value[k] * out.slope[m];
          const int row = m * (p + 1) + k;
          table.value(row, column) = along.value[k] * out.value[m];
          table.d_s(row, column) = (J(1, 1) * by_y - J(1, 0) * by_t) / det;
          table.d_z(row, column) = (J(0, 0) * by_t - J(0, 1) * by_y) / det;
        }
      table.points.push_back({s_e / (t * t), zm + z_e / t,
                              across.weights[i] * outward.weights[j] * std::abs(det), column});
    }
  return table;
}

Eigen::MatrixXd element_matrix(const ElementTable& table, Weight weight)
{
  Eigen::VectorXd w_s(table.points.size()), w_z(table.points.size());
  for (std::size_t i = 0; i < table.points.size(); ++i)
  {
    const ElementPoint& x = table.points[i];
    const double w = 2.0 * std::numbers::pi * x.weight;
    w_s[i] = std::sqrt(weight == Weight::over_r ? 2.0 * w : 2.0 * w * x.s);
    w_z[i] = std::sqrt(weight == Weight::over_r ? w / (2.0 * x.s) : 0.5 * w);
  }
  Eigen::MatrixXd K = Eigen::MatrixXd::Zero(table.value.rows(), table.value.rows());
  const Eigen::MatrixXd G_s = table.d_s * w_s.asDiagonal(), G_z = table.d_z * w_z.asDiagonal();
  K.selfadjointView<Eigen::Lower>().rankUpdate(G_s);
  K.selfadjointView<Eigen::Lower>().rankUpdate(G_z);
  K.triangularView<Eigen::StrictlyUpper>() = K.transpose();
  return K;
}

} // namespace solver
