// Green's theorem carries the integral over the section to its boundary: int f(r) dr dz = closed
// integral of F(r) dz, F' = f.
#include "post/toroid_bias.hpp"

#include "mesh/piece.hpp"
#include "solver/quadrature.hpp"

#include <cmath>
#include <functional>
#include <numbers>

namespace post
{

namespace
{

constexpr double two_pi = 2.0 * std::numbers::pi;

/// What is integrated over the section, at one radius.
struct Densities
{
  double flux = 0.0, slope = 0.0, coenergy = 0.0, energy = 0.0;
  void add(double weight, const Densities& other)
  {
    flux += weight * other.flux;
    slope += weight * other.slope;
    coenergy += weight * other.coenergy;
    energy += weight * other.energy;
  }
};

/// F at r, from the smallest radius.
Densities integral(const std::function<Densities(double)>& f, double from, double to)
{
  constexpr int panels = 24;
  const solver::LineRule& rule = solver::line_rule(8);
  Densities sum;
  const double ratio = std::log(to / from) / panels; // H falls as 1/r: even in its logarithm
  for (int k = 0; k < panels && to > from; ++k)
    for (std::size_t i = 0; i < rule.points.size(); ++i)
    {
      const double r = from * std::exp(ratio * (k + rule.points[i]));
      sum.add(rule.weights[i] * ratio * r, f(r));
    }
  return sum;
}

} // namespace

ToroidAtBias toroid_at_bias(const mesh::Outline& section, double turns, double current,
                            const solver::Magnetisation& law)
{
  const double inner = mesh::extent(section).low.r, NI = std::abs(turns * current);
  const auto densities = [&](double r)
  {
    const solver::MagneticState at = law.at_field(NI / (two_pi * r));
    return Densities{turns * at.B, turns * turns / (two_pi * r) * at.slope,
                     two_pi * r * at.coenergy, two_pi * r * at.energy()};
  };
  Densities sum;
  const solver::LineRule& rule = solver::line_rule(24);
  for (const mesh::Piece& piece : section)
  {
    if (!piece.arc && piece.from.z == piece.to.z)
      continue;
    for (std::size_t i = 0; i < rule.points.size(); ++i)
    {
      double r = piece.from.r + rule.points[i] * (piece.to.r - piece.from.r);
      double dz = piece.to.z - piece.from.z;
      if (piece.arc)
      {
        const double turn = piece.arc->to - piece.arc->from;
        const double angle = piece.arc->from + turn * rule.points[i];
        r = piece.arc->centre.r + piece.arc->radius * std::cos(angle);
        dz = turn * piece.arc->radius * std::cos(angle);
      }
      sum.add(rule.weights[i] * dz, integral(densities, inner, r));
    }
  }
  const double sign = current < 0.0 ? -1.0 : 1.0;
  return {sign * sum.flux, sum.slope, sum.coenergy, sum.energy,
          law.at_field(NI / (two_pi * inner)).B};
}

} // namespace post
