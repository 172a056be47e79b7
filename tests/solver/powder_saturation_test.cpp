// Powders of saturating particles: the rule at weak fields, the particles' share far up.
#include "solver/powder_saturation.hpp"
#include "solver/problem.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace solver;

TEST_CASE("a powder's curve begins with its rule and ends with its share of the saturation",
          "[magnetisation] [powder]")
{
  const Magnetisation grain(HyperbolicTangent{0.4, 700.0});
  for (const RuleInfo& info : mixing_rules())
  {
    const double f = 0.55, m = effective_permeability({700.0, f, info.rule});
    const Magnetisation dust = powder_curve(grain, f, info.rule);
    CAPTURE(std::string(info.name), m);
    // The table's first step is a ten-thousandth of the knee.
    CHECK(dust.initial_permeability() == Approx(m).epsilon(1e-4));
    CHECK(dust.saturation() == Approx(f * 0.4).epsilon(2e-3));
    const double H = 0.1 * f * 0.4 / (mu0 * m);
    CHECK(dust.at_field(H).B == Approx(mu0 * m * H).epsilon(0.02));
  }
}

TEST_CASE("full of particles a powder is the particles' own material", "[magnetisation] [powder]")
{
  const Magnetisation grain(ArcTangent{0.5, 90.0});
  const Magnetisation whole = powder_curve(grain, 1.0, MixingRule::maxwell_garnett);
  for (const double H : {10.0, 1e3, 2e4})
    CHECK(whole.at_field(H).B == Approx(grain.at_field(H).B).epsilon(1e-4)); // cubics between rows
}

TEST_CASE("particles saturate in a far greater outer field when packed", "[magnetisation] [powder]")
{
  // At packing f the air between carries the field strength: half of the saturation needs about
  // mu_solid / mu_powder times the field.
  const Magnetisation grain(FroehlichKennelly{0.45, 2000.0});
  const Magnetisation dust = powder_curve(grain, 0.6, MixingRule::maxwell_garnett);
  const double solid = grain.at_flux(0.225).H, packed = dust.at_flux(0.6 * 0.225).H;
  CHECK(packed > 50.0 * solid);
}
