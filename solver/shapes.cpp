// Shape functions from Gegenbauer recurrences: kernels are scaled derivatives of Legendre's.
#include "solver/shapes.hpp"

#include <array>
#include <cmath>

namespace solver
{

namespace
{

/// Legendre polynomial and its slope.
Kernel legendre(int n, double x)
{
  double before = 0.0, now = 1.0, slope_before = 0.0, slope = 0.0;
  for (int k = 1; k <= n; ++k)
  {
    const double next = ((2 * k - 1) * x * now - (k - 1) * before) / k;
    const double slope_next = slope_before + (2 * k - 1) * now; // P'_k = P'_{k-2} + (2k-1) P_{k-1}
    before = now;
    now = next;
    slope_before = slope;
    slope = slope_next;
  }
  return {now, slope};
}

} // namespace

Kernel kernel(int k, double x)
{
  // Integrated Legendre: l_k = (1 - x^2)/4 * kernel, kernel ~ P'_{k-1} = C^(3/2)_{k-2}.
  double before = 0.0, now = 1.0, slope_before = 0.0, slope = 0.0;
  for (int m = 1; m <= k - 2; ++m)
  {
    const double next = (2.0 * x * (m + 0.5) * now - (m + 1.0) * before) / m;
    const double slope_next = (2.0 * (m + 0.5) * (now + x * slope) - (m + 1.0) * slope_before) / m;
    before = now;
    now = next;
    slope_before = slope;
    slope = slope_next;
  }
  const double scale = 4.0 * std::sqrt(0.5 * (2 * k - 1)) / (k * (k - 1));
  return {scale * now, scale * slope};
}

ShapeValues triangle_shapes(int p, const std::array<double, 3>& lambda)
{
  const int count = triangle_shape_count(p);
  ShapeValues shapes{Eigen::VectorXd(count), Eigen::VectorXd(count), Eigen::VectorXd(count)};
  // Derivative of each lambda in (lambda_1, lambda_2).
  constexpr double g[3][2] = {{-1.0, -1.0}, {1.0, 0.0}, {0.0, 1.0}};
  int n = 0;
  const auto add = [&](double value, double by0, double by1, double by2)
  {
    shapes.value[n] = value;
    shapes.d1[n] = by0 * g[0][0] + by1 * g[1][0] + by2 * g[2][0];
    shapes.d2[n] = by0 * g[0][1] + by1 * g[1][1] + by2 * g[2][1];
    ++n;
  };
  for (int i = 0; i < 3; ++i)
    add(lambda[i], i == 0, i == 1, i == 2);
  for (int i = 0; i < 3; ++i)
  {
    const int j = (i + 1) % 3;
    const double a = lambda[i], b = lambda[j];
    for (int k = 2; k <= p; ++k)
    {
      const Kernel f = kernel(k, b - a);
      std::array<double, 3> by{};
      by[i] = b * f.value - a * b * f.slope;
      by[j] = a * f.value + a * b * f.slope;
      add(a * b * f.value, by[0], by[1], by[2]);
    }
  }
  const double bubble = lambda[0] * lambda[1] * lambda[2];
  const double bubble_by[3] = {lambda[1] * lambda[2], lambda[0] * lambda[2], lambda[0] * lambda[1]};
  for (int i = 0; i <= p - 3; ++i)
    for (int j = 0; i + j <= p - 3; ++j)
    {
      const Kernel f = legendre(i, lambda[1] - lambda[0]), h = legendre(j, 2.0 * lambda[2] - 1.0);
      add(bubble * f.value * h.value, bubble_by[0] * f.value * h.value - bubble * f.slope * h.value,
          bubble_by[1] * f.value * h.value + bubble * f.slope * h.value,
          bubble_by[2] * f.value * h.value + 2.0 * bubble * f.value * h.slope);
    }
  return shapes;
}

LineShapes edge_shapes(int p, double t)
{
  LineShapes shapes{Eigen::VectorXd(p + 1), Eigen::VectorXd(p + 1)};
  shapes.value[0] = 1.0 - t;
  shapes.slope[0] = -1.0;
  shapes.value[1] = t;
  shapes.slope[1] = 1.0;
  for (int k = 2; k <= p; ++k)
  {
    const Kernel f = kernel(k, 2.0 * t - 1.0);
    shapes.value[k] = t * (1.0 - t) * f.value;
    shapes.slope[k] = (1.0 - 2.0 * t) * f.value + 2.0 * t * (1.0 - t) * f.slope;
  }
  return shapes;
}

LineShapes ray_shapes(int q, double t)
{
  const LineShapes all = edge_shapes(q, t);
  return {all.value.tail(q), all.slope.tail(q)};
}

} // namespace solver
