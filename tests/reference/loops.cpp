// Closed forms for filaments and sheets; quadrature of the exact kernel for the round ring.
#include "reference/loops.hpp"

#include <boost/math/quadrature/gauss.hpp>
#include <boost/math/special_functions/ellint_1.hpp>
#include <boost/math/special_functions/ellint_2.hpp>
#include <boost/math/special_functions/ellint_rd.hpp>
#include <boost/math/special_functions/ellint_rf.hpp>

#include <cmath>
#include <numbers>

namespace reference
{
namespace
{
using boost::math::ellint_1;
using boost::math::ellint_2;
using boost::math::ellint_rd;
using boost::math::ellint_rf;
using boost::math::quadrature::gauss;
using std::numbers::pi;
} // namespace

double coaxial_circles(double a, double b, double z)
{
  const double whole = (a + b) * (a + b) + z * z;
  const double k = std::sqrt(4.0 * a * b / whole);
  // 1 - k^2 formed without subtraction, so that circles may all but touch: K = R_F(0, q, 1),
  // K - E = k^2/3 R_D(0, q, 1) [Carlson 1979].
  const double q = ((a - b) * (a - b) + z * z) / whole;
  return 2.0 * mu0 * std::sqrt(a * b) * k *
         (ellint_rd(0.0, q, 1.0) / 3.0 - ellint_rf(0.0, q, 1.0) / 2.0);
}

double current_sheet(double radius, double length, double turns)
{
  const double D = 2.0 * radius;
  const double diagonal = std::hypot(D, length);
  const double k = D / diagonal;
  // L = mu0 N^2 / (3 l^2) [d (D^2 (K-E)/... ) - D^3], written with d = sqrt(D^2 + l^2).
  const double K = ellint_1(k);
  const double E = ellint_2(k);
  const double bracket = diagonal * (length * length * (K - E) + D * D * E) - D * D * D;
  return mu0 * turns * turns / (3.0 * length * length) * bracket;
}

double round_ring(double a, double r, Spread spread)
{
  const auto density = [&](double R) { return spread == Spread::even ? 1.0 : 1.0 / R; };
  // Vector potential's flux at a point of the section, over the current of the whole ring.
  const auto flux_at = [&](double x, double z)
  {
    const double along = std::hypot(x, z);
    const auto ray = [&](double angle)
    {
      // Distance to the section's edge at `angle` from the outward direction.
      const double across = along * std::sin(angle);
      const double reach = std::sqrt(r * r - across * across) - along * std::cos(angle);
      const double outward = std::atan2(z, x);
      const auto step = [&](double t)
      {
        const double rho = reach * t * t * t; // smooths rho ln rho
        const double R = a + x + rho * std::cos(outward + angle);
        const double height = rho * std::sin(outward + angle);
        return density(R) * coaxial_circles(a + x, R, height) * rho * 3.0 * reach * t * t;
      };
      return gauss<double, 12>::integrate(step, 0.0, 1.0);
    };
    double sum = 0.0;
    // Both sides apart: they mirror each other only for z = 0.
    for (const double side : {-1.0, 1.0})
    {
      sum += gauss<double, 30>::integrate([&](double angle) { return ray(side * angle); }, 0.0,
                                          pi / 2.0);
      sum += gauss<double, 30>::integrate([&](double angle) { return ray(side * angle); }, pi / 2.0,
                                          pi);
    }
    return sum;
  };
  const auto over_circle = [&](double u)
  {
    const double s = r * (1.0 - u * u); // crowds the points where the rim bends the integrand
    const auto at = [&](double angle)
    {
      const double x = s * std::cos(angle);
      return density(a + x) * flux_at(x, s * std::sin(angle));
    };
    return 2.0 * gauss<double, 12>::integrate(at, 0.0, pi) * s * 2.0 * r * u;
  };
  const double linkage = gauss<double, 20>::integrate(over_circle, 0.0, 1.0);
  const double current =
      spread == Spread::even
          ? pi * r * r
          : 2.0 * pi * r * r / (a + std::sqrt(a * a - r * r)); // integral of 1/R over the disc
  return linkage / (current * current);
}

} // namespace reference
