// Mixing rules read backwards: there and back again, and where there is no way back.
#include "solver/powder_complex.hpp"
#include "solver/powder_inverse.hpp"

#include <catch2/catch.hpp>

#include <cmath>

namespace
{

using Complex = std::complex<double>;
using solver::MixingRule;

const double particles[] = {0.01, 0.7, 1.5, 10.0, 700.0, 1e5};
const double packings[] = {0.05, 0.3, 1.0 / 3.0, 0.6, 0.74, 1.0};

double effective(double particle, double packing, MixingRule rule)
{
  return solver::effective_permeability({particle, packing, rule});
}

} // namespace

TEST_CASE("a rule read backwards finds the packing and the particle it was given", "[powder]")
{
  for (const solver::RuleInfo& info : solver::mixing_rules())
    for (const double mu : particles)
      for (const double f : packings)
      {
        CAPTURE(info.name, mu, f);
        const double m = effective(mu, f, info.rule);
        const solver::Unmixed packing = solver::packing_for(m, mu, info.rule);
        REQUIRE(packing.value);
        CHECK(packing.value->real() == Approx(f).epsilon(1e-11));
        const solver::Unmixed particle = solver::particle_for(m, f, info.rule);
        REQUIRE(particle.value);
        // Grains of 1e5 hardly show in the mixture: d ln mu / d ln m is up to 1e5.
        CHECK(particle.value->real() == Approx(mu).epsilon(1e-9));
        CHECK(particle.value->imag() == 0.0);
      }
}

TEST_CASE("a rule read backwards finds particles with loss", "[powder]")
{
  for (const solver::RuleInfo& info : solver::mixing_rules())
    for (const Complex mu : {Complex{700.0, -30.0}, Complex{2.0, -5.0}, Complex{-3.0, -4.0}})
      for (const double f : packings)
      {
        CAPTURE(info.name, mu, f);
        const Complex m = solver::effective_permeability(mu, f, info.rule);
        const solver::Unmixed particle = solver::particle_for(m, f, info.rule);
        REQUIRE(particle.value);
        CHECK(std::abs(*particle.value / mu - 1.0) < 1e-9);
      }
  // Cube root 0.968 - 0.374 j; less 0.9 its argument is -1.39, cubed beyond -pi: a source of power.
  CHECK_FALSE(solver::particle_for({0.5, -1.0}, 0.1, MixingRule::looyenga).value);
}

TEST_CASE("no packing makes a powder beyond its particles, or one of particles like air",
          "[powder]")
{
  for (const solver::RuleInfo& info : solver::mixing_rules())
  {
    CHECK_FALSE(solver::packing_for(7.1, 7.0, info.rule).value);
    CHECK_FALSE(solver::packing_for(0.9, 7.0, info.rule).value);
    CHECK_FALSE(solver::packing_for(1.1, 0.5, info.rule).value);
    CHECK_FALSE(solver::packing_for(1.0, 1.0, info.rule).value);
    CHECK(solver::packing_for(7.1, 7.0, info.rule).most == 7.0);
    CHECK(solver::packing_for(1.0, 7.0, info.rule).value->real() == 0.0);
    CHECK(solver::packing_for(7.0, 7.0, info.rule).value->real() == Approx(1.0).epsilon(1e-15));
  }
}

TEST_CASE("a rule's reach at a packing is what particles without end give", "[powder]")
{
  for (const solver::RuleInfo& info : solver::mixing_rules())
    for (const double f : {0.1, 0.3, 0.6})
    {
      CAPTURE(info.name, f);
      const solver::Unmixed unmixed = solver::particle_for(1.5, f, info.rule);
      if (std::isfinite(unmixed.most)) // the rest is O(mu^-1) to O(mu^-1/2 at the percolation)
        CHECK(effective(1e12, f, info.rule) == Approx(unmixed.most).epsilon(1e-5));
      else
        CHECK(effective(1e12, f, info.rule) > 10.0);
      CHECK(effective(1e-15, f, info.rule) == Approx(unmixed.least).margin(0.04));
      if (unmixed.least > 0.0)
        CHECK_FALSE(solver::particle_for(unmixed.least * 0.99, f, info.rule).value);
      CHECK_FALSE(solver::particle_for(unmixed.most * 1.01, f, info.rule).value);
    }
  // Maxwell Garnett at 0.6 ends at 1 + 3 f/(1-f) = 5.5, the differential rule at (1-f)^-3.
  CHECK(solver::particle_for(2.0, 0.6, MixingRule::maxwell_garnett).most == Approx(5.5));
  CHECK(solver::particle_for(2.0, 0.6, MixingRule::bruggeman_differential).most == Approx(15.625));
}

TEST_CASE("bounds read backwards hold what each rule that keeps them finds", "[powder]")
{
  const double slack = 1e-9;
  const auto within = [&](double value, const solver::UnmixedRange& range)
  { return value >= range.lower * (1 - slack) && value <= range.upper * (1 + slack); };
  for (const double mu : {0.01, 0.7, 1.5, 10.0, 700.0})
    for (const double f : {0.05, 0.3, 0.6, 0.74})
      for (const solver::RuleInfo& info : solver::mixing_rules())
      {
        CAPTURE(mu, f, info.name);
        const double m = effective(mu, f, info.rule);
        const solver::UnmixedBounds packing = solver::packing_bounds(m, mu);
        const solver::UnmixedBounds particle = solver::particle_bounds(m, f);
        CHECK(within(f, packing.wiener));
        CHECK(within(mu, particle.wiener));
        if (info.keeps_isotropic_bounds)
        {
          CHECK(within(f, packing.hashin_shtrikman));
          CHECK(within(mu, particle.hashin_shtrikman));
        }
        // The ends are powders whose forward bounds touch the measured value.
        const auto touches = [&](double end, double forward)
        { return forward == Approx(m).epsilon(1e-9) || !(end > 0.0 && std::isfinite(end)); };
        const auto [low, high] = packing.hashin_shtrikman;
        const bool above = mu > 1.0;
        CHECK(touches(low, above ? solver::powder_bounds({mu, low}).hashin_shtrikman_upper
                                 : solver::powder_bounds({mu, low}).hashin_shtrikman_lower));
        CHECK(touches(high, above ? solver::powder_bounds({mu, high}).hashin_shtrikman_lower
                                  : solver::powder_bounds({mu, high}).hashin_shtrikman_upper));
        const auto [least, most] = particle.wiener;
        CHECK(touches(least, above || least == 0.0
                                 ? solver::powder_bounds({std::max(least, 1e-300), f}).wiener_upper
                                 : solver::powder_bounds({least, f}).wiener_upper));
        if (std::isfinite(most))
          CHECK(touches(most, solver::powder_bounds({most, f}).wiener_lower));
      }
}

TEST_CASE("packing is the share of the volume that grains fill", "[powder]")
{
  // Grains of 4.8 g/cm3: a tap density of 2.88 g/cm3 is a packing of 0.60 (worked out by hand).
  CHECK(solver::packing(2880.0, 4800.0) == Approx(0.6));
  CHECK(solver::packing(28.8e-3, 10e-6, 4800.0) == Approx(0.6));
}
