// Coils without a core: current sheets, thick sections, single layers of round wire.
//
// They speak about the winding alone, and are set against its inductance in air.
#include "post/formula_families.hpp"

#include <algorithm>
#include <cmath>

namespace post
{
namespace
{

using solver::mu0;

/// Sheet at the mean radius, less what Maxwell's mean distances say a thick section loses:
/// mu0 a N^2 (ln R - ln l + 3/2), R that of the rectangle, l e^(-3/2) that of the sheet.
double thick_sheet(const CoilShape& coil)
{
  const double sheet = sheet_inductance(coil, sheet_coefficient(coil.diameter / coil.length));
  if (coil.thickness <= 0.0)
  {
    return sheet;
  }
  const double R = rectangle_mean_distance(coil.thickness, coil.length);
  return sheet -
         mu0 * coil.diameter / 2.0 * coil.turns * coil.turns * (std::log(R / coil.length) + 1.5);
}

/// mu0 a N^2 (ln(8a/R) - 2), R the mean distance of the rectangle.
double thick_ring(const CoilShape& coil)
{
  const double a = coil.diameter / 2.0;
  const double R = rectangle_mean_distance(coil.thickness, coil.length);
  return mu0 * a * coil.turns * coil.turns * (std::log(8.0 * a / R) - 2.0);
}

/// 0.8 a^2 N^2 / (6a + 9l + 10c) microhenries in inches.
double thick_wheeler(const CoilShape& coil)
{
  const double a = coil.diameter / 2.0;
  return 0.8e-6 / 0.0254 * a * a * coil.turns * coil.turns /
         (6.0 * a + 9.0 * coil.length + 10.0 * coil.thickness);
}

/// L_sheet - mu0 N a (A + B), A = 5/4 - ln(2p/d).
double rosa_round(const CoilShape& coil, double spacing, double wire)
{
  const double A = 1.25 - std::log(2.0 * spacing / wire);
  const double B = rosa_mutual(static_cast<int>(std::lround(coil.turns)));
  return sheet_inductance(coil, sheet_coefficient(coil.diameter / coil.length)) -
         mu0 * coil.turns * coil.diameter / 2.0 * (A + B);
}

bool single_layer(const FormulaScene& scene)
{
  return scene.round != nullptr && scene.round->layers == 1;
}

std::vector<FormulaResult> sheet_formulas(const FormulaScene& scene)
{
  const CoilShape& coil = scene.coil;
  const double ratio = coil.diameter / coil.length;
  const Condition sheet{scene.round == nullptr && coil.thickness == 0.0,
                        scene.round != nullptr ? "for a sheet; these are separate round turns"
                                               : "for an endlessly thin coil; this one is thick"};
  const Condition thin{coil.thickness <= 0.01 * coil.diameter,
                       "for a thin coil; this one is over 1 % of its diameter thick"};
  const auto air = Estimates::air_inductance;
  return {formula({"air coil, sheet, exact", "[Lorenz 1879; Nagaoka 1909]",
                   "exact for a current sheet", air},
                  sheet_inductance(coil, sheet_coefficient(ratio)), {sheet}),
          formula({"air coil, sheet, fit", "[Lundin 1985]", "3 ppm for a current sheet", air},
                  sheet_inductance(coil, lundin_coefficient(ratio)), {sheet}),
          formula({"air coil, end correction 0.45 D", "[Wheeler 1928], from memory",
                   "1 % for thin coils longer than 0.4 D", air},
                  sheet_inductance(coil, 1.0 / (1.0 + 0.45 * ratio)),
                  {thin, {coil.length >= 0.4 * coil.diameter, "for coils longer than 0.4 D"}})};
}

std::vector<FormulaResult> thick_formulas(const FormulaScene& scene)
{
  const CoilShape& coil = scene.coil;
  const double a = coil.diameter / 2.0;
  const double section = std::hypot(coil.length, coil.thickness);
  const double terms[] = {6.0 * a, 9.0 * coil.length, 10.0 * coil.thickness};
  const auto [least, most] = std::minmax({terms[0], terms[1], terms[2]});
  const Condition filled{scene.round == nullptr, "for a filled section; these are round turns"};
  const auto air = Estimates::air_inductance;
  return {formula({"air coil, sheet less thickness",
                   "[Lorenz 1879] less mean distances [Maxwell 1873, art. 692]",
                   "1 % for thickness below 0.15 D", air},
                  thick_sheet(coil),
                  {filled, {coil.thickness <= 0.15 * coil.diameter, "for thickness below 0.15 D"}}),
          formula({"air coil, ring of its section", "[Maxwell 1873, art. 692]",
                   "1 % for a section diagonal below D/5", air},
                  thick_ring(coil),
                  {filled, {section <= coil.diameter / 5.0, "for a section diagonal below D/5"}}),
          formula({"air coil, thick, by length", "[Wheeler 1928], from memory",
                   "3 % where 3 D, 9 l and 10 c are about equal", air},
                  thick_wheeler(coil),
                  {{most <= 3.0 * least, "where 3 D, 9 l and 10 c are about equal"}})};
}

FormulaResult round_turns_formula(const FormulaScene& scene)
{
  const CoilShape& coil = scene.coil;
  const double spacing = pitch(*scene.round);
  return formula({"air coil, round turns", "[Lorenz 1879] less [Rosa 1907], A and B derived anew",
                  "one layer, pitch below a fifth of D", Estimates::air_inductance},
                 rosa_round(coil, spacing, scene.round->wire_diameter),
                 {{spacing <= 0.2 * coil.diameter, "for a pitch below a fifth of D"},
                  {scene.round->strand == mesh::Strand::fine,
                   "for even current density; these turns are solid"}});
}

} // namespace

std::vector<FormulaResult> air_coil_formulas(const FormulaScene& scene)
{
  if (scene.winding == nullptr || (scene.round != nullptr && scene.coil.turns == 1.0))
  {
    return {}; // a single round turn is a ring
  }
  std::vector<FormulaResult> list;
  if (single_layer(scene))
  {
    list.push_back(round_turns_formula(scene));
  }
  else if (scene.coil.thickness > 0.0)
  {
    list = thick_formulas(scene);
  }
  const std::vector<FormulaResult> sheets = sheet_formulas(scene);
  list.insert(list.end(), sheets.begin(), sheets.end());
  return list;
}

double air_estimate(const FormulaScene& scene)
{
  if (scene.round != nullptr && scene.coil.turns == 1.0)
  {
    const double a = scene.coil.diameter / 2.0;
    const double r = scene.round->wire_diameter / 2.0;
    return scene.round->strand == mesh::Strand::fine ? ring_uniform(a, r) : ring_solid(a, r);
  }
  return single_layer(scene)
             ? rosa_round(scene.coil, pitch(*scene.round), scene.round->wire_diameter)
             : thick_sheet(scene.coil);
}

} // namespace post
