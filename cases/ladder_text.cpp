// Circuits fitted to the windings: how large, and how far off.
#include "cases/result_text.hpp"
#include "cases/sheet.hpp"
#include "post/engineering.hpp"

#include <fmt/format.h>

namespace cases
{

namespace
{

std::string off(const post::Deviation& of)
{
  return fmt::format("{} ({})", post::fine_percent(of.largest), post::fine_percent(of.rms));
}

std::string element(double value, const char* unit)
{
  return value > 0.0 ? post::engineering(value, unit, 4) : std::string("none");
}

} // namespace

Sheet ladder_text(const post::Result& result)
{
  if (result.ladders.empty())
  {
    return {};
  }
  Table table;
  table.rows.push_back({"circuit", "cells", "R0", "L0", "R off by", "L off by"});
  Sheet rising;
  for (const post::Ladder& ladder : result.ladders)
  {
    table.rows.push_back({plain(ladder.winding), fmt::format("{}", ladder.cells.size()),
                          element(ladder.resistance, "ohm"), element(ladder.inductance, "H"),
                          off(ladder.of_resistance), off(ladder.of_inductance)});
    if (ladder.inductance_rises)
    {
      rising += wrapped("The inductance of " + plain(ladder.winding) +
                            " rises with frequency: no circuit of resistors and inductors alone "
                            "follows that. Mind how far it is off.",
                        2, 4);
    }
  }
  const post::Ladder& first = result.ladders.front();
  return heading("R-L ladder for circuit simulation", "estimated: a fit") + text(table) +
         wrapped(fmt::format(
             "R0 and L0 in series with cells, R beside L, all positive, fitted from {} to {}; "
             "beyond, it says nothing. Off by: largest relative deviation there, in brackets the "
             "rms. Netlist: ladder.cir{}.",
             post::engineering(first.from, "Hz", 4), post::engineering(first.to, "Hz", 4),
             result.ladders.size() > 1 ? "; it leaves the coupling of the windings out" : "")) +
         rising;
}

} // namespace cases
