// Four dimensions become three, since only the distances x and u of two points along both sides
// matter besides their mean radius; the logarithm at x = u = 0 is met by triangles and grading.
#include "post/thick_mean.hpp"

#include "post/turn_forms.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace post
{
namespace
{

/// Gauss-Legendre on (0, 1), by Newton's method from the usual first guess.
template <int n> std::array<std::array<double, 2>, n> unit_gauss()
{
  std::array<std::array<double, 2>, n> rule{};
  for (int i = 0; i < n; ++i)
  {
    double x = std::cos(3.14159265358979 * (i + 0.75) / (n + 0.5));
    double slope = 1.0;
    for (int step = 0; step < 8; ++step)
    {
      double last = 1.0;
      double value = x;
      for (int k = 2; k <= n; ++k)
      {
        const double next = ((2 * k - 1) * x * value - (k - 1) * last) / k;
        last = value;
        value = next;
      }
      slope = n * (x * value - last) / (x * x - 1.0);
      x -= value / slope;
    }
    rule[static_cast<std::size_t>(i)] = {0.5 * (1.0 - x), 1.0 / ((1.0 - x * x) * slope * slope)};
  }
  return rule;
}

struct Section
{
  double a, c, l;
};

/// Mean over the mean radius of two points x apart across and u along, with the shares of such
/// pairs, (1 - x/c) and (1 - u/l), both doubled.
double pairs(const Section& section, double x, double u)
{
  static const auto rule = unit_gauss<10>();
  const double room = section.c - x;
  double sum = 0.0;
  for (const auto& [at, weight] : rule)
  {
    const double middle = section.a + room * (at - 0.5);
    sum += weight * coaxial_circles(middle - 0.5 * x, middle + 0.5 * x, u);
  }
  return sum * 4.0 * (room / section.c) * (1.0 - u / section.l) / (section.c * section.l);
}

double rectangle(const Section& section, double x0, double x1, double u0, double u1)
{
  static const auto rule = unit_gauss<12>();
  double sum = 0.0;
  for (const auto& [s, v] : rule)
  {
    for (const auto& [t, w] : rule)
    {
      sum += v * w * pairs(section, x0 + s * (x1 - x0), u0 + t * (u1 - u0));
    }
  }
  return sum * (x1 - x0) * (u1 - u0);
}

/// The square beside the logarithm, as two triangles with their tip in it, graded as rho = q^3.
double corner(const Section& section, double side)
{
  static const auto rule = unit_gauss<16>();
  double sum = 0.0;
  for (const auto& [q, v] : rule)
  {
    const double rho = q * q * q * side;
    for (const auto& [t, w] : rule)
    {
      sum += v * w * 3.0 * q * q * side * rho *
             (pairs(section, rho, rho * t) + pairs(section, rho * t, rho));
    }
  }
  return sum;
}

/// Panels of a side that triple from `first` on.
std::vector<double> cuts(double first, double end)
{
  std::vector<double> list = {first};
  for (double at = 3.0 * first; at < 0.7 * end; at *= 3.0)
  {
    list.push_back(at);
  }
  if (first < end)
  {
    list.push_back(end);
  }
  return list;
}

} // namespace

double thick_mean(double a, double c, double l)
{
  const Section section{a, c, l};
  const double side = std::min(c, l);
  double sum = corner(section, side);
  const std::vector<double> across = cuts(side, c);
  for (std::size_t i = 1; i < across.size(); ++i)
  {
    sum += rectangle(section, across[i - 1], across[i], 0.0, side);
  }
  const std::vector<double> along = cuts(side, l);
  for (std::size_t i = 1; i < along.size(); ++i)
  {
    sum += rectangle(section, 0.0, side, along[i - 1], along[i]);
  }
  return sum;
}

} // namespace post
