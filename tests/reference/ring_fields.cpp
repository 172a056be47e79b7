// Closed forms of ring_fields.hpp.
#include "reference/ring_fields.hpp"

#include <boost/math/special_functions/ellint_rf.hpp>
#include <boost/math/special_functions/ellint_rg.hpp>
#include <boost/math/special_functions/ellint_rj.hpp>

#include <cmath>
#include <numbers>

namespace reference
{
namespace
{

using std::numbers::pi;

/// K / D and E / (D d^2) of a sight.
struct Pair
{
  double K = 0.0;
  double E = 0.0;
};

Pair pair(const Sight& s)
{
  const double near = s.outward * s.outward + s.upward * s.upward;
  const double far = std::pow(s.source + s.target, 2) + s.upward * s.upward;
  const double rest = near / far; // 1 - k^2, by itself to keep its digits at near circles
  const double D = std::sqrt(far);
  return {boost::math::ellint_rf(0.0, rest, 1.0) / D,
          2.0 * boost::math::ellint_rg(0.0, rest, 1.0) / (D * near)};
}

/// int_0^(pi/2) (a cos^2 + b sin^2) / ((cos^2 + p sin^2) sqrt(cos^2 + q sin^2)).
double complete(double q, double p, double a, double b)
{
  return a * boost::math::ellint_rf(0.0, q, 1.0) +
         (b - p * a) / 3.0 * boost::math::ellint_rj(0.0, q, 1.0, p);
}

/// What the end of a sheet contributes at the height z above it.
Field sheet_end(double radius, double r, double z)
{
  const double far = z * z + (r + radius) * (r + radius);
  const double rest = (z * z + (r - radius) * (r - radius)) / far;
  const double ratio = (radius - r) / (radius + r);
  const double D = std::sqrt(far);
  return {radius / D * complete(rest, 1.0, 1.0, -1.0) / pi,
          radius / (radius + r) * z / D * complete(rest, ratio * ratio, 1.0, ratio) / pi};
}

} // namespace

Field charged_circle(const Sight& s)
{
  const auto [K, E] = pair(s);
  const double square = s.outward * (s.target + s.source); // r^2 - r'^2
  return {s.source / (2.0 * pi * s.target) * (K + (square - s.upward * s.upward) * E),
          s.source * s.upward * E / pi};
}

Field current_circle(const Sight& s)
{
  const auto [K, E] = pair(s);
  const double square = s.outward * (s.target + s.source);
  const double sum = s.target * s.target + s.source * s.source + s.upward * s.upward;
  return {s.upward / (2.0 * pi * s.target) * (sum * E - K),
          (K - (square + s.upward * s.upward) * E) / (2.0 * pi)};
}

Field sheet_field(double radius, double z_low, double z_high, double r, double z)
{
  const Field low = sheet_end(radius, r, z - z_low);
  const Field high = sheet_end(radius, r, z - z_high);
  return {low.r - high.r, low.z - high.z};
}

} // namespace reference
