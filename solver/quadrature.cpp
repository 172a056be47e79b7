// Gauss points by Newton's method on the Legendre recurrence.
#include "solver/quadrature.hpp"

#include <cmath>
#include <map>
#include <mutex>
#include <numbers>

namespace solver
{

namespace
{

LineRule computed_rule(int n)
{
  LineRule rule{std::vector<double>(n), std::vector<double>(n)};
  for (int i = 0; i < n; ++i)
  {
    double x = std::cos(std::numbers::pi * (i + 0.75) / (n + 0.5)), slope = 0.0;
    for (int step = 0; step < 100; ++step)
    {
      double before = 0.0, now = 1.0;
      for (int k = 1; k <= n; ++k)
      {
        const double next = ((2 * k - 1) * x * now - (k - 1) * before) / k;
        before = now;
        now = next;
      }
      slope = n * (x * now - before) / (x * x - 1.0);
      const double change = now / slope;
      x -= change;
      if (std::abs(change) < 1e-16)
        break;
    }
    rule.points[i] = 0.5 * (1.0 - x);
    rule.weights[i] = 1.0 / ((1.0 - x * x) * slope * slope);
  }
  return rule;
}

} // namespace

const LineRule& line_rule(int n)
{
  static std::map<int, LineRule> rules;
  static std::mutex guard;
  const std::lock_guard lock(guard);
  auto [it, fresh] = rules.try_emplace(n);
  if (fresh)
    it->second = computed_rule(n);
  return it->second;
}

TriangleRule triangle_rule(int outward, int across, int corner)
{
  const LineRule &out = line_rule(outward), &side = line_rule(across);
  TriangleRule rule;
  for (int i = 0; i < outward; ++i)
    for (int j = 0; j < across; ++j)
    {
      const double x = out.points[i], y = side.points[j];
      std::array<double, 3> point{};
      point[corner] = 1.0 - x;
      point[(corner + 1) % 3] = x * (1.0 - y);
      point[(corner + 2) % 3] = x * y;
      rule.points.push_back(point);
      rule.weights.push_back(out.weights[i] * side.weights[j] * x);
    }
  return rule;
}

} // namespace solver
