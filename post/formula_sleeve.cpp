// A magnetic tube around the coil: what its own demagnetisation leaves of the gain, and a ceiling.
#include "post/formula_families.hpp"

#include <cmath>
#include <numbers>

namespace post
{
namespace
{

using solver::mu0;
using std::numbers::pi;

const MagneticBody* sleeve_of(const FormulaScene& scene)
{
  for (const MagneticBody& body : scene.magnetic)
  {
    const auto* tube = body.part != nullptr && !body.coating
                           ? std::get_if<mesh::Tube>(&body.part->shape)
                           : nullptr;
    const double outside = scene.coil.diameter + scene.coil.thickness;
    if (tube != nullptr && tube->inner_diameter >= outside * (1.0 - 1e-9))
    {
      return &body;
    }
  }
  return nullptr;
}

/// Gain [H] of a sleeve magnetised evenly by the coil's ends.
///
/// The coil's outer field is that of +-A/l per ampere-turn at its ends, potential A/(4 pi l) (1/R'
/// - 1/R''); its mean along the sleeve of length s is h = -(N A / 2 pi l s) (1/R1 - 1/R2), R1 and
/// R2 the distances from a sleeve's end to the coil's near and far one. Gain mu0 V h^2 / (1/chi +
/// N_d).
double dipole_gain(const CoilShape& coil, const mesh::Tube& tube, double permeability)
{
  const double outer = tube.outer_diameter;
  const double wall_share = 1.0 - std::pow(tube.inner_diameter / outer, 2);
  const double factor = spheroid_factor(tube.length / outer) * wall_share;
  const double radius = (outer + tube.inner_diameter) / 4.0;
  const double near = std::hypot(radius, (tube.length - coil.length) / 2.0);
  const double far = std::hypot(radius, (tube.length + coil.length) / 2.0);
  const double area = pi / 4.0 * coil.diameter * coil.diameter;
  const double h =
      coil.turns * area / (2.0 * pi * coil.length * tube.length) * (1.0 / near - 1.0 / far);
  const double volume = pi / 4.0 * outer * outer * wall_share * tube.length;
  return mu0 * volume * h * h / (1.0 / (permeability - 1.0) + factor);
}

} // namespace

std::vector<FormulaResult> sleeve_formulas(const FormulaScene& scene)
{
  const MagneticBody* body = scene.winding != nullptr ? sleeve_of(scene) : nullptr;
  if (body == nullptr)
  {
    return {};
  }
  const CoilShape& coil = scene.coil;
  const auto& tube = std::get<mesh::Tube>(body->part->shape);
  const Condition alone{only_body(scene) != nullptr, why_not_one_body(scene)};
  const Condition centred{std::abs(body->part->centre - coil.centre) <= 0.02 * tube.length,
                          "for a sleeve centred on the coil"};
  const Condition covering{tube.length >= coil.length, "for a sleeve no shorter than the coil"};
  return {formula({"sleeve, magnetised evenly", "coil as a dipole, derived here; no source",
                   "10 % for thin sleeves, coils over 3 D; computed 6 %"},
                  air_estimate(scene) + dipole_gain(coil, tube, body->permeability),
                  {alone,
                   centred,
                   covering,
                   {tube.inner_diameter >= 0.8 * tube.outer_diameter,
                    "for walls below a fifth of the radius"},
                   {coil.length >= 3.0 * coil.diameter, "for coils longer than three diameters"}}),
          formula({"sleeve, free way back", "mu0 N^2 A / l; common practice, no source",
                   "a ceiling, up to 45 % too high, for coils over D"},
                  sheet_inductance(coil, 1.0),
                  {alone,
                   centred,
                   covering,
                   {coil.length >= coil.diameter, "for coils longer than a diameter"}})};
}

} // namespace post
