// Shape functions from Gegenbauer recurrences: kernels are scaled derivatives of Legendre's.
#include "solver/shapes.hpp"

#include <array>
#include <cmath>
#include <span>
#include <stdexcept>

namespace solver
{

namespace
{

constexpr int highest_order = 32;
using Kernels = std::array<Kernel, highest_order>;

/// What the recurrences have by degree; divisions and roots would take longer than all else.
struct Factors
{
  double legendre_now, legendre_before; ///< Of degree n + 1.
  double scale, now, before;            ///< Of kernel n + 2 and the one after it.
};

std::array<Factors, highest_order> factors_by_degree() noexcept
{
  std::array<Factors, highest_order> all{};
  for (int n = 0; n < highest_order; ++n)
  {
    const double m = n + 1.0, k = n + 2.0;
    all[static_cast<std::size_t>(n)] = {(2.0 * m - 1.0) / m, (m - 1.0) / m,
                                        4.0 * std::sqrt(0.5 * (2.0 * k - 1.0)) / (k * (k - 1.0)),
                                        (2.0 * m + 1.0) / m, (m + 1.0) / m};
  }
  return all;
}

const std::array<Factors, highest_order> factors = factors_by_degree();

/// Legendre polynomials of degree 0 .. count - 1 and their slopes.
void legendre(double x, std::span<Kernel> all)
{
  double before = 0.0, now = 1.0, slope_before = 0.0, slope = 0.0;
  for (std::size_t n = 0; n < all.size(); ++n)
  {
    all[n] = {now, slope};
    const double next = factors[n].legendre_now * x * now - factors[n].legendre_before * before;
    const double slope_next = // P'_k = P'_{k-2} + (2k-1) P_{k-1}
        slope_before + (2.0 * static_cast<double>(n) + 1.0) * now;
    before = now;
    now = next;
    slope_before = slope;
    slope = slope_next;
  }
}

/// kernel(2, x) .. kernel(p, x).
void kernels(double x, std::span<Kernel> all)
{
  // Integrated Legendre: l_k = (1 - x^2)/4 * kernel, kernel ~ P'_{k-1} = C^(3/2)_{k-2}.
  double before = 0.0, now = 1.0, slope_before = 0.0, slope = 0.0;
  for (std::size_t n = 0; n < all.size(); ++n)
  {
    const Factors& by = factors[n];
    all[n] = {by.scale * now, by.scale * slope};
    const double next = by.now * x * now - by.before * before;
    const double slope_next = by.now * (now + x * slope) - by.before * slope_before;
    before = now;
    now = next;
    slope_before = slope;
    slope = slope_next;
  }
}

void require_order(int p)
{
  if (p < 1 || p > highest_order)
    throw std::invalid_argument("shape functions have order 1 to 32");
}

} // namespace

Kernel kernel(int k, double x)
{
  require_order(k);
  Kernels all;
  kernels(x, std::span(all).first(k - 1));
  return all[k - 2];
}

void triangle_shapes(int p, const std::array<double, 3>& lambda, Eigen::Ref<Eigen::VectorXd> value,
                     Eigen::Ref<Eigen::VectorXd> d1, Eigen::Ref<Eigen::VectorXd> d2)
{
  require_order(p);
  int n = 0;
  // lambda_0 = 1 - lambda_1 - lambda_2.
  const auto add = [&](double v, double by0, double by1, double by2)
  {
    value[n] = v;
    d1[n] = by1 - by0;
    d2[n] = by2 - by0;
    ++n;
  };
  for (int i = 0; i < 3; ++i)
    add(lambda[i], i == 0, i == 1, i == 2);
  Kernels f, h;
  for (int i = 0; i < 3; ++i)
  {
    const int j = (i + 1) % 3;
    const double a = lambda[i], b = lambda[j];
    kernels(b - a, std::span(f).first(p - 1));
    for (int k = 0; k < p - 1; ++k)
    {
      std::array<double, 3> by{};
      by[i] = b * f[k].value - a * b * f[k].slope;
      by[j] = a * f[k].value + a * b * f[k].slope;
      add(a * b * f[k].value, by[0], by[1], by[2]);
    }
  }
  if (p < 3)
    return;
  const double bubble = lambda[0] * lambda[1] * lambda[2];
  const double bubble_by[3] = {lambda[1] * lambda[2], lambda[0] * lambda[2], lambda[0] * lambda[1]};
  legendre(lambda[1] - lambda[0], std::span(f).first(p - 2));
  legendre(2.0 * lambda[2] - 1.0, std::span(h).first(p - 2));
  for (int i = 0; i <= p - 3; ++i)
    for (int j = 0; i + j <= p - 3; ++j)
      add(bubble * f[i].value * h[j].value,
          bubble_by[0] * f[i].value * h[j].value - bubble * f[i].slope * h[j].value,
          bubble_by[1] * f[i].value * h[j].value + bubble * f[i].slope * h[j].value,
          bubble_by[2] * f[i].value * h[j].value + 2.0 * bubble * f[i].value * h[j].slope);
}

ShapeValues triangle_shapes(int p, const std::array<double, 3>& lambda)
{
  const int count = triangle_shape_count(p);
  ShapeValues shapes{Eigen::VectorXd(count), Eigen::VectorXd(count), Eigen::VectorXd(count)};
  triangle_shapes(p, lambda, shapes.value, shapes.d1, shapes.d2);
  return shapes;
}

LineShapes edge_shapes(int p, double t)
{
  LineShapes shapes{Eigen::VectorXd(p + 1), Eigen::VectorXd(p + 1)};
  shapes.value[0] = 1.0 - t;
  shapes.slope[0] = -1.0;
  shapes.value[1] = t;
  shapes.slope[1] = 1.0;
  require_order(p);
  Kernels f;
  kernels(2.0 * t - 1.0, std::span(f).first(p - 1));
  for (int k = 2; k <= p; ++k)
  {
    shapes.value[k] = t * (1.0 - t) * f[k - 2].value;
    shapes.slope[k] = (1.0 - 2.0 * t) * f[k - 2].value + 2.0 * t * (1.0 - t) * f[k - 2].slope;
  }
  return shapes;
}

LineShapes ray_shapes(int q, double t)
{
  const LineShapes all = edge_shapes(q, t);
  return {all.value.tail(q), all.slope.tail(q)};
}

} // namespace solver
