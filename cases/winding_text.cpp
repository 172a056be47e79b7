// Windings: inductances, apparent permeability, wire, and how they couple.
#include "cases/result_text.hpp"
#include "cases/sheet.hpp"
#include "post/engineering.hpp"
#include "post/quantities.hpp"

#include <cmath>
#include <fmt/format.h>

namespace cases
{

namespace
{

using post::engineering;

/// Length and resistance of the wire, one sentence a winding that knows them.
Sheet wire_text(const post::Result& result)
{
  Sheet out;
  for (const post::WindingResult& winding : result.windings)
  {
    if (!winding.wire_length && !winding.dc_resistance)
    {
      continue;
    }
    std::string words = "Wire of " + plain(winding.name) + ":";
    words += winding.wire_length ? " " + engineering(*winding.wire_length, "m") : "";
    words += winding.dc_resistance
                 ? (winding.wire_length ? ", " : " ") + engineering(*winding.dc_resistance, "ohm") +
                       " dc (copper at " + degrees(result.temperature) + "; estimated)"
                 : "";
    out += wrapped(words + ".", 2, 4);
  }
  return out;
}

/// Coupling factor M / sqrt(L_i L_j).
double coupling(const post::Result& result, std::size_t i, std::size_t j)
{
  return result.mutual[i][j].value /
         std::sqrt(result.windings[i].inductance.value * result.windings[j].inductance.value);
}

} // namespace

Sheet winding_text(const post::Result& result)
{
  if (result.windings.empty())
  {
    return {};
  }
  Table table;
  table.rows.push_back(
      {"winding", "turns", "inductance", "lower", "upper", "", "mu_app", "per turn^2"});
  table.left = {0, 5};
  for (const post::WindingResult& winding : result.windings)
  {
    const post::Ends ends = post::ends(winding.inductance, "H");
    table.rows.push_back({plain(winding.name), post::count(winding.turns),
                          engineering(winding.inductance, "H"), ends.lower, ends.upper, ends.unit,
                          post::number(winding.apparent_permeability),
                          engineering(winding.inductance_per_turn_squared, "H")});
  }
  return heading("Inductance", "bounded: the true value lies between lower and upper") +
         text(table) +
         wrapped("mu_app: apparent permeability, the inductance over that of the same winding in "
                 "air. Per turn^2: the inductance factor A_L.") +
         wire_text(result);
}

Sheet parallel_text(const solver::Problem& problem)
{
  Sheet out;
  for (const mesh::Winding& winding : problem.scene.windings)
  {
    if (post::in_parallel(winding))
    {
      out +=
          wrapped(fmt::format("The {} turns of {} are in parallel and count as one. At rest they "
                              "share the current by their resistance, as direct current does; "
                              "over frequency the field decides.",
                              post::count(winding.turns), plain(winding.name)),
                  2, 4);
    }
  }
  return out;
}

Sheet mutual_text(const post::Result& result)
{
  if (result.mutual.size() < 2)
  {
    return {};
  }
  Table table;
  table.rows.push_back({"pair", "mutual", "lower", "upper", "", "coupling"});
  table.left = {0, 4};
  for (std::size_t i = 0; i < result.mutual.size(); ++i)
  {
    for (std::size_t j = i + 1; j < result.mutual.size(); ++j)
    {
      const post::Ends ends = post::ends(result.mutual[i][j], "H");
      table.rows.push_back({plain(result.windings[i].name) + " - " + plain(result.windings[j].name),
                            engineering(result.mutual[i][j], "H"), ends.lower, ends.upper,
                            ends.unit, fmt::format("{:.4f}", coupling(result, i, j))});
    }
  }
  return heading("Mutual inductance", "bounded; coupling estimated") + text(table);
}

} // namespace cases
