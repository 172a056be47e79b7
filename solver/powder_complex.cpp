// Complex mixing rules. Throughout, "the wedge" is the set of arguments from arg(mu) < 0 to 0.
#include "solver/powder_complex.hpp"

#include <cassert>
#include <cmath>

namespace solver
{

namespace
{

using Complex = std::complex<double>;

/// @brief Principal power; a cut along the negative axis is met from below, where loss lies.
Complex power(Complex mu, double exponent)
{
  return std::polar(std::pow(std::abs(mu), exponent), exponent * std::arg(mu));
}

Complex maxwell_garnett(Complex inner, double f)
{
  return (2.0 * (1.0 - f) + (1.0 + 2.0 * f) * inner) / (2.0 + f + (1.0 - f) * inner);
}

/// Root of 2 y^2 - b y - 1 = 0 with Re y > 0, m = y sqrt(mu).
///
/// In f (mu-m)/(mu+2m) + (1-f)(1-m)/(1+2m) = 0 a real m, or one on the ray of mu, makes one term
/// real and the other not, so that no root crosses the wedge's edges as mu turns from the real
/// axis. The product of both roots is -mu/2: one is in the wedge, the other opposite to it.
Complex bruggeman(Complex mu, double f)
{
  const Complex half = power(mu, 0.5);
  const Complex b = ((3.0 * f - 1.0) * mu + 2.0 - 3.0 * f) / half;
  const Complex root = std::sqrt(b * b + 8.0);
  // The larger sum has no cancellation; y1 y2 = -1/2 gives the other root.
  const Complex y = (std::abs(b + root) >= std::abs(b - root) ? b + root : b - root) / 4.0;
  return half * (y.real() > 0.0 ? y : -0.5 / y);
}

/// Newton on x^3 + (1-f)(mu-1) x - mu = 0 from a near root.
Complex polished(Complex x, Complex mu, double f)
{
  const Complex slope = (1.0 - f) * (mu - 1.0);
  for (int step = 0; step < 50; ++step)
  {
    const Complex change = ((x * x + slope) * x - mu) / (3.0 * x * x + slope);
    x -= change;
    if (!(std::abs(change) > 1e-15 * std::abs(x)))
      break;
  }
  return x;
}

/// The cubic's only root x with arg x from arg(mu)/3 to 0: on a real x the imaginary part forces
/// x = 1/(1-f), then the real part f = 0; on the ray of mu^(1/3) the equation over mu forces f = 1.
/// So none crosses the edges for 0 < f < 1, and near f = 1 just one is inside. It is simple there,
/// and followed from |mu| as mu turns.
Complex bruggeman_differential(Complex mu, double f)
{
  const double size = std::abs(mu), angle = std::arg(mu);
  Complex x = std::cbrt(effective_permeability({size, f, MixingRule::bruggeman_differential}));
  constexpr int steps = 64;
  for (int step = 1; step <= steps; ++step)
    x = polished(x, std::polar(size, angle * step / steps), f);
  return x * x * x;
}

Complex looyenga(Complex mu, double f)
{
  const Complex x = 1.0 - f + f * power(mu, 1.0 / 3.0);
  return x * x * x;
}

} // namespace

bool passive(Complex permeability)
{
  return permeability.imag() < 0.0 || (permeability.imag() == 0.0 && permeability.real() > 0.0);
}

Complex effective_permeability(Complex particle, double packing, MixingRule rule)
{
  assert(passive(particle) && packing >= 0.0 && packing <= 1.0);
  if (particle.imag() == 0.0)
    return effective_permeability({particle.real(), packing, rule});
  switch (rule)
  {
  case MixingRule::maxwell_garnett:
    return maxwell_garnett(particle, packing);
  case MixingRule::bruggeman:
    return bruggeman(particle, packing);
  case MixingRule::bruggeman_differential:
    return bruggeman_differential(particle, packing);
  case MixingRule::lichtenecker:
    return power(particle, packing);
  case MixingRule::looyenga:
    return looyenga(particle, packing);
  }
  assert(false);
  return 1.0;
}

ComplexBounds powder_bounds(Complex particle, double packing)
{
  assert(passive(particle) && packing >= 0.0 && packing <= 1.0);
  const Complex mu = particle;
  const double f = packing;
  return {{mu / (f + (1.0 - f) * mu), 1.0 - f + f * mu},
          {maxwell_garnett(mu, f), mu * (3.0 - 2.0 * f + 2.0 * f * mu) / ((3.0 - f) * mu + f)}};
}

} // namespace solver
