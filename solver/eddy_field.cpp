// Cone fields of all density functions at an element's points, their far traces made constant.
#include "solver/eddy_field.hpp"

#include "solver/quadrature.hpp"
#include "solver/shapes.hpp"

#include <Eigen/Cholesky>
#include <Eigen/LU>
#include <Eigen/QR>

#include <cmath>
#include <map>
#include <mutex>

namespace solver
{

namespace
{

int order_of(const ShapeTable& shapes)
{
  int p = 1;
  while (triangle_shape_count(p) < shapes.value.rows())
    ++p;
  return p;
}

/// int_0^1 t N_i(t lambda) dt, the cone from vertex 0.
Eigen::VectorXd cone(int p, double l1, double l2)
{
  const LineRule& rule = line_rule(p / 2 + 2);
  Eigen::VectorXd sum = Eigen::VectorXd::Zero(triangle_shape_count(p));
  for (std::size_t i = 0; i < rule.points.size(); ++i)
  {
    const double t = rule.points[i];
    sum += rule.weights[i] * t * triangle_shapes(p, {1.0 - t * (l1 + l2), t * l1, t * l2}).value;
  }
  return sum;
}

/// Edge functions of degree 2..p+1 on edge (1, 2) that take each trace's mean-free part:
/// functions by densities.
Eigen::MatrixXd edge_parts(int p, const Eigen::VectorXd& integral)
{
  const LineRule& rule = line_rule(p + 2);
  const auto n = static_cast<Eigen::Index>(rule.points.size());
  Eigen::MatrixXd slopes(n, p), traces(n, integral.size());
  for (Eigen::Index i = 0; i < n; ++i)
  {
    const double t = rule.points[static_cast<std::size_t>(i)];
    slopes.row(i) = edge_shapes(p + 1, t).slope.tail(p).transpose();
    traces.row(i) = (cone(p, 1.0 - t, t) - integral).transpose();
  }
  return slopes.colPivHouseholderQr().solve(traces);
}

EddyTable computed(const ShapeTable& shapes)
{
  const int p = order_of(shapes);
  const Eigen::Index count = shapes.value.rows(), points = shapes.value.cols();
  EddyTable made;
  made.integral = Eigen::VectorXd::Zero(count);
  Eigen::MatrixXd mass = Eigen::MatrixXd::Zero(count, count);
  const TriangleRule rule = triangle_rule(p + 1, p + 1, 0);
  for (std::size_t i = 0; i < rule.points.size(); ++i)
  {
    const Eigen::VectorXd N = triangle_shapes(p, rule.points[i]).value;
    made.integral += rule.weights[i] * N;
    mass += rule.weights[i] * N * N.transpose();
  }
  made.inverse_mass = mass.ldlt().solve(Eigen::MatrixXd::Identity(count, count));
  const Eigen::MatrixXd parts = edge_parts(p, made.integral);
  made.E_1.resize(count, points);
  made.E_2.resize(count, points);
  for (Eigen::Index c = 0; c < points; ++c)
  {
    const double l1 = shapes.value(1, c), l2 = shapes.value(2, c); // the vertex functions
    const Eigen::VectorXd G = cone(p, l1, l2);
    const ShapeValues finer = triangle_shapes(p + 1, {1.0 - l1 - l2, l1, l2});
    const Eigen::Index first = 3 + p; // of edge (1, 2)
    made.E_1.col(c) = -l2 * G - parts.transpose() * finer.d1.segment(first, p);
    made.E_2.col(c) = l1 * G - parts.transpose() * finer.d2.segment(first, p);
  }
  return made;
}

} // namespace

const EddyTable& eddy_table(const ElementTable& table)
{
  static std::map<const ShapeTable*, EddyTable> kept;
  static std::mutex guard;
  const std::lock_guard lock(guard);
  const auto found = kept.find(table.shapes);
  return found != kept.end() ? found->second
                             : kept.emplace(table.shapes, computed(*table.shapes)).first->second;
}

Eigen::MatrixXcd density_coefficients(const ElementTable& table, const Eigen::MatrixXcd& density)
{
  Eigen::VectorXd w(table.points.size());
  for (std::size_t i = 0; i < table.points.size(); ++i) // weights without the Jacobian
    w[static_cast<Eigen::Index>(i)] =
        table.points[i].weight * table.points[i].gradient.determinant();
  w *= 0.5 / w.sum(); // of the reference triangle, however often the element counts
  return eddy_table(table).inverse_mass * (table.shapes->value * (w.asDiagonal() * density));
}

} // namespace solver
