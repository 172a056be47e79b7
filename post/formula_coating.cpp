// Turns each in a magnetic coating of its own: the flux that closes inside it is added per metre.
#include "post/formula_families.hpp"

#include <numbers>

namespace post
{
namespace
{

/// Least distance of neighbouring turns, in diameters of their coating.
constexpr double apart = 2.0;

std::vector<Condition> conditions(const FormulaScene& scene, double outer)
{
  const bool alone = scene.magnetic.size() == 1;
  const bool ring = scene.coil.turns == 1.0;
  return {{alone, alone ? "" : why_not_one_body(scene)},
          {ring || scene.round->layers == 1, "for one layer; here layers of coatings meet"},
          {ring || pitch(*scene.round) >= apart * 2.0 * outer,
           "for coatings well apart; here neighbours share flux"},
          {outer <= 0.1 * scene.coil.diameter, "for coatings below a fifth of the loop"}};
}

} // namespace

std::vector<FormulaResult> coating_formulas(const FormulaScene& scene)
{
  if (scene.round == nullptr || !scene.round->coating)
  {
    return {};
  }
  const double mu = solver::material(scene.problem, scene.round->coating->material).permeability;
  if (mu == 1.0)
  {
    return {};
  }
  const double inner = scene.round->wire_diameter / 2.0 + scene.round->insulation;
  const double outer = inner + scene.round->coating->thickness;
  const double wire = scene.coil.turns * std::numbers::pi * scene.coil.diameter;
  const double value = air_estimate(scene) + wire * coating_inductance(mu, inner, outer);
  return {formula({scene.coil.turns == 1.0 ? "coated ring" : "coated turns",
                   "mu0 (mu-1) ln(b/a) / 2 pi per metre, Ampere's law; common practice, no source",
                   "1 % for coatings below a fifth of the loop and well apart"},
                  value, conditions(scene, outer))};
}

} // namespace post
