// Coils on a solid rod or around a tube as their core: endless, demagnetised, and short coils.
//
// All add what the core brings to the coil's own inductance in air.
#include "post/formula_families.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace post
{
namespace
{

using solver::mu0;

/// A core of the coil: solid where `bore` is 0 [m].
struct Core
{
  const MagneticBody* body = nullptr;
  double diameter = 0.0;
  double bore = 0.0;
  double length = 0.0;
};

double area(const Core& core)
{
  return std::numbers::pi / 4.0 * (core.diameter * core.diameter - core.bore * core.bore);
}

/// The first magnetic rod or tube that lies inside the coil.
std::optional<Core> core_of(const FormulaScene& scene)
{
  const double room = scene.coil.diameter - scene.coil.thickness;
  for (const MagneticBody& body : scene.magnetic)
  {
    if (body.part == nullptr || body.coating)
    {
      continue;
    }
    Core core{.body = &body};
    if (const auto* rod = std::get_if<mesh::Rod>(&body.part->shape))
    {
      core.diameter = rod->diameter;
      core.length = rod->length;
    }
    else if (const auto* tube = std::get_if<mesh::Tube>(&body.part->shape))
    {
      core.diameter = tube->outer_diameter;
      core.bore = tube->inner_diameter;
      core.length = tube->length;
    }
    // A sleeve around the coil is another family; drawn sizes may touch up to round-off.
    if (core.diameter > 0.0 && core.diameter <= room * (1.0 + 1e-9))
    {
      return core;
    }
  }
  return std::nullopt;
}

/// mu0 (mu_app - 1) N^2 A / l_coil.
double added(const Core& core, const CoilShape& coil, double apparent)
{
  return mu0 * (apparent - 1.0) * coil.turns * coil.turns * area(core) / coil.length;
}

/// Share of chi mu0 N^2 A / l_coil that even leakage along the core leaves.
///
/// A core of susceptibility chi leaks flux evenly, lambda per length and ampere: flux and magnetic
/// tension obey F' = -lambda U, U' = N/c - F/(chi mu0 A), F = 0 at both ends. Then F'' = g^2 F
/// inside and outside the coil but for the constant p = chi mu0 A N/c, and the mean of F over the
/// coil is p (1 - X/(g c)), with k = coth(g s) for the stretches s of bare core and t = tanh(g c):
/// X = [k1 (t + k2 - k2/ch) + k2 (t + k1 - k1/ch)] / (t + k1 + k2 + k1 k2 t), ch = cosh(g c).
/// lambda is set so that a coil over the whole of an endlessly permeable core sees the
/// demagnetising factor: lambda = 12 mu0 A / (N_d l^2), hence g^2 = 12 / (chi N_d l^2).
double leakage_share(const Core& core, const CoilShape& coil, double chi, double factor)
{
  const double g = std::sqrt(12.0 / (chi * factor)) / core.length;
  const double offset = coil.centre - core.body->part->centre;
  const double least = 1e-9 * core.length; // a coil flush with the end
  const double below = std::max(least, (core.length - coil.length) / 2.0 + offset);
  const double above = std::max(least, (core.length - coil.length) / 2.0 - offset);
  const double k1 = 1.0 / std::tanh(g * below);
  const double k2 = 1.0 / std::tanh(g * above);
  const double t = std::tanh(g * coil.length);
  const double drop = 1.0 - 1.0 / std::cosh(g * coil.length);
  const double X = (k1 * (t + k2 * drop) + k2 * (t + k1 * drop)) / (t + k1 + k2 + k1 * k2 * t);
  return 1.0 - X / (g * coil.length);
}

/// The core's leakage_share() in series with Wheeler's 0.45 D for the coil's ends.
double added_by_short_coil(const Core& core, const CoilShape& coil, double factor)
{
  // Beyond 1e8 nothing changes but the round-off of 1 - X/(g c).
  const double chi = std::min(core.body->permeability - 1.0, 1e8);
  const double share = leakage_share(core, coil, chi, factor);
  const double length = (coil.length / share + 0.45 * coil.diameter) / chi;
  return mu0 * coil.turns * coil.turns * area(core) / length;
}

struct Conditions
{
  Condition alone, covered, within, slender, close;
};

Conditions conditions(const FormulaScene& scene, const Core& core)
{
  const CoilShape& coil = scene.coil;
  const double offset = std::abs(coil.centre - core.body->part->centre);
  const double share = coil.length / core.length;
  return {
      .alone = {only_body(scene) != nullptr, why_not_one_body(scene)},
      .covered = {share >= 0.8 && share <= 1.05 && offset <= 0.02 * core.length,
                  fmt::format("for a coil over the whole core; this one covers {:.0f} %{}",
                              100.0 * share, offset > 0.02 * core.length ? ", off centre" : "")},
      .within = {offset <= 0.375 * core.length &&
                     coil.length / 2.0 + offset <= 0.5 * core.length * (1.0 + 1e-9),
                 "for a coil on the core, its middle an eighth of it from the ends"},
      .slender = {core.length >= 5.0 * core.diameter, "for cores longer than five diameters"},
      .close = {coil.diameter <= 1.3 * core.diameter, "for a coil close to the core"}};
}

/// 0.37 (l/d)^-1.44 speaks of strongly magnetic rods only.
FormulaResult burhans_formula(const Core& core, const CoilShape& coil, double air,
                              const Conditions& when)
{
  const double aspect = core.length / core.diameter;
  const double mu = core.body->permeability;
  return formula({"rod, fitted factor", "[Pettengill 1977; Burhans 1979]",
                  "60 % too high at most: the middle's flux taken throughout"},
                 air + added(core, coil, apparent_permeability(mu, burhans_factor(aspect))),
                 {when.alone,
                  when.covered,
                  {aspect >= 2.0 && aspect <= 20.0, "for rods of l/D 2 to 20"},
                  {mu >= 100.0, "for strongly magnetic rods, mu above 100"}});
}

/// The volume's mean by the computed table; a wall of share f acts like a full rod of f chi.
FormulaResult table_formula(const Core& core, const CoilShape& coil, double air,
                            const Conditions& when)
{
  const bool rod = core.bore == 0.0;
  const double aspect = core.length / core.diameter;
  const double share = 1.0 - std::pow(core.bore / core.diameter, 2);
  const double mu = core.body->permeability;
  const double factor = cylinder_factors(aspect, 1.0 + share * (mu - 1.0)).magnetometric * share;
  return formula({rod ? "rod, table of cylinders" : "tube core, table of cylinders",
                  rod ? "quantity of [Chen, Brug & Goldfarb 1991], computed anew"
                      : "quantity of [Chen, Brug & Goldfarb 1991] times wall share",
                  rod ? "10 % for a coil over the whole rod" : "15 % for a coil over it"},
                 air + added(core, coil, apparent_permeability(mu, factor)),
                 {when.alone,
                  when.covered,
                  when.slender,
                  when.close,
                  {mu >= 1.0 && aspect <= 100.0, "for mu above 1 and l/D below 100"}});
}

FormulaResult sato_ishii_formula(const Core& core, const CoilShape& coil, double air,
                                 const Conditions& when)
{
  const double mu = core.body->permeability;
  const double factor = sato_ishii_factor(core.length / core.diameter);
  return formula({"rod, cylinder factor", "[Sato & Ishii 1989]", "5 % for mu below 5"},
                 air + added(core, coil, apparent_permeability(mu, factor)),
                 {when.alone,
                  when.covered,
                  when.slender,
                  when.close,
                  {mu <= 5.0, "for weakly magnetic rods, mu below 5"}});
}

} // namespace

std::vector<FormulaResult> rod_formulas(const FormulaScene& scene)
{
  const std::optional<Core> core = scene.winding ? core_of(scene) : std::nullopt;
  if (!core)
  {
    return {};
  }
  const CoilShape& coil = scene.coil;
  const double air = air_estimate(scene);
  const double mu = core->body->permeability;
  // The charge on a tube's ends shrinks with its wall's share of the full section.
  const double solid = std::numbers::pi / 4.0 * core->diameter * core->diameter;
  const double factor = spheroid_factor(core->length / core->diameter) * area(*core) / solid;
  const Conditions when = conditions(scene, *core);
  const bool rod = core->bore == 0.0;
  const std::string kind = rod ? "rod" : "tube core";
  std::vector<FormulaResult> list = {
      formula({kind + ", spheroid factor",
               rod ? "[Osborn 1945; Stoner 1945]"
                   : "[Osborn 1945] times wall share; common practice, no source",
               rod ? "15 % for a coil over the whole rod; computed 13 % at l/D 50"
                   : "20 % for a coil over it"},
              air + added(*core, coil, apparent_permeability(mu, factor)),
              {when.alone, when.covered, when.slender, when.close}),
      formula(
          {kind + ", endless", "mu0 mu N^2 A / l; textbook",
           "8 % without demagnetisation: long, low mu"},
          air + added(*core, coil, mu),
          {when.alone,
           {(mu - 1.0) * factor <= 0.03,
            fmt::format("without demagnetisation; its factor is {:.2g}, mu {:.4g}", factor, mu)},
           {coil.length >= 10.0 * coil.diameter, "for coils longer than ten diameters"}})};
  if (mu > 1.0)
  {
    list.push_back(
        formula({kind + ", short coil", "even leakage along the core, derived here; no source",
                 "25 % for a coil clear of the core's ends; computed 22 %"},
                air + added_by_short_coil(*core, coil, factor),
                {when.alone, when.within, when.slender, when.close}));
  }
  list.push_back(table_formula(*core, coil, air, when));
  if (rod)
  {
    list.push_back(sato_ishii_formula(*core, coil, air, when));
    list.push_back(burhans_formula(*core, coil, air, when));
  }
  return list;
}

} // namespace post
