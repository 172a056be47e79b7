// Self inductance of a rectangular section straight from Maxwell's circles, no Bessel functions.
#include "reference/loops.hpp"
#include "reference/thick_coils.hpp"

#include <boost/math/quadrature/gauss.hpp>

#include <array>
#include <cmath>

namespace reference
{
namespace
{

using rule = boost::math::quadrature::gauss<double, 20>;

struct Corner
{
  double r, z;
};

/// Integral of M(p, .) over the triangle p, from, to; the edge's points crowd at `from`, the foot
/// of p's perpendicular, and the radial ones at p.
double triangle(const Corner& p, const Corner& from, const Corner& to)
{
  const double twice_area = std::abs((from.r - p.r) * (to.z - p.z) - (from.z - p.z) * (to.r - p.r));
  const auto along_edge = [&](double w)
  {
    const double v = w * w * w;
    const Corner q{from.r + v * (to.r - from.r), from.z + v * (to.z - from.z)};
    const auto along_ray = [&](double t)
    {
      const double u = t * t * t;
      if (u * std::hypot(q.r - p.r, q.z - p.z) < 1e-12 * p.r)
      {
        return 0.0; // the circles are one in double precision; the weight u is below 1e-12 too
      }
      return coaxial_circles(p.r, p.r + u * (q.r - p.r), u * (q.z - p.z)) * u * 3.0 * t * t;
    };
    return rule::integrate(along_ray, 0.0, 1.0) * 3.0 * w * w;
  };
  return twice_area * rule::integrate(along_edge, 0.0, 1.0);
}

/// Integral of M(p, .) over the whole section.
double potential(const Section& s, const Corner& p)
{
  const std::array<Corner, 4> corner = {
      {{s.r_inner, s.z_low}, {s.r_outer, s.z_low}, {s.r_outer, s.z_high}, {s.r_inner, s.z_high}}};
  double sum = 0.0;
  for (std::size_t edge = 0; edge < 4; ++edge)
  {
    const Corner& a = corner[edge];
    const Corner& b = corner[(edge + 1) % 4];
    const Corner foot = edge % 2 == 0 ? Corner{p.r, a.z} : Corner{a.r, p.z};
    sum += triangle(p, foot, a) + triangle(p, foot, b);
  }
  return sum;
}

} // namespace

double thick_self_direct(const Section& s)
{
  // Points crowd at the section's edges, where the inner integral bends.
  const auto crowd = [](double t) { return t * t * t * (10.0 - 15.0 * t + 6.0 * t * t); };
  const auto slope = [](double t) { return 30.0 * t * t * (1.0 - t) * (1.0 - t); };
  const double width = s.r_outer - s.r_inner;
  const double height = s.z_high - s.z_low;
  const auto over_r = [&](double x)
  {
    const double r = s.r_inner + width * crowd(x);
    const auto over_z = [&](double y) {
      return slope(y) * potential(s, {r, s.z_low + height * crowd(y)});
    };
    return slope(x) * 2.0 * rule::integrate(over_z, 0.0, 0.5); // mirror halves
  };
  return s.turns * s.turns * rule::integrate(over_r, 0.0, 1.0) / (width * height);
}

} // namespace reference
