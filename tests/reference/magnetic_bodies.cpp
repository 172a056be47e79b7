// Series and integrals of magnetic_bodies.hpp over Boost.Math's Legendre and Bessel functions.
#include "reference/magnetic_bodies.hpp"

#include <boost/math/quadrature/exp_sinh.hpp>
#include <boost/math/quadrature/gauss.hpp>
#include <boost/math/special_functions/bessel.hpp>

#include <cmath>
#include <functional>
#include <numbers>
#include <vector>

namespace reference
{
namespace
{

using boost::math::quadrature::gauss;
using std::numbers::pi;

constexpr int last_multipole = 400;

/// (a/rho)^n sin(th) P_n^1(cos th) for n = 0..last, of the circle (r, z).
std::vector<double> circle_factors(double ball_radius, double r, double z)
{
  const double rho = std::hypot(r, z);
  const double c = z / rho;
  const double s = r / rho;
  std::vector<double> factor(last_multipole + 1, 0.0);
  double power = 1.0;
  double before = 0.0; // P_0^1
  double now = s;      // P_1^1, sign convention without (-1)^m
  for (int n = 1; n <= last_multipole; ++n)
  {
    power *= ball_radius / rho;
    factor[n] = power * s * now;
    const double next = ((2 * n + 1) * c * now - (n + 1) * before) / n;
    before = now;
    now = next;
  }
  return factor;
}

double gain(double ball_radius, double mu, const std::vector<double>& factor)
{
  double sum = 0.0;
  for (int n = last_multipole; n >= 1; --n)
  {
    sum += (n + 1) * (mu - 1) / (n * mu + n + 1) / (n * (n + 1.0)) * factor[n] * factor[n];
  }
  return pi * mu0 * ball_radius * sum;
}

using Factors = std::function<std::vector<double>(double)>;

/// Integral of a vector-valued function, componentwise, by 20 Gauss points.
std::vector<double> integral(const Factors& function, double from, double to)
{
  using rule = gauss<double, 20>;
  std::vector<double> sum(last_multipole + 1, 0.0);
  for (std::size_t i = 0; i < rule::abscissa().size(); ++i)
  {
    for (const double side : {-1.0, 1.0})
    {
      const double x = (from + to) / 2.0 + side * rule::abscissa()[i] * (to - from) / 2.0;
      const std::vector<double> at = function(x);
      for (int n = 0; n <= last_multipole; ++n)
      {
        sum[n] += rule::weights()[i] * (to - from) / 2.0 * at[n];
      }
    }
  }
  return sum;
}

std::vector<double> scaled(std::vector<double> values, double by)
{
  for (double& value : values)
  {
    value *= by;
  }
  return values;
}

/// Mean of circle_factors() over the section, times its turns.
std::vector<double> section_factors(double ball_radius, const Section& coil)
{
  const auto over_z = [&](double r)
  {
    return integral([&](double z) { return circle_factors(ball_radius, r, z); }, coil.z_low,
                    coil.z_high);
  };
  const double area = (coil.r_outer - coil.r_inner) * (coil.z_high - coil.z_low);
  return scaled(integral(over_z, coil.r_inner, coil.r_outer), coil.turns / area);
}

/// Range enough for exp(11000), so that I and K need no scaling.
using Long = long double;

/// Mean of r K1(kr) over the coil's radii.
Long radial_mean(const Section& coil, Long k)
{
  const auto at = [&](Long r) -> Long { return r * boost::math::cyl_bessel_k(1, k * r); };
  const Long c = coil.r_outer - coil.r_inner;
  return c == 0 ? at(coil.r_inner)
                : gauss<Long, 20>::integrate(at, Long(coil.r_inner), Long(coil.r_outer)) / c;
}

} // namespace

double ball_gain(double ball_radius, double permeability, double r0, double th)
{
  return gain(ball_radius, permeability,
              circle_factors(ball_radius, r0 * std::sin(th), r0 * std::cos(th)));
}

double ball_gain(double ball_radius, double permeability, const Section& coil)
{
  return gain(ball_radius, permeability, section_factors(ball_radius, coil));
}

std::vector<double> ball_terms(double ball_radius, const Section& coil)
{
  std::vector<double> term = section_factors(ball_radius, coil);
  term[0] = 0.0;
  for (int n = 1; n <= last_multipole; ++n)
  {
    term[n] *= pi * mu0 * ball_radius * term[n] / (n * (n + 1.0));
  }
  return term;
}

double ball_gain(double ball_radius, double permeability, double r, double z, double wire)
{
  const auto over_angle = [&](double s)
  {
    const auto at = [&](double angle)
    { return circle_factors(ball_radius, r + s * std::cos(angle), z + s * std::sin(angle)); };
    return scaled(integral(at, 0.0, 2.0 * pi), s);
  };
  return gain(ball_radius, permeability,
              scaled(integral(over_angle, 0.0, wire), 1.0 / (pi * wire * wire)));
}

double endless_rod_gain(double rod_radius, double permeability, const Section& coil)
{
  using boost::math::cyl_bessel_i;
  using boost::math::cyl_bessel_k;
  const double length = coil.z_high - coil.z_low;
  const Long mu = permeability;
  const auto integrand = [&](double k)
  {
    const Long x = Long(k) * rod_radius;
    const Long I0 = cyl_bessel_i(0, x), I1 = cyl_bessel_i(1, x);
    const Long response =
        (mu - 1) * I0 * I1 / (mu * cyl_bessel_k(0, x) * I1 + I0 * cyl_bessel_k(1, x));
    const Long coupling = radial_mean(coil, k);
    const double along = 2.0 * std::sin(k * length / 2.0) / k;
    return static_cast<double>(response * coupling * coupling) * along * along;
  };
  // Panels grow from where mu k^2 a^2 is small to half a period of the coil's length.
  double sum = 0.0;
  double from = 0.0;
  double step = 1e-9 / length;
  while (from * (coil.r_inner - rod_radius) < 20.0)
  {
    sum += gauss<double, 20>::integrate(integrand, from, from + step);
    from += step;
    step = std::min(1.5 * step, pi / length);
  }
  return 2.0 * mu0 * coil.turns * coil.turns / (length * length) * sum;
}

double spheroid_factor(double aspect)
{
  const auto integrand = [&](double s)
  { return aspect / 2.0 / (std::pow(s + aspect * aspect, 1.5) * (s + 1.0)); };
  boost::math::quadrature::exp_sinh<double> rule;
  return rule.integrate(integrand, 1e-15);
}

} // namespace reference
