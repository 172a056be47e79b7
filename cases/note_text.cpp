// What stands around the numbers: formulas beside them, powders, accuracy, safety.
#include "cases/result_text.hpp"
#include "cases/sheet.hpp"
#include "mesh/layout.hpp"
#include "post/engineering.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <set>

namespace cases
{

namespace
{

/// Which number a formula is set against, where that is not the first winding's inductance.
std::string against(const post::FormulaResult& formula)
{
  switch (formula.estimates)
  {
  case post::Estimates::air_inductance:
    return " (in air)";
  case post::Estimates::mutual_inductance:
    return " (mutual)";
  case post::Estimates::middle_permeability:
    return " (mu_app middle of " + plain(formula.subject) + ")";
  case post::Estimates::ballistic:
    return " (N ballistic of " + plain(formula.subject) + ")";
  case post::Estimates::magnetometric:
    return " (N magnetometric of " + plain(formula.subject) + ")";
  case post::Estimates::inductance:
    break;
  }
  return "";
}

/// "inside the bracket", "1.3 % above", "42 times".
std::string verdict(const post::FormulaResult& formula)
{
  if (!formula.deviation)
  {
    return "";
  }
  const double off = *formula.deviation;
  if (off == 0.0)
  {
    return "inside the bracket";
  }
  if (off <= -1.0)
  {
    return "useless here: below zero";
  }
  return off >= 1.0 ? post::number(1.0 + off, 2) + " times"
                    : post::percent(std::abs(off)) + (off > 0.0 ? " above" : " below");
}

std::string value_text(const post::FormulaResult& formula)
{
  const bool bare = formula.unit.empty() || formula.unit == "1";
  return bare ? post::number(formula.value, 4) : post::engineering(formula.value, formula.unit, 4);
}

std::string rule_name(solver::MixingRule rule)
{
  for (const solver::RuleInfo& info : solver::mixing_rules())
  {
    if (info.rule == rule)
    {
      return std::string(info.name);
    }
  }
  return "unknown rule";
}

/// Names of the powders that fill a region of the scene.
std::set<std::string> powders(const solver::Problem& problem)
{
  std::set<std::string> names;
  for (const mesh::Region& region : mesh::layout(problem.scene).regions)
  {
    const auto found = problem.materials.find(region.material);
    if (found != problem.materials.end() && found->second.powder)
    {
      names.insert(region.material);
    }
  }
  return names;
}

std::string one_powder(const std::string& name, const solver::Material& material)
{
  const solver::Powder& powder = *material.powder;
  const solver::PowderBounds bounds = solver::powder_bounds(powder);
  return fmt::format("{}: particles of permeability {} filling {} of the space, taken as {} by "
                     "the rule {}. Bounds: Hashin-Shtrikman {} to {}, Wiener {} to {}.",
                     plain(name), post::count(powder.particle_permeability),
                     post::percent(powder.packing), post::number(material.permeability, 4),
                     rule_name(powder.rule), post::number(bounds.hashin_shtrikman_lower),
                     post::number(bounds.hashin_shtrikman_upper), post::number(bounds.wiener_lower),
                     post::number(bounds.wiener_upper));
}

} // namespace

Sheet formula_text(std::span<const post::FormulaResult> formulas, const std::string& beside)
{
  std::vector<const post::FormulaResult*> order;
  for (const bool holds : {true, false})
  {
    for (const post::FormulaResult& formula : formulas)
    {
      if (formula.holds == holds)
      {
        order.push_back(&formula);
      }
    }
  }
  Table table;
  table.left = {0, 2};
  for (const post::FormulaResult* formula : order)
  {
    table.rows.push_back(
        {plain(formula->name) + against(*formula), value_text(*formula), verdict(*formula)});
    table.below.push_back(formula->holds ? "" : "outside its range: " + plain(formula->why));
  }
  return order.empty() ? Sheet() : heading("Hand formulas beside " + beside) + text(table);
}

Sheet powder_text(std::span<const Case> read)
{
  std::set<std::string> lines; // a powder several cases share is told once
  for (const Case& one : read)
  {
    for (const std::string& name : powders(one.problem))
    {
      lines.insert(one_powder(name, one.problem.materials.at(name)));
    }
  }
  Sheet out;
  for (const std::string& line : lines)
  {
    out += wrapped(line, 2, 4);
  }
  return out.empty() ? Sheet()
                     : heading("Powder", "estimated") + out +
                           wrapped("The lower bounds are no guaranteed minimum: milled grains may "
                                   "have far less permeability than the sintered body. Measure a "
                                   "sample before relying on it.");
}

Sheet accuracy_text(const post::Result& result)
{
  std::string words = fmt::format(
      "Bracket half-width {} of the {}, asked {}. {}", post::fine_percent(result.accuracy_met),
      result.windings.empty() ? "magnetic moment" : "value",
      post::fine_percent(result.accuracy_asked),
      result.geometry_error > 0.0
          ? fmt::format("Curved boundaries follow the true arcs to round-off: they shift the value "
                        "by at most {:.0e} of it.",
                        result.geometry_error)
          : "All boundaries are straight, so the meshed shape is the drawn one.");
  words += " Open space is included without a limit.";
  if (!result.accuracy_reached)
  {
    words = "ACCURACY NOT REACHED: " + plain(result.limit) +
            ". The bracket still holds, but it is wider than asked. " + words;
  }
  return heading("Accuracy") + wrapped(words) +
         wrapped(fmt::format("{} triangles of order {}, {} unknowns, {} refinement{}, {:.2f} s.",
                             result.mesh.triangles, result.mesh.order, result.mesh.unknowns,
                             result.mesh.refinements, result.mesh.refinements == 1 ? "" : "s",
                             result.seconds.total));
}

Sheet safety_text(std::span<const Case> read)
{
  const bool dusty = std::any_of(read.begin(), read.end(),
                                 [](const Case& one) { return !powders(one.problem).empty(); });
  const std::string dust =
      dusty ? "Ferrite and metal dust harms lungs and eyes and may catch fire: follow the "
              "supplier's safety data sheet and your local rules. "
            : "";
  return apart(dust + "A computed field is no approval of a part, a device or a workplace.");
}

} // namespace cases
