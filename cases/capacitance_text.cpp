// Self-capacitance by what is earthed, and up to where a reading is an inductance.
#include "cases/result_text.hpp"
#include "cases/table.hpp"
#include "post/engineering.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace cases
{

namespace
{

using post::engineering;

/// Of the resonance f0, where a meter shows 1 % too much: L / (1 - (f / f0)^2).
const double one_percent = std::sqrt(1.0 - 1.0 / 1.01);

void add_row(Table& table, const std::string& name, const std::string& earthed,
             const post::Bounded& capacitance, double resonance)
{
  const post::Ends ends = post::ends(capacitance, "F");
  table.rows.push_back({name, earthed, engineering(capacitance, "F"), ends.lower, ends.upper,
                        ends.unit, engineering(resonance, "Hz", 2),
                        engineering(one_percent * resonance, "Hz", 2)});
}

/// Frequencies of the case that lie where a meter would read something else.
Sheet beyond(const post::Result& result)
{
  double lowest = 0.0;
  for (const post::WindingResult& winding : result.windings)
  {
    if (winding.capacitance && (lowest == 0.0 || winding.capacitance->earthed_resonance < lowest))
    {
      lowest = winding.capacitance->earthed_resonance;
    }
  }
  const auto above = std::ranges::find_if(result.frequencies, [&](const post::FrequencyResult& at)
                                          { return at.frequency > one_percent * lowest; });
  return lowest == 0.0 || above == result.frequencies.end()
             ? Sheet()
             : wrapped("Impedances of this report leave capacitance out: from " +
                       engineering(above->frequency, "Hz") +
                       " up a meter would show something else.");
}

/// Windings whose insulation has only a thickness.
Sheet taken_as_air(const solver::Problem& problem)
{
  std::string names;
  for (const mesh::Winding& winding : problem.scene.windings)
  {
    const auto* turns = std::get_if<mesh::RoundTurns>(&winding.build);
    if (turns && turns->insulation > 0.0 && turns->insulation_material == "air")
    {
      names += (names.empty() ? "" : ", ") + plain(winding.name);
    }
  }
  return names.empty() ? Sheet()
                       : wrapped("Insulation of " + names +
                                 " is taken as air, which makes the capacitance of close turns too "
                                 "small by half and more: give it a material of its own "
                                 "permittivity.");
}

} // namespace

Sheet capacitance_text(const solver::Problem& problem, const post::Result& result)
{
  Table table;
  table.rows.push_back(
      {"winding", "earthed", "capacitance", "lower", "upper", "", "resonance", "1 % high at"});
  table.left = {0, 1, 5};
  Sheet without;
  bool reached = true;
  for (const post::WindingResult& winding : result.windings)
  {
    if (!winding.no_capacitance.empty())
    {
      without += wrapped(plain(winding.name) + ": none, " + plain(winding.no_capacitance) + ".");
    }
    if (!winding.capacitance)
    {
      continue;
    }
    reached = reached && winding.capacitance->accuracy_reached;
    add_row(table, plain(winding.name), "nothing", winding.capacitance->floating,
            winding.capacitance->floating_resonance);
    add_row(table, "", "first end", winding.capacitance->earthed,
            winding.capacitance->earthed_resonance);
  }
  if (table.rows.size() == 1)
  {
    return without.empty() ? Sheet() : heading("Self-capacitance") + without;
  }
  return heading("Self-capacitance", "bounded, for an even voltage; resonance estimated") +
         text(table) + without + (reached ? Sheet() : wrapped("Not as narrow as the 1 % asked.")) +
         wrapped("Resonance f0: of this capacitance with the inductance at rest. A meter shows L / "
                 "(1 - (f / f0)^2): 1 % too much at a tenth of f0, 4 % at a fifth; above that a "
                 "reading is no inductance any more. Leads and the meter add capacitance.") +
         wrapped("The voltage rises evenly along the turns, layers wound to and fro. Bodies that "
                 "conduct float unless earthed, and so do "
                 "other windings. Nothing here judges insulation, its voltage or creepage.") +
         taken_as_air(problem) + beyond(result) +
         (result.capacitances ? wrapped("Turn by turn: capacitance.csv, bounded.") : Sheet());
}

} // namespace cases
