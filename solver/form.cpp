// Element matrices: straight triangles from matrices computed once an order, all else by points.
#include "solver/form.hpp"

#include "solver/shapes.hpp"
#include "solver/table.hpp"

#include <cmath>
#include <map>
#include <mutex>
#include <numbers>

namespace solver
{

namespace
{

/// M[a][k] = int lambda_a d_i d_j over the reference triangle; k = 0: 11, 1: 12 + 21, 2: 22.
struct ReferenceMatrices
{
  std::array<std::array<Eigen::MatrixXd, 3>, 3> weighted;
  std::array<Eigen::MatrixXd, 3> plain;
};

ReferenceMatrices computed(int p)
{
  ReferenceMatrices made;
  const ReferencePoints& at = reference_points(p, p + 2, p + 2, 0);
  for (std::size_t a = 0; a < 3; ++a)
  {
    Eigen::VectorXd w(at.rule.points.size());
    for (std::size_t i = 0; i < at.rule.points.size(); ++i)
      w[i] = at.rule.weights[i] * at.rule.points[i][a];
    const Eigen::MatrixXd d1 = at.shapes.d1 * w.asDiagonal(), d2 = at.shapes.d2 * w.asDiagonal();
    made.weighted[a][0] = d1 * at.shapes.d1.transpose();
    const Eigen::MatrixXd mixed = d1 * at.shapes.d2.transpose();
    made.weighted[a][1] = mixed + mixed.transpose();
    made.weighted[a][2] = d2 * at.shapes.d2.transpose();
  }
  for (int k = 0; k < 3; ++k)
    made.plain[k] = made.weighted[0][k] + made.weighted[1][k] + made.weighted[2][k];
  return made;
}

const ReferenceMatrices& reference_matrices(int p)
{
  static std::map<int, ReferenceMatrices> kept;
  static std::mutex guard;
  const std::lock_guard lock(guard);
  const auto found = kept.find(p);
  return found != kept.end() ? found->second : kept.emplace(p, computed(p)).first->second;
}

/// int w_s u_s v_s + w_z u_z v_z by points; a null weight leaves its part out.
Eigen::MatrixXd by_points(const ElementTable& table, Weight weight, bool s_part)
{
  const auto count = static_cast<Eigen::Index>(table.points.size());
  const ShapeTable& shapes = *table.shapes;
  Eigen::MatrixXd G(shapes.value.rows(), s_part ? 2 * count : count);
  for (Eigen::Index i = 0; i < count; ++i)
  {
    const ElementPoint& x = table.points[i];
    const double w = 2.0 * std::numbers::pi * x.weight;
    const double w_z = std::sqrt(weight == Weight::over_r ? w / (2.0 * x.s) : 0.5 * w);
    G.col(i) =
        (w_z * x.gradient(1, 0)) * shapes.d1.col(i) + (w_z * x.gradient(1, 1)) * shapes.d2.col(i);
    if (!s_part)
      continue;
    const double w_s = std::sqrt(weight == Weight::over_r ? 2.0 * w : 2.0 * w * x.s);
    G.col(count + i) =
        (w_s * x.gradient(0, 0)) * shapes.d1.col(i) + (w_s * x.gradient(0, 1)) * shapes.d2.col(i);
  }
  Eigen::MatrixXd K = Eigen::MatrixXd::Zero(G.rows(), G.rows());
  K.selfadjointView<Eigen::Lower>().rankUpdate(G);
  K.triangularView<Eigen::StrictlyUpper>() = K.transpose();
  return K;
}

/// sum over 11, 12, 22 of the products of one gradient row.
Eigen::MatrixXd combined(const std::array<Eigen::MatrixXd, 3>& M, double scale,
                         const Eigen::RowVector2d& g)
{
  return (scale * g[0] * g[0]) * M[0] + (scale * g[0] * g[1]) * M[1] + (scale * g[1] * g[1]) * M[2];
}

} // namespace

ElementTable::Gradients ElementTable::gradients(const Eigen::MatrixXd& coefficients) const
{
  const Eigen::Index fields = coefficients.cols(), count = shapes->d1.cols();
  constexpr Eigen::Index few = 4; // vectors one by one are faster than a product of matrices then
  Gradients made{Eigen::MatrixXd(fields, count), Eigen::MatrixXd(fields, count)};
  for (Eigen::Index j = 0; j < fields && fields <= few; ++j)
  {
    made.d_s.row(j).transpose().noalias() = shapes->d1.transpose() * coefficients.col(j);
    made.d_z.row(j).transpose().noalias() = shapes->d2.transpose() * coefficients.col(j);
  }
  if (fields > few)
  {
    made.d_s.noalias() = coefficients.transpose() * shapes->d1;
    made.d_z.noalias() = coefficients.transpose() * shapes->d2;
  }
  for (Eigen::Index c = 0; c < made.d_s.cols(); ++c)
  {
    const Eigen::Matrix2d& g = points[c].gradient;
    for (Eigen::Index j = 0; j < made.d_s.rows(); ++j)
    {
      const double by_1 = made.d_s(j, c), by_2 = made.d_z(j, c);
      made.d_s(j, c) = g(0, 0) * by_1 + g(0, 1) * by_2;
      made.d_z(j, c) = g(1, 0) * by_1 + g(1, 1) * by_2;
    }
  }
  return made;
}

Eigen::VectorXd ElementTable::tested(const Eigen::VectorXd& a, const Eigen::VectorXd& b) const
{
  Eigen::VectorXd by_1(a.size()), by_2(a.size());
  for (Eigen::Index i = 0; i < a.size(); ++i)
  {
    const Eigen::Matrix2d& g = points[i].gradient;
    by_1[i] = g(0, 0) * a[i] + g(1, 0) * b[i];
    by_2[i] = g(0, 1) * a[i] + g(1, 1) * b[i];
  }
  return shapes->d1 * by_1 + shapes->d2 * by_2;
}

Eigen::MatrixXd triangle_matrix(const Space& space, int triangle, Weight weight)
{
  const mesh::ElementMap map = mesh::element_map(space.mesh, space.bends, triangle);
  if (!map.straight())
    return by_points(triangle_table(space, triangle, Care::solving), weight, true);
  const ReferenceMatrices& M = reference_matrices(space.order);
  const StraightGradient at = straight_gradient(map);
  const double w = 2.0 * std::numbers::pi * images(space) * at.determinant;
  if (weight == Weight::over_r)
  {
    Eigen::MatrixXd K = by_points(triangle_table(space, triangle, Care::slopes), weight, false);
    K += combined(M.plain, 2.0 * w, at.gradient.row(0));
    return K;
  }
  Eigen::MatrixXd K = combined(M.plain, 0.5 * w, at.gradient.row(1));
  for (std::size_t a = 0; a < 3; ++a)
    if (map.corners[a][0] > 0.0)
      K += combined(M.weighted[a], 2.0 * w * map.corners[a][0], at.gradient.row(0));
  return K;
}

Eigen::MatrixXd triangle_reaction(const Space& space, int triangle)
{
  const ElementTable table = triangle_table(space, triangle, Care::solving);
  Eigen::VectorXd w(table.points.size());
  for (std::size_t i = 0; i < table.points.size(); ++i)
    w[static_cast<Eigen::Index>(i)] = std::numbers::pi * table.points[i].weight / table.points[i].s;
  return table.shapes->value * w.asDiagonal() * table.shapes->value.transpose();
}

Eigen::MatrixXd exterior_matrix(const Space& space, int exterior, Weight weight)
{
  return by_points(exterior_table(space, exterior, Care::solving), weight, true);
}

} // namespace solver
