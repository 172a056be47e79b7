// Mixing rules for particles with loss: the equation each solves, the branch, and what must hold.
#include "solver/powder_complex.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>
#include <numbers>

namespace
{

using Complex = std::complex<double>;
using solver::effective_permeability;
using solver::MixingRule;

const double sizes[] = {0.01, 0.5, 2.0, 10.0, 700.0, 1e5};
const double angles[] = {-1e-9, -0.01, -0.3, -1.0,
                         -1.6,  -2.5,  -3.1}; // of mu; -pi/2 and on: mu' <= 0
const double packings[] = {1e-6, 0.1, 1.0 / 3.0, 0.5, 0.64, 0.9, 0.999999};

/// @brief Principal cube root.
Complex cube_root(Complex value)
{
  return std::polar(std::cbrt(std::abs(value)), std::arg(value) / 3.0);
}

/// @brief How far a value is from solving its rule's equation, against the size of its terms.
double residual(Complex m, Complex mu, double f, MixingRule rule)
{
  const auto of = [](Complex a, Complex b)
  { return std::abs(a - b) / (std::abs(a) + std::abs(b)); };
  switch (rule)
  {
  case MixingRule::maxwell_garnett:
    return of((m - 1.0) * (mu + 2.0), f * (mu - 1.0) * (m + 2.0));
  case MixingRule::bruggeman:
    return of(f * (mu - m) * (1.0 + 2.0 * m), (1.0 - f) * (m - 1.0) * (mu + 2.0 * m));
  case MixingRule::bruggeman_differential:
    return of(mu - m, (1.0 - f) * (mu - 1.0) * cube_root(m));
  case MixingRule::lichtenecker:
    return of(std::log(m), f * std::log(mu));
  case MixingRule::looyenga:
    return of(cube_root(m), f * cube_root(mu) + 1.0 - f);
  }
  return 1.0;
}

void for_every_mixture(const std::function<void(Complex, double, MixingRule)>& look)
{
  for (const double size : sizes)
    for (const double angle : angles)
      for (const double f : packings)
        for (const solver::RuleInfo& info : solver::mixing_rules())
        {
          CAPTURE(size, angle, f, info.name);
          look(std::polar(size, angle), f, info.rule);
        }
}

} // namespace

TEST_CASE("with loss, too, each rule solves the equation it is defined by", "[powder]")
{
  for_every_mixture(
      [](Complex mu, double f, MixingRule rule)
      {
        // The terms are differences where f is near 0 or 1: 1e-6 of the whole leaves ten digits.
        CHECK(residual(effective_permeability(mu, f, rule), mu, f, rule) < 1e-8);
      });
}

TEST_CASE("a mixture's loss angle lies between none and its particle's", "[powder]")
{
  for_every_mixture(
      [](Complex mu, double f, MixingRule rule)
      {
        const double angle = std::arg(effective_permeability(mu, f, rule));
        CHECK(angle < 1e-15);
        CHECK(angle > std::arg(mu) - 1e-14);
      });
}

TEST_CASE("the branch joins the real one, and air and particle at the ends, without a jump",
          "[powder]")
{
  for (const solver::RuleInfo& info : solver::mixing_rules())
    for (const double size : sizes)
    {
      CAPTURE(info.name, size);
      for (const double f : packings)
      {
        const double real = effective_permeability({size, f, info.rule});
        Complex last = real;
        // Steps of 1/200 of a radian change the value by up to 3.3 % (measured, near the resonance
        // of round grains at mu = -2); another root lies further off.
        for (int step = 1; step < 600; ++step)
        {
          const Complex next =
              effective_permeability(std::polar(size, -0.005 * step), f, info.rule);
          REQUIRE(std::abs(next - last) < 0.05 * std::abs(last));
          last = next;
        }
        const Complex almost = effective_permeability(std::polar(size, -1e-10), f, info.rule);
        CHECK(std::abs(almost - real) < 1e-8 * real);
      }
      const Complex mu = std::polar(size, -0.7);
      CHECK(std::abs(effective_permeability(mu, 0.0, info.rule) - 1.0) < 1e-12);
      CHECK(std::abs(effective_permeability(mu, 1.0, info.rule) / mu - 1.0) < 1e-12);
    }
}

TEST_CASE("particles without loss give the values of the real rules", "[powder]")
{
  for (const solver::RuleInfo& info : solver::mixing_rules())
  {
    const Complex value = effective_permeability(Complex(700.0, 0.0), 0.6, info.rule);
    CHECK(value.imag() == 0.0);
    CHECK(value.real() == effective_permeability({700.0, 0.6, info.rule}));
  }
}

TEST_CASE("loss of dilute grains follows the grain's own demagnetisation", "[powder]")
{
  // f -> 0: m - 1 = 3 f (mu - 1)/(mu + 2) for round grains, so mu'' = 9 f mu''_p / |mu + 2|^2
  // (Jackson 1999, section 4.4, for a sphere). Next order is O(f) of it.
  const Complex mu{10.0, -4.0};
  const double f = 1e-7;
  const double loss = 9.0 * f * 4.0 / std::norm(mu + 2.0);
  for (const MixingRule rule :
       {MixingRule::maxwell_garnett, MixingRule::bruggeman, MixingRule::bruggeman_differential})
    CHECK(-effective_permeability(mu, f, rule).imag() == Approx(loss).epsilon(1e-5));
}

TEST_CASE("with loss all rules keep within the lens of circles through Wiener's values", "[powder]")
{
  // Both arcs join Wiener's values; going on, one passes through 1, the other through mu
  // [Bergman 1980; Milton 1980]. Seen from a point inside, the chord's ends stand at an angle not
  // less than pi minus the angle at which they are seen from the other circle's point.
  const auto seen = [](Complex a, Complex b, Complex from)
  { return std::abs(std::arg((a - from) / (b - from))); };
  int looked = 0;
  for_every_mixture(
      [&](Complex mu, double f, MixingRule rule)
      {
        const solver::ComplexBounds bounds = solver::powder_bounds(mu, f);
        const auto& [series, parallel] = bounds.wiener;
        const Complex m = effective_permeability(mu, f, rule);
        // A lens thinner than round-off, or a value on its tip, decides nothing.
        const double chord = std::abs(series - parallel);
        if (chord < 1e-4 * std::abs(m) || std::abs(m - series) < 1e-6 * chord ||
            std::abs(m - parallel) < 1e-6 * chord)
          return;
        ++looked;
        const double side = ((m - series) / (parallel - series)).imag();
        const double side_of_air = ((1.0 - series) / (parallel - series)).imag();
        // The arc opposite to a point has inscribed angles that add up to pi with that point's.
        const Complex other = side * side_of_air > 0.0 ? mu : Complex(1.0);
        CHECK(seen(series, parallel, m) >= std::numbers::pi - seen(series, parallel, other) - 1e-6);
      });
  CHECK(looked > 800);
}
