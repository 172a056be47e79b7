// Bessel functions of complex argument by their integrals, whose trapezoidal sums converge
// geometrically, and by continued fractions.
#include "reference/eddy_bodies.hpp"

#include "reference/loops.hpp"
#include "reference/magnetic_bodies.hpp"

#include <boost/math/quadrature/gauss.hpp>
#include <boost/math/special_functions/bessel.hpp>

#include <cmath>
#include <functional>
#include <numbers>

namespace reference
{
namespace
{

using boost::math::quadrature::gauss;
using Complex = std::complex<double>;
using std::numbers::pi;

/// e^-x I_n(x): (1/pi) int_0^pi exp(x (cos t - 1)) cos(n t) dt, Re x >= 0.
Complex scaled_i(int n, Complex x)
{
  const int points = 64 + static_cast<int>(2.0 * std::abs(x));
  Complex sum = 0.5 * (1.0 + std::exp(-2.0 * x) * (n % 2 == 0 ? 1.0 : -1.0));
  for (int i = 1; i < points; ++i)
  {
    const double t = pi * i / points;
    sum += std::exp(x * (std::cos(t) - 1.0)) * std::cos(n * t);
  }
  return sum / static_cast<double>(points);
}

/// e^x K_n(x): int_0^inf exp(-x (cosh t - 1)) cosh(n t) dt, |arg x| <= pi/4.
Complex scaled_k(int n, Complex x)
{
  const double end = std::acosh(1.0 + 60.0 / x.real());
  constexpr int points = 400;
  const double h = end / points;
  Complex sum = 0.5;
  for (int i = 1; i <= points; ++i)
    sum += std::exp(-x * (std::cosh(i * h) - 1.0)) * std::cosh(n * i * h);
  return sum * h;
}

Complex wave_number(double k, const Layer& layer, double omega)
{
  return std::sqrt(k * k + Complex(0.0, omega * mu0) * layer.permeability * layer.conductivity);
}

/// Y at the outer radius of all layers.
Complex admittance(const std::vector<Layer>& layers, double omega, double k)
{
  Complex Y;
  for (std::size_t i = 0; i < layers.size(); ++i)
  {
    const Layer& layer = layers[i];
    const Complex a = wave_number(k, layer, omega), x = a * layer.outer_radius;
    if (i == 0)
    {
      Y = a * scaled_i(0, x) / (layer.permeability * scaled_i(1, x));
      continue;
    }
    // A = P I1 + Q K1, scaled to exp(+-(x - x0)) from the inner radius.
    const Complex x0 = a * layers[i - 1].outer_radius, m = Y * layer.permeability / a;
    const Complex P = scaled_k(0, x0) + m * scaled_k(1, x0),
                  Q = scaled_i(0, x0) - m * scaled_i(1, x0);
    const Complex up = P, down = Q * std::exp(-2.0 * (x - x0));
    Y = a / layer.permeability * (up * scaled_i(0, x) - down * scaled_k(0, x)) /
        (up * scaled_i(1, x) + down * scaled_k(1, x));
  }
  return Y;
}

Complex panels(const std::function<Complex(double)>& integrand, double first, double longest,
               double end)
{
  Complex sum = 0.0;
  using rule = gauss<double, 20>;
  for (double from = 0.0, step = first; from < end; from += step, step *= 1.5)
  {
    step = std::min(step, longest);
    for (std::size_t i = 0; i < rule::abscissa().size(); ++i)
      for (const double side : {-1.0, 1.0})
        sum += 0.5 * step * rule::weights()[i] *
               integrand(from + 0.5 * step * (1.0 + side * rule::abscissa()[i]));
  }
  return sum;
}

/// Mean of r K1(kr) over the coil's radii.
double radial_mean(const Section& coil, double k)
{
  const auto at = [k](double r) { return r * boost::math::cyl_bessel_k(1, k * r); };
  return gauss<double, 20>::integrate(at, coil.r_inner, coil.r_outer) /
         (coil.r_outer - coil.r_inner);
}

/// x i_n'(x) / i_n(x) = n + x i_(n+1)/i_n, the ratio by its continued fraction from far below.
Complex logarithmic_slope(int n, Complex x)
{
  const int depth = 60 + static_cast<int>(2.0 * std::abs(x));
  Complex ratio = 0.0;
  for (int m = n + depth; m >= n; --m)
    ratio = x / (2.0 * m + 3.0 + x * ratio);
  return static_cast<double>(n) + x * ratio;
}

} // namespace

std::complex<double> endless_rod_gain(const std::vector<Layer>& layers, double omega,
                                      const Section& coil)
{
  const double length = coil.z_high - coil.z_low, c = layers.back().outer_radius;
  const auto integrand = [&](double k) -> Complex
  {
    using boost::math::cyl_bessel_i;
    using boost::math::cyl_bessel_k;
    const Complex Y = admittance(layers, omega, k);
    const Complex R = (k * cyl_bessel_i(0, k * c) - Y * cyl_bessel_i(1, k * c)) /
                      (k * cyl_bessel_k(0, k * c) + Y * cyl_bessel_k(1, k * c));
    const double coupling = radial_mean(coil, k) * 2.0 * std::sin(k * length / 2.0) / k;
    return R * coupling * coupling;
  };
  return 2.0 * mu0 * coil.turns * coil.turns / (length * length) *
         panels(integrand, 1e-7 / length, pi / length, 20.0 / (coil.r_inner - c));
}

std::complex<double> half_space_gain(std::complex<double> permeability, double conductivity,
                                     double omega, const Section& coil)
{
  const double thickness = coil.r_outer - coil.r_inner, length = coil.z_high - coil.z_low;
  const Layer below{0.0, permeability, conductivity};
  const auto integrand = [&](double k) -> Complex
  {
    // int x J1 dx = k^2 int r J1(kr) dr
    const auto at = [k](double r) { return r * j1(k * r); };
    const double P = k * k * gauss<double, 30>::integrate(at, coil.r_inner, coil.r_outer);
    const Complex a = wave_number(k, below, omega);
    const Complex R = (permeability * k - a) / (permeability * k + a);
    const double along = (std::exp(-k * coil.z_low) - std::exp(-k * coil.z_high)) / k;
    return R * std::pow(P * along / (k * k), 2);
  };
  return pi * mu0 * std::pow(coil.turns / (thickness * length), 2) *
         panels(integrand, 1e-4 / coil.r_outer, pi / coil.r_outer, 20.0 / coil.z_low);
}

std::complex<double> ball_gain(double ball_radius, std::complex<double> permeability,
                               double conductivity, double omega, const Section& coil)
{
  const std::vector<double> terms = ball_terms(ball_radius, coil);
  const Complex x =
      ball_radius * std::sqrt(Complex(0.0, omega * mu0) * permeability * conductivity);
  Complex sum = 0.0;
  for (int n = static_cast<int>(terms.size()) - 1; n >= 1; --n)
  {
    const Complex G = (1.0 + logarithmic_slope(n, x)) / permeability;
    sum += (n + 1.0 - G) / (static_cast<double>(n) + G) * terms[static_cast<std::size_t>(n)];
  }
  return sum;
}

} // namespace reference
