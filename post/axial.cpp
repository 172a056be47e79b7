// Taylor steps through each layer; closed forms at rest and for toroids.
#include "post/axial.hpp"

#include "mesh/piece.hpp"
#include "solver/problem.hpp"
#include "solver/quadrature.hpp"

#include <cmath>
#include <stdexcept>

namespace post
{

namespace
{

using Complex = std::complex<double>;
constexpr double two_pi = 2.0 * std::numbers::pi;

/// E_z and its slope at a radius, to a common factor.
struct State
{
  Complex E;
  Complex slope;
};

/// On the axis E = sum (g r / 2)^2k / (k!)^2, g^2 = j omega mu sigma; to |g r| of 1 at most.
State near_axis(Complex g2, double r)
{
  const Complex x = 0.25 * g2 * r * r;
  Complex term = 1.0, E = 0.0, slope = 0.0;
  for (int k = 0; k < 40; ++k)
  {
    E += term;
    slope += 2.0 * k / r * term;
    term *= x / static_cast<double>((k + 1) * (k + 1));
  }
  return {E, slope};
}

/// One Taylor step of (r E')' = g^2 r E from r to r + h, h at most r / 4 and 1 / |g|.
State stepped(const State& at, Complex g2, double r, double h)
{
  // Coefficients times h^k, so that none overflows: k - 1, k, k + 1.
  Complex before = 0.0, now = at.E, next = at.slope * h;
  Complex E = now, slope = 0.0;
  const Complex push = g2 * h * h;
  const double q = h / r;
  for (int k = 0; k < 60; ++k)
  {
    slope += (k + 1.0) * next;
    E += next;
    const Complex after =
        (push * (now + q * before) - q * (k + 1.0) * (k + 1.0) * next) / ((k + 2.0) * (k + 1.0));
    before = now;
    now = next;
    next = after;
  }
  return {E, slope / h};
}

void check(const std::vector<WireLayer>& layers)
{
  double inner = 0.0;
  bool conducts = false;
  for (const WireLayer& layer : layers)
  {
    if (!(layer.outer_radius > inner))
      throw std::invalid_argument("every layer of a wire must lie around the one before");
    inner = layer.outer_radius;
    conducts = conducts || layer.conductivity > 0.0;
  }
  if (!conducts)
    throw std::invalid_argument("no layer of the wire conducts");
}

/// int_a^b of mu0 mu / (2 pi r) (I(r) / I)^2 dr, I(r) the current within r at even density.
double layer_inductance(const WireLayer& layer, double a, double within, double total)
{
  // I(r) = within + s pi (r^2 - a^2) = p + q r^2
  const double b = layer.outer_radius, s = layer.conductivity * std::numbers::pi;
  const double p = (within - s * a * a) / total, q = s / total;
  // p = 0 on the axis, where the logarithm has no place.
  const double log_part = p == 0.0 ? 0.0 : p * p * std::log(b / a);
  const double sum =
      log_part + p * q * (b * b - a * a) + 0.25 * q * q * (b * b * b * b - a * a * a * a);
  return solver::mu0 * layer.permeability.real() / two_pi * sum;
}

/// Mean of ln r over a straight piece.
double mean_logarithm(double a, double b)
{
  const double middle = 0.5 * (a + b), d = (b - a) / middle;
  if (std::abs(d) < 1e-2) // its series: no cancellation
    return std::log(middle) - d * d / 24.0 - d * d * d * d / 320.0 - std::pow(d, 6) / 2688.0;
  return (b * std::log(b) - a * std::log(a)) / (b - a) - 1.0;
}

} // namespace

WireResult wire_at_rest(const std::vector<WireLayer>& layers)
{
  check(layers);
  double total = 0.0, inner = 0.0;
  for (const WireLayer& layer : layers)
  {
    total += layer.conductivity * std::numbers::pi *
             (layer.outer_radius * layer.outer_radius - inner * inner);
    inner = layer.outer_radius;
  }
  WireResult made;
  made.resistance = 1.0 / total;
  double within = 0.0;
  inner = 0.0;
  for (const WireLayer& layer : layers)
  {
    made.layer_gains.push_back(layer_inductance(layer, inner, within, total));
    made.inductance += made.layer_gains.back();
    within += layer.conductivity * std::numbers::pi *
              (layer.outer_radius * layer.outer_radius - inner * inner);
    inner = layer.outer_radius;
  }
  return made;
}

WireResult wire_at(const std::vector<WireLayer>& layers, double frequency)
{
  check(layers);
  if (!(frequency > 0.0))
    throw std::invalid_argument("a frequency must be positive");
  const Complex j_omega{0.0, two_pi * frequency};
  State at{1.0, 0.0};
  double r = 0.0;
  Complex mu = 1.0;
  for (const WireLayer& layer : layers)
  {
    // H = E' / (j omega mu) goes on through the boundary.
    const Complex mu_layer = solver::mu0 * layer.permeability;
    at.slope *= mu_layer / mu;
    mu = mu_layer;
    const Complex g2 = j_omega * mu * layer.conductivity;
    const double g = std::sqrt(std::abs(g2));
    if (r == 0.0)
    {
      r = g > 0.0 ? std::min(layer.outer_radius, 1.0 / g) : layer.outer_radius;
      at = near_axis(g2, r);
    }
    while (r < layer.outer_radius)
    {
      const double longest = std::min(0.25 * r, g > 0.0 ? 1.0 / g : 0.25 * r);
      const double rest = layer.outer_radius - r;
      const double h = rest < longest ? rest : rest < 2.0 * longest ? 0.5 * rest : longest;
      at = stepped(at, g2, r, h);
      const double size = std::abs(at.E) + r * std::abs(at.slope);
      at.E /= size; // only the ratio counts
      at.slope /= size;
      r = h == rest ? layer.outer_radius : r + h;
    }
  }
  // Z' = E / I, I = 2 pi r H
  const Complex Z = at.E * j_omega * mu / (two_pi * r * at.slope);
  WireResult made;
  made.resistance = Z.real();
  made.inductance = Z.imag() / j_omega.imag();
  return made;
}

double toroid_integral(const mesh::Outline& section)
{
  // Green: int 1/r dr dz = closed integral of ln r dz, counter-clockwise.
  double sum = 0.0;
  for (const mesh::Piece& piece : section)
  {
    if (!piece.arc)
    {
      if (piece.from.z != piece.to.z)
        sum += mean_logarithm(piece.from.r, piece.to.r) * (piece.to.z - piece.from.z);
      continue;
    }
    const solver::LineRule& rule = solver::line_rule(48);
    const double turn = piece.arc->to - piece.arc->from;
    for (std::size_t i = 0; i < rule.points.size(); ++i)
    {
      const double angle = piece.arc->from + turn * rule.points[i];
      sum += rule.weights[i] * turn * piece.arc->radius * std::cos(angle) *
             std::log(piece.arc->centre.r + piece.arc->radius * std::cos(angle));
    }
  }
  return sum;
}

ToroidResult toroid(const std::string& name, double turns, std::complex<double> section_integral,
                    std::complex<double> permeability, double frequency)
{
  const Complex L = solver::mu0 * permeability * turns * turns * section_integral / two_pi;
  return {name, turns, 0.0 - two_pi * frequency * L.imag(), L.real()};
}

} // namespace post
