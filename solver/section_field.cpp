// Section fields for blocks and round turns; sheets have no inside.
#include "solver/section_field.hpp"

#include "solver/quadrature.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace solver
{

namespace
{

using std::numbers::pi;

double block_density(const mesh::BlockSection& b, double ampere_turns)
{
  return ampere_turns / ((b.r_outer - b.r_inner) * (b.z_high - b.z_low));
}

/// C of J = C/r in a round section: its integral over the disc is 2 pi (R - sqrt(R^2 - a^2)).
double solid_constant(const mesh::RoundSection& w, double ampere_turns)
{
  const double R = w.centre.r, a = w.radius;
  return ampere_turns / (2.0 * pi * a * a / (R + std::sqrt((R - a) * (R + a))));
}

/// Divergence C/r - J0 without outflow through the circle: P(x) is what flows through the chord at
/// x, spread evenly over its length w; streamlines scale with the chord.
Eigen::Vector2d even_chord_flow(const mesh::RoundSection& w, double ampere_turns, double x,
                                double y)
{
  const double a = w.radius, C = solid_constant(w, ampere_turns), J0 = ampere_turns / (pi * a * a);
  const double angle = std::acos(std::clamp(-x / a, -1.0, 1.0));
  const bool near_start = angle < 0.5 * pi;
  const double from = near_start ? 0.0 : pi;
  const LineRule& rule = line_rule(20);
  double P = 0.0;
  for (std::size_t i = 0; i < rule.points.size(); ++i)
  {
    const double at = from + rule.points[i] * (angle - from), sine = std::sin(at);
    P += rule.weights[i] * (angle - from) * (C / (w.centre.r - a * std::cos(at)) - J0) * 2.0 * a *
         a * sine * sine;
  }
  const double chord = 2.0 * a * std::sin(angle);
  if (chord <= 0.0)
    return {0.0, 0.0};
  // d(chord)/dx = -4 x / chord
  return {P / chord, -4.0 * P * x * y / (chord * chord * chord)};
}

} // namespace

double current_density(const mesh::Conductor& conductor, double ampere_turns, double s, double)
{
  if (const auto* block = std::get_if<mesh::BlockSection>(&conductor.section))
    return block_density(*block, ampere_turns);
  if (const auto* wire = std::get_if<mesh::RoundSection>(&conductor.section))
    return wire->strand == mesh::Strand::solid ? solid_constant(*wire, ampere_turns) / std::sqrt(s)
                                               : ampere_turns / (pi * wire->radius * wire->radius);
  return 0.0;
}

Eigen::Vector2d section_field(const mesh::Conductor& conductor, double ampere_turns, double s,
                              double z)
{
  const double r = std::sqrt(s);
  if (const auto* block = std::get_if<mesh::BlockSection>(&conductor.section))
    return {0.0, block_density(*block, ampere_turns) * (block->r_outer - r)};
  const auto* wire = std::get_if<mesh::RoundSection>(&conductor.section);
  if (!wire)
    return {0.0, 0.0};
  const double x = r - wire->centre.r, y = z - wire->centre.z;
  const double half = 0.5 * ampere_turns / (pi * wire->radius * wire->radius);
  Eigen::Vector2d H{half * y, -half * x}; // (H_r, H_z): J = dH_r/dz - dH_z/dr
  if (wire->strand == mesh::Strand::solid)
  {
    const Eigen::Vector2d V = even_chord_flow(*wire, ampere_turns, x, y);
    H += Eigen::Vector2d{V[1], -V[0]};
  }
  return {H[0] / (2.0 * r), H[1]};
}

} // namespace solver
