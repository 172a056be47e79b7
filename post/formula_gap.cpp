// Two rods end to end with a gap inside one coil: a rod of gapped permeability, demagnetised as
// one.
#include "post/formula_families.hpp"

#include <cmath>
#include <numbers>

namespace post
{
namespace
{

using solver::mu0;

/// Both rods as one, from end to end.
struct Pair
{
  double diameter = 0.0;
  double length = 0.0; ///< Gap included.
  double centre = 0.0;
  double gap = 0.0;
  double gap_centre = 0.0;
  double permeability = 1.0;
};

const mesh::Rod* bare_rod(const MagneticBody& body)
{
  return body.part != nullptr && !body.coating ? std::get_if<mesh::Rod>(&body.part->shape)
                                               : nullptr;
}

std::optional<Pair> pair_of(const FormulaScene& scene)
{
  if (scene.winding == nullptr || scene.magnetic.size() != 2)
  {
    return std::nullopt;
  }
  const MagneticBody* low = &scene.magnetic[0];
  const MagneticBody* high = &scene.magnetic[1];
  const mesh::Rod* below = bare_rod(*low);
  const mesh::Rod* above = bare_rod(*high);
  if (below == nullptr || above == nullptr || below->diameter != above->diameter ||
      low->permeability != high->permeability || low->permeability <= 1.0 ||
      below->diameter > (scene.coil.diameter - scene.coil.thickness) * (1.0 + 1e-9))
  {
    return std::nullopt;
  }
  if (low->part->centre > high->part->centre)
  {
    std::swap(low, high);
    std::swap(below, above);
  }
  const double from = low->part->centre - below->length / 2.0;
  const double to = high->part->centre + above->length / 2.0;
  const double gap_from = low->part->centre + below->length / 2.0;
  const double gap_to = high->part->centre - above->length / 2.0;
  return Pair{below->diameter,           to - from,        (from + to) / 2.0, gap_to - gap_from,
              (gap_from + gap_to) / 2.0, low->permeability};
}

/// Air, and the two rods as one of mu_e over its whole length.
double inductance(const Pair& pair, const CoilShape& coil, double air, double fringing)
{
  const double iron = pair.length - pair.gap;
  const double whole =
      pair.length / iron * gapped_permeability(pair.permeability, iron, pair.gap, fringing);
  const double factor = cylinder_factors(pair.length / pair.diameter, whole).magnetometric;
  const double area = std::numbers::pi / 4.0 * pair.diameter * pair.diameter;
  return air + mu0 * (apparent_permeability(whole, factor) - 1.0) * coil.turns * coil.turns * area /
                   coil.length;
}

std::vector<Condition> conditions(const Pair& pair, const CoilShape& coil)
{
  const double share = coil.length / pair.length;
  return {
      {share >= 0.8 && share <= 1.05 && std::abs(coil.centre - pair.centre) <= 0.02 * pair.length,
       "for a coil over both rods"},
      {pair.length >= 5.0 * pair.diameter, "for cores longer than five diameters"},
      {coil.diameter <= 1.3 * pair.diameter, "for a coil close to the core"},
      {std::abs(pair.gap_centre - pair.centre) <= 0.05 * pair.length, "for a gap in the middle"},
      {pair.gap <= 0.2 * pair.diameter, "for a gap below D/5"}};
}

} // namespace

std::vector<FormulaResult> gap_formulas(const FormulaScene& scene)
{
  const std::optional<Pair> pair = pair_of(scene);
  if (!pair || pair->gap <= 0.0)
  {
    return {};
  }
  const CoilShape& coil = scene.coil;
  const double air = air_estimate(scene);
  const double area = std::numbers::pi / 4.0 * pair->diameter * pair->diameter;
  const double height = (pair->length - pair->gap) / 2.0;
  const auto one = [&](const FormulaLabel& label, double fringing)
  { return formula(label, inductance(*pair, coil, air, fringing), conditions(*pair, coil)); };
  return {
      one({"gapped rod, corner fringing",
           "[Balakrishnan, Joines & Wilson 1997], from memory; table of cylinders",
           "25 % for a coil over both rods, gap below D/5; computed here"},
          corner_fringing(pair->gap, pair->diameter, height)),
      one({"gapped rod, fringing by winding", "[McLyman 2004], from memory; table of cylinders",
           "20 % for a coil over both rods, gap below D/5; computed here"},
          mclyman_fringing(pair->gap, area, coil.length)),
      one({"gapped rod, grown pole", "(1 + g/D)^2, common practice, no source; table of cylinders",
           "10 % for a coil over both rods, gap below D/5; computed here"},
          grown_pole_fringing(pair->gap, pair->diameter)),
      one({"gapped rod, no fringing", "series reluctance, textbook; table of cylinders",
           "20 % for a coil over both rods, gap below D/5; computed here"},
          1.0)};
}

} // namespace post
