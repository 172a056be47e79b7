// Each rule solved for its packing or its particle in closed form.
#include "solver/powder_inverse.hpp"
#include "solver/powder_complex.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace solver
{

namespace
{

using Complex = std::complex<double>;

double solved_packing(double m, double mu, MixingRule rule)
{
  switch (rule)
  {
  case MixingRule::maxwell_garnett:
    return (m - 1.0) * (mu + 2.0) / ((m + 2.0) * (mu - 1.0));
  case MixingRule::bruggeman: // linear in f
  {
    const double grains = (mu - m) / (mu + 2.0 * m), air = (1.0 - m) / (1.0 + 2.0 * m);
    return air / (air - grains);
  }
  case MixingRule::bruggeman_differential:
    return 1.0 - (mu - m) / ((mu - 1.0) * std::cbrt(m));
  case MixingRule::lichtenecker:
    return std::log(m) / std::log(mu);
  case MixingRule::looyenga:
    return (std::cbrt(m) - 1.0) / (std::cbrt(mu) - 1.0);
  }
  assert(false);
  return 0.0;
}

Complex power(Complex base, double exponent)
{
  return std::polar(std::pow(std::abs(base), exponent), exponent * std::arg(base));
}

/// @brief mu from g = (mu - m)/(mu + 2 m); m = 1 for grains in air.
Complex from_contrast(Complex g, Complex m)
{
  return m * (1.0 + 2.0 * g) / (1.0 - g);
}

Complex solved_particle(Complex m, double f, MixingRule rule)
{
  switch (rule)
  {
  case MixingRule::maxwell_garnett:
    return from_contrast((m - 1.0) / ((m + 2.0) * f), 1.0);
  case MixingRule::bruggeman:
    return from_contrast((1.0 - f) / f * (m - 1.0) / (1.0 + 2.0 * m), m);
  case MixingRule::bruggeman_differential:
  {
    const Complex k = (1.0 - f) * power(m, 1.0 / 3.0);
    return (m - k) / (1.0 - k);
  }
  case MixingRule::lichtenecker:
    return power(m, 1.0 / f);
  case MixingRule::looyenga:
  {
    const Complex x = (power(m, 1.0 / 3.0) - (1.0 - f)) / f;
    return x * x * x;
  }
  }
  assert(false);
  return 1.0;
}

/// @brief Effective permeability of particles of endless permeability; of vanishing ones.
UnmixedRange reach(double f, MixingRule rule)
{
  constexpr double endless = std::numeric_limits<double>::infinity();
  if (f >= 1.0)
    return {0.0, endless};
  switch (rule)
  {
  case MixingRule::maxwell_garnett:
    return {2.0 * (1.0 - f) / (2.0 + f), (1.0 + 2.0 * f) / (1.0 - f)};
  case MixingRule::bruggeman:
    return {std::max(0.0, 1.0 - 1.5 * f), f < 1.0 / 3.0 ? 1.0 / (1.0 - 3.0 * f) : endless};
  case MixingRule::bruggeman_differential:
    return {std::pow(1.0 - f, 1.5), std::pow(1.0 - f, -3.0)};
  case MixingRule::lichtenecker:
    return {0.0, endless};
  case MixingRule::looyenga:
    return {std::pow(1.0 - f, 3.0), endless};
  }
  assert(false);
  return {};
}

/// @brief In ascending order; an end that is not a positive number is open.
UnmixedRange ordered(double a, double b, bool above_air)
{
  const auto known = [](double end) { return end > 0.0 && std::isfinite(end); };
  if (above_air) // a bound on contrast: open upwards; below air, towards 0
    return {a, known(b) ? b : std::numeric_limits<double>::infinity()};
  return {known(b) ? b : 0.0, a};
}

} // namespace

Unmixed packing_for(double effective, double particle, MixingRule rule)
{
  assert(effective > 0.0 && particle > 0.0);
  Unmixed result{std::nullopt, std::min(1.0, particle), std::max(1.0, particle)};
  const double round_off = 1e-14 * effective; // a full powder's value is not exactly the particle's
  if (particle != 1.0 && effective >= result.least - round_off &&
      effective <= result.most + round_off)
    result.value = std::clamp(solved_packing(effective, particle, rule), 0.0, 1.0);
  return result;
}

Unmixed particle_for(Complex effective, double packing, MixingRule rule)
{
  assert(passive(effective) && packing > 0.0 && packing <= 1.0);
  const auto [least, most] = reach(packing, rule);
  Unmixed result{std::nullopt, least, most};
  const bool real = effective.imag() == 0.0;
  if (real && !(effective.real() > least && effective.real() < most))
    return result;
  const Complex candidate = solved_particle(effective, packing, rule);
  if (!std::isfinite(std::abs(candidate)) || !passive(candidate))
    return result;
  // With loss a law of several roots may lead back to another one.
  if (real || std::abs(effective_permeability(candidate, packing, rule) - effective) <=
                  1e-6 * std::abs(effective))
    result.value = candidate;
  return result;
}

UnmixedBounds packing_bounds(double m, double mu)
{
  assert(mu != 1.0 && m >= std::min(1.0, mu) && m <= std::max(1.0, mu));
  const auto range = [](double a, double b) {
    return UnmixedRange{std::min(a, b), std::max(a, b)};
  };
  return {range((m - 1.0) / (mu - 1.0), mu * (m - 1.0) / (m * (mu - 1.0))),
          range(solved_packing(m, mu, MixingRule::maxwell_garnett),
                3.0 * mu * (m - 1.0) / ((mu - 1.0) * (2.0 * mu + m)))};
}

UnmixedBounds particle_bounds(double m, double f)
{
  assert(m > 0.0 && f > 0.0 && f <= 1.0);
  const bool above = m >= 1.0;
  // Parallel layers: 1 - f + f mu = m; series: 1 - f + f / mu = 1 / m.
  const double parallel = 1.0 + (m - 1.0) / f, series = f / (1.0 / m - (1.0 - f));
  // Grains in air, and air in grains: 2 f mu^2 + b mu - m f = 0.
  const double grains = solved_particle(m, f, MixingRule::maxwell_garnett).real();
  const double b = 3.0 - 2.0 * f - m * (3.0 - f);
  const double root = std::sqrt(b * b + 8.0 * f * f * m);
  const double air = b <= 0.0 ? (root - b) / (4.0 * f) : 2.0 * m * f / (root + b);
  return above ? UnmixedBounds{ordered(parallel, series, true), ordered(air, grains, true)}
               : UnmixedBounds{ordered(series, parallel, false), ordered(air, grains, false)};
}

} // namespace solver
