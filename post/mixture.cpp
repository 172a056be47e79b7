// Each rule asked for the number that is missing.
#include "post/mixture.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace post
{

namespace
{

using solver::MixingRule;
using solver::Unmixed;

bool has_loss(const std::optional<std::complex<double>>& permeability)
{
  return permeability && permeability->imag() != 0.0;
}

Unmixed found(const MixtureQuestion& known, MixtureSought sought, MixingRule rule)
{
  switch (sought)
  {
  case MixtureSought::effective:
    return {solver::effective_permeability(*known.particle, *known.packing, rule)};
  case MixtureSought::packing:
    return solver::packing_for(known.effective->real(), known.particle->real(), rule);
  case MixtureSought::particle:
    return solver::particle_for(*known.effective, *known.packing, rule);
  }
  return {};
}

/// @brief By central difference; nothing where a neighbour has no solution.
std::optional<double> sensitivity(MixtureQuestion known, MixtureSought sought, MixingRule rule)
{
  constexpr double step = 1e-5; // truncation 1e-10, round-off 1e-11 of the slope
  const std::complex<double> middle = *known.effective;
  known.effective = middle * std::exp(step);
  const Unmixed above = found(known, sought, rule);
  known.effective = middle * std::exp(-step);
  const Unmixed below = found(known, sought, rule);
  if (!above.value || !below.value)
    return std::nullopt;
  return std::log(above.value->real() / below.value->real()) / (2.0 * step);
}

void find_bounds(Mixture& mixture)
{
  const MixtureQuestion& known = mixture.question;
  if (mixture.sought == MixtureSought::effective && mixture.lossy)
    mixture.corners = solver::powder_bounds(*known.particle, *known.packing);
  else if (mixture.sought == MixtureSought::effective)
  {
    const solver::PowderBounds bounds =
        solver::powder_bounds({known.particle->real(), *known.packing});
    mixture.bounds = {{bounds.wiener_lower, bounds.wiener_upper},
                      {bounds.hashin_shtrikman_lower, bounds.hashin_shtrikman_upper}};
  }
  else if (mixture.sought == MixtureSought::particle && !mixture.lossy)
    mixture.bounds = solver::particle_bounds(known.effective->real(), *known.packing);
  else if (mixture.sought == MixtureSought::packing)
  {
    const double m = known.effective->real(), mu = known.particle->real();
    if (mu != 1.0 && m >= std::min(1.0, mu) && m <= std::max(1.0, mu))
      mixture.bounds = solver::packing_bounds(m, mu);
  }
}

} // namespace

Mixture mixture(const MixtureQuestion& question)
{
  const int known = int(question.particle.has_value()) + int(question.packing.has_value()) +
                    int(question.effective.has_value());
  if (known != 2)
    throw std::invalid_argument(
        "two of particle, packing and effective permeability must be known");
  Mixture result;
  result.question = question;
  result.sought = !question.effective ? MixtureSought::effective
                  : !question.packing ? MixtureSought::packing
                                      : MixtureSought::particle;
  result.lossy = has_loss(question.particle) || has_loss(question.effective);
  if (result.lossy && result.sought == MixtureSought::packing)
    throw std::invalid_argument("a packing follows from permeabilities without loss only");
  for (const solver::RuleInfo& info : solver::mixing_rules())
    if (!question.rule || *question.rule == info.rule)
    {
      MixtureByRule one{info, found(question, result.sought, info.rule)};
      if (result.sought != MixtureSought::effective && !result.lossy && one.found.value)
        one.sensitivity = sensitivity(question, result.sought, info.rule);
      result.rules.push_back(one);
    }
  find_bounds(result);
  return result;
}

} // namespace post
