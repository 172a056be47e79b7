// Mixing rules and bounds, each arranged so that empty, full and extreme mixtures (packing 0 and 1,
// particles of 1e-9 to 1e9) lose no digits. Knows no scene: what it returns is one number.
#include "solver/powder.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace solver
{
namespace
{

/// Spheres of `inner` in a matrix of air: (m-1)/(m+2) = f (inner-1)/(inner+2).
double maxwell_garnett(double inner, double f)
{
  return (2.0 * (1.0 - f) + (1.0 + 2.0 * f) * inner) / (2.0 + f + (1.0 - f) * inner);
}

/// Spheres of air in a matrix of `outer`: the same law with the phases exchanged.
double exchanged_maxwell_garnett(double outer, double f)
{
  return outer * (3.0 - 2.0 * f + 2.0 * f * outer) / ((3.0 - f) * outer + f);
}

/// Positive root of 2 m^2 - b m - mu = 0, from f (mu-m)/(mu+2m) + (1-f)(1-m)/(1+2m) = 0.
double bruggeman(double mu, double f)
{
  const double b = (3.0 * f - 1.0) * mu + 2.0 - 3.0 * f;
  const double root = std::sqrt(b * b + 8.0 * mu);
  // The branch avoids the difference of two nearly equal numbers.
  return b >= 0.0 ? (b + root) / 4.0 : 2.0 * mu / (root - b);
}

/// (mu-m)/(mu-1) m^(-1/3) = 1-f, as x^3 + (1-f)(mu-1) x - mu = 0 with x^3 = m.
double bruggeman_differential(double mu, double f)
{
  const double slope = (1.0 - f) * (mu - 1.0);
  // The cubic is convex for x > 0 and not negative at this start, so Newton falls to the root.
  double x = std::max(1.0, std::cbrt(mu));
  for (int step = 0; step < 100; ++step)
  {
    const double next = x - ((x * x + slope) * x - mu) / (3.0 * x * x + slope);
    if (!(next < x))
    {
      break;
    }
    x = next;
  }
  return x * x * x;
}

double looyenga(double mu, double f)
{
  const double x = 1.0 - f + f * std::cbrt(mu);
  return x * x * x;
}

} // namespace

double effective_permeability(const Powder& powder)
{
  const double mu = powder.particle_permeability;
  const double f = powder.packing;
  assert(mu > 0.0 && f >= 0.0 && f <= 1.0);
  switch (powder.rule)
  {
  case MixingRule::maxwell_garnett:
    return maxwell_garnett(mu, f);
  case MixingRule::bruggeman:
    return bruggeman(mu, f);
  case MixingRule::bruggeman_differential:
    return bruggeman_differential(mu, f);
  case MixingRule::lichtenecker:
    return std::pow(mu, f);
  case MixingRule::looyenga:
    return looyenga(mu, f);
  }
  assert(false);
  return 1.0;
}

PowderBounds powder_bounds(const Powder& powder)
{
  const double mu = powder.particle_permeability;
  const double f = powder.packing;
  assert(mu > 0.0 && f >= 0.0 && f <= 1.0);
  // Which of the two is the lower one turns over at mu = 1.
  const auto [lower, upper] =
      std::minmax({maxwell_garnett(mu, f), exchanged_maxwell_garnett(mu, f)});
  return {.wiener_lower = mu / (f + (1.0 - f) * mu),
          .wiener_upper = (1.0 - f) + f * mu,
          .hashin_shtrikman_lower = lower,
          .hashin_shtrikman_upper = upper};
}

double packing(double tap_density, double grain_density)
{
  assert(tap_density > 0.0 && grain_density > 0.0);
  return tap_density / grain_density;
}

double packing(double mass, double volume, double grain_density)
{
  assert(volume > 0.0);
  return packing(mass / volume, grain_density);
}

} // namespace solver
