// Hierarchic shape functions of any order: on the triangle, on its edges, and along outward rays.
//
// Order within a triangle: 3 vertices; edges (0,1), (1,2), (2,0) with degrees 2..p each; bubbles.
// Along an edge the traces are (1 - t), t and t (1 - t) kernel(k, 2 t - 1), so that triangles and
// exterior elements match [Szabo-Babuska 1991].
#pragma once

#include <Eigen/Core>

namespace solver
{

inline int triangle_shape_count(int p)
{
  return (p + 1) * (p + 2) / 2;
}
inline int bubble_count(int p)
{
  return (p - 1) * (p - 2) / 2;
}

/// @brief Kernel of the edge function of degree k >= 2 at x in [-1, 1], and its derivative;
///        (-1)^k symmetric.
struct Kernel
{
  double value = 0.0;
  double slope = 0.0;
};
Kernel kernel(int k, double x);

/// @brief Values and derivatives at one point; derivatives in lambda_1 and lambda_2, with
///        lambda_0 = 1 - lambda_1 - lambda_2.
struct ShapeValues
{
  Eigen::VectorXd value;
  Eigen::VectorXd d1;
  Eigen::VectorXd d2;
};
/// @throws std::invalid_argument for an order below 1 or beyond 32, as all functions here.
ShapeValues triangle_shapes(int p, const std::array<double, 3>& lambda);
/// @brief The same into vectors of triangle_shape_count(p) entries.
void triangle_shapes(int p, const std::array<double, 3>& lambda, Eigen::Ref<Eigen::VectorXd> value,
                     Eigen::Ref<Eigen::VectorXd> d1, Eigen::Ref<Eigen::VectorXd> d2);

/// @brief The p + 1 edge functions at t in [0, 1] and their slopes: (1 - t), t, degrees 2..p.
struct LineShapes
{
  Eigen::VectorXd value;
  Eigen::VectorXd slope;
};
LineShapes edge_shapes(int p, double t);

/// @brief The q functions along a ray, zero at infinity (t = 0): t, then degrees 2..q zero at both
///        ends.
LineShapes ray_shapes(int q, double t);

} // namespace solver
