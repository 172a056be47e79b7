// Integrated over the particle's field, evenly in its logarithm, by Gauss points in each step.
#include "solver/powder_saturation.hpp"

#include "solver/problem.hpp"
#include "solver/quadrature.hpp"

#include <cmath>

namespace solver
{

namespace
{

/// dH and dB of the mixture by dH of a particle, where the particle's relative slope is p.
struct Rates
{
  double H = 1.0;
  double B = mu0;
};
Rates rates(double p, double f, MixingRule rule)
{
  if (p - 1.0 < 1e-9) // as air: both fields are one
    return {};
  const double m = effective_permeability({p, f, rule});
  const double by_H = f * (p - 1.0) / (m - 1.0);
  return {by_H, mu0 * m * by_H};
}

} // namespace

Magnetisation powder_curve(const Magnetisation& particle, double packing, MixingRule rule)
{
  // From far below any knee to where a particle's slope is that of air.
  const double J_s = particle.saturation(),
               start = 1e-4 * J_s / (mu0 * particle.initial_permeability());
  const LineRule& gauss = line_rule(6);
  CurveRows rows = {{0.0, 0.0}};
  double H = 0.0, B = 0.0, from = 0.0;
  constexpr int steps_a_decade = 24;
  for (int i = 0; i <= 400; ++i)
  {
    const double to = start * std::pow(10.0, static_cast<double>(i) / steps_a_decade);
    for (std::size_t q = 0; q < gauss.points.size(); ++q)
    {
      const double at = from + (to - from) * gauss.points[q];
      const Rates by = rates(particle.at_field(at).slope / mu0, packing, rule);
      H += gauss.weights[q] * (to - from) * by.H;
      B += gauss.weights[q] * (to - from) * by.B;
    }
    rows.push_back({H, B});
    from = to;
    if (B - mu0 * H > packing * J_s * (1.0 - 1e-5))
      break;
  }
  return Magnetisation(std::move(rows));
}

} // namespace solver
