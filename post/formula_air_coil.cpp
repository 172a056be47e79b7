// Coils without a core: current sheets, thick sections, single layers of round wire.
//
// They speak about the winding alone, and are set against its inductance in air.
#include "post/formula_families.hpp"

#include "mesh/layout.hpp"

#include <algorithm>
#include <cmath>

namespace post
{
namespace
{

using solver::mu0;

/// L_sheet - mu0 N a (A + B), A = 5/4 - ln(2p/d).
double rosa_round(const CoilShape& coil, double spacing, double wire)
{
  const double A = 1.25 - std::log(2.0 * spacing / wire);
  const double B = rosa_mutual(static_cast<int>(std::lround(coil.turns)));
  return sheet_inductance(coil, sheet_coefficient(coil.diameter / coil.length)) -
         mu0 * coil.turns * coil.diameter / 2.0 * (A + B);
}

/// The filled section, exact, and what square-stacked round wires have more, a turn.
double layers_of_round(const CoilShape& coil, double spacing, double wire)
{
  return thick_coil(coil) +
         mu0 * coil.diameter / 2.0 * coil.turns * array_correction(spacing, wire);
}

bool single_layer(const FormulaScene& scene)
{
  return scene.round != nullptr && scene.round->layers == 1;
}

constexpr auto air = Estimates::air_inductance;

double with_coefficient(const CoilShape& coil, double (*coefficient)(double))
{
  return sheet_inductance(coil, coefficient(coil.diameter / coil.length));
}

std::vector<FormulaResult> sheet_formulas(const FormulaScene& scene)
{
  const CoilShape& coil = scene.coil;
  const double D = coil.diameter;
  const Condition sheet{scene.round == nullptr && coil.thickness == 0.0,
                        scene.round != nullptr ? "for a sheet; these are separate round turns"
                                               : "for an endlessly thin coil; this one is thick"};
  const Condition thin{coil.thickness <= 0.003 * D * (1.0 + 1e-9),
                       "for a thin coil; this one is over 0.3 % of its diameter thick"};
  const Condition thinner{coil.thickness <= 0.01 * coil.length,
                          "for a thin coil; this one is over 1 % of its length thick"};
  const Condition longer{coil.length >= 0.4 * D, "for coils longer than 0.4 D"};
  const Condition longest{coil.length >= 1.5 * D, "for coils longer than 1.5 D"};
  const Condition shorter{coil.length <= 0.7 * D, "for coils shorter than 0.7 D"};
  std::vector<FormulaResult> list = {
      formula({"air coil, sheet, exact", "[Lorenz 1879; Nagaoka 1909]", "exact for a current sheet",
               air},
              with_coefficient(coil, sheet_coefficient), {sheet}),
      formula({"air coil, sheet, fit", "[Lundin 1985]", "3 ppm for a current sheet", air},
              with_coefficient(coil, lundin_coefficient), {sheet}),
      formula({"air coil, end correction 0.45 D", "[Wheeler 1928], from memory",
               "1 % for thin coils longer than 0.4 D", air},
              sheet_inductance(coil, 1.0 / (1.0 + 0.45 * D / coil.length)), {thin, longer})};
  if (coil.thickness > 0.03 * D)
  {
    return list; // the others are for thin coils, each near its own end
  }
  list.push_back(formula({"air coil, sheet, one formula", "[Wheeler 1982], from memory",
                          "0.1 % for a current sheet", air},
                         with_coefficient(coil, wheeler_coefficient), {sheet}));
  if (coil.length >= 0.7 * D)
  {
    list.push_back(formula({"air coil, long sheet", "[Webster 1905; Havelock 1908], from memory",
                            "1 % for thin coils longer than 1.5 D", air},
                           with_coefficient(coil, long_sheet_coefficient), {thin, longest}));
  }
  else
  {
    list.push_back(formula({"air coil, short sheet", "[Rayleigh & Niven 1881], from memory",
                            "1 % for thin coils shorter than 0.7 D", air},
                           with_coefficient(coil, short_sheet_coefficient),
                           {thin, thinner, shorter}));
  }
  return list;
}

/// Those of one proportion, listed only where the coil is near it.
void add_square_formulas(std::vector<FormulaResult>& list, const CoilShape& coil,
                         const Condition& filled)
{
  if (std::abs(coil.length / coil.thickness - 1.0) > 0.01)
  {
    return;
  }
  list.push_back(formula({"air coil, square section", "[Stefan 1884], from memory",
                          "0.1 % for a square up to D/3 wide", air},
                         square_coil(coil),
                         {filled, {coil.thickness <= coil.diameter / 3.0, "for squares to D/3"}}));
  if (std::abs(coil.diameter / (3.0 * coil.thickness) - 1.0) <= 0.01)
  {
    list.push_back(formula({"air coil, Brooks' proportions", "[Brooks 1931], from memory",
                            "2 % for a square section, bore twice its width", air},
                           brooks_coil(coil), {filled}));
  }
}

std::vector<FormulaResult> thick_formulas(const FormulaScene& scene)
{
  const CoilShape& coil = scene.coil;
  const double D = coil.diameter;
  const double section = std::hypot(coil.length, coil.thickness);
  const double terms[] = {3.0 * D, 9.0 * coil.length, 10.0 * coil.thickness};
  const auto [least, most] = std::minmax({terms[0], terms[1], terms[2]});
  const Condition filled{scene.round == nullptr, "for a filled section; these are round turns"};
  std::vector<FormulaResult> list = {
      formula({"air coil, thick, exact", "mean of coaxial circles [Maxwell 1873, art. 701]",
               "exact for a filled section", air},
              thick_coil(coil), {filled}),
      formula({"air coil, sheet less thickness",
               "[Lorenz 1879] less mean distances [Maxwell 1873, art. 692]",
               "1 % for thickness below 0.15 D", air},
              thick_sheet(coil),
              {filled, {coil.thickness <= 0.15 * D, "for thickness below 0.15 D"}}),
      formula({"air coil, ring of its section", "[Maxwell 1873, art. 692]",
               "1 % for a section diagonal below D/5", air},
              thick_ring(coil), {filled, {section <= D / 5.0, "for a section diagonal below D/5"}}),
      formula({"air coil, thick, by length", "[Wheeler 1928], from memory",
               "3 % where 3 D, 9 l and 10 c are about equal, c below D/2", air},
              thick_wheeler(coil),
              {filled,
               {most <= 3.0 * least, "where 3 D, 9 l and 10 c are about equal"},
               {coil.thickness <= 0.5 * D, "for c below D/2; computed 4 % off at 0.9 D"}}),
      formula({"air coil, thick, two factors", "[Brooks & Turner 1912], from memory",
               "4 % for l below 0.7 D, c below D/2; computed here", air},
              brooks_turner(coil),
              {filled,
               {coil.length <= 0.7 * D && coil.thickness <= 0.5 * D,
                "for l below 0.7 D, c below D/2"}})};
  if (coil.length <= coil.thickness)
  {
    list.push_back(
        formula({"air coil, flat, by depth", "[Wheeler 1928], from memory",
                 "7 % for flat coils, c above 0.1 D; in print 5 %", air},
                flat_wheeler(coil),
                {{coil.thickness >= 0.1 * D, "for c above 0.1 D"},
                 {coil.length <= 0.1 * coil.thickness, "for flat coils, l below c/10"}}));
  }
  add_square_formulas(list, coil, filled);
  return list;
}

FormulaResult round_turns_formula(const FormulaScene& scene)
{
  const CoilShape& coil = scene.coil;
  const double spacing = pitch(*scene.round);
  const Condition even{scene.round->strand == mesh::Strand::fine,
                       "for even current density; these turns are solid"};
  if (single_layer(scene))
  {
    return formula({"air coil, round turns", "[Lorenz 1879] less [Rosa 1907], A and B derived anew",
                    "0.2 % for one layer, pitch below a fifth of D", air},
                   rosa_round(coil, spacing, scene.round->wire_diameter),
                   {{spacing <= 0.2 * coil.diameter, "for a pitch below a fifth of D"}, even});
  }
  const double high = mesh::full_diameter(*scene.round);
  const bool whole = std::fmod(coil.turns, scene.round->layers) == 0.0;
  return formula({"air coil, layers of round turns",
                  "filled section plus [Maxwell 1873, art. 693; Rosa 1907], from memory",
                  "1 % for full layers in a square array", air},
                 layers_of_round(coil, std::sqrt(spacing * high), scene.round->wire_diameter),
                 {{whole, "for full layers; the last one here is not"},
                  {spacing <= 1.2 * high, "for a pitch no more than 1.2 layers"},
                  even});
}

} // namespace

std::vector<FormulaResult> air_coil_formulas(const FormulaScene& scene)
{
  if (scene.winding == nullptr || (scene.round != nullptr && scene.coil.turns == 1.0))
  {
    return {}; // a single round turn is a ring
  }
  std::vector<FormulaResult> list;
  if (scene.round != nullptr)
  {
    list.push_back(round_turns_formula(scene));
  }
  if (scene.coil.thickness > 0.0 && !single_layer(scene))
  {
    const std::vector<FormulaResult> thick = thick_formulas(scene);
    list.insert(list.end(), thick.begin(), thick.end());
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
  if (scene.round == nullptr)
  {
    return thick_coil(scene.coil);
  }
  const double spacing = pitch(*scene.round);
  return single_layer(scene)
             ? rosa_round(scene.coil, spacing, scene.round->wire_diameter)
             : layers_of_round(scene.coil, std::sqrt(spacing * mesh::full_diameter(*scene.round)),
                               scene.round->wire_diameter);
}

} // namespace post
