// Regions: where the energy sits, how strong the field gets, how a background field is met.
#include "cases/result_text.hpp"
#include "cases/sheet.hpp"
#include "post/engineering.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace cases
{

namespace
{

using post::engineering;

/// "1 A in coil, 250 mA in pickup" or "a background of 1 mT".
std::string drive(const solver::Problem& problem)
{
  std::string out;
  const auto& windings = problem.scene.windings;
  for (std::size_t i = 0; i < windings.size(); ++i)
  {
    const double current = i < problem.currents.size() ? problem.currents[i] : 1.0;
    out += (out.empty() ? "" : ", ") + engineering(current, "A") + " in " + plain(windings[i].name);
  }
  if (problem.background)
  {
    out += (out.empty() ? "" : ", ") + engineering(*problem.background, "T") + " far away";
  }
  return out;
}

std::string cubic_centimetres(double volume)
{
  return volume > 0.0 ? post::number(volume * 1e6) + " cm3" : "-";
}

Sheet corner_caution(const post::Result& result)
{
  const bool corner =
      std::any_of(result.regions.begin(), result.regions.end(),
                  [](const post::RegionResult& region) { return region.peak_at_corner; });
  return corner ? wrapped("Mesh-dependent: that peak is at a sharp corner, where the computed "
                          "field grows with every finer mesh; a real, rounded edge has less.")
                : Sheet();
}

/// A component without the round-off that stands where symmetry makes it zero.
std::string component(double value, double size)
{
  return engineering(std::abs(value) < 1e-9 * size ? 0.0 : value, "T");
}

/// "N = 0.02 .. 0.03" as two cells, or dashes.
std::vector<std::string> factor_cells(const std::optional<post::Bounded>& factor)
{
  if (!factor)
  {
    return {"-", "-"};
  }
  const post::Ends ends = post::ends(*factor, "");
  return {ends.lower, ends.upper};
}

} // namespace

Sheet region_text(const solver::Problem& problem, const post::Result& result)
{
  // A background field alone stores no energy of a winding: there is no ledger to show.
  const bool wound = !result.windings.empty();
  Table table;
  table.left = {0, wound ? 5UL : 4UL};
  table.rows.push_back({"region", "mu"});
  for (const post::RegionResult& region : result.regions)
  {
    table.rows.push_back({plain(region.name), post::count(region.permeability, 4)});
  }
  for (std::size_t i = 0; i <= result.regions.size(); ++i)
  {
    const post::RegionResult* region = i == 0 ? nullptr : &result.regions[i - 1];
    std::vector<std::string>& row = table.rows[i];
    if (wound)
    {
      row.push_back(region ? post::percent(region->energy_share) : "energy share");
    }
    row.push_back(region ? cubic_centimetres(region->volume) : "volume");
    row.push_back(region ? engineering(region->peak_flux_density, "T") : "peak flux density");
    row.push_back(region && region->peak_at_corner ? "mesh-dependent" : "");
  }
  return heading(wound ? "Where the energy sits" : "Regions", "estimated") + text(table) +
         wrapped("Driven by " + drive(problem) + " (peak)." +
                 (wound ? " An energy share of 10 % means: 1 % more permeability there gives "
                          "0.1 % more inductance."
                        : "") +
                 " Permeabilities are taken as constant: compare the peaks with the saturation in "
                 "the supplier's data.") +
         corner_caution(result);
}

Sheet background_text(const post::Result& result)
{
  Table table;
  table.rows.push_back({"part", "mu", "mu_app middle", "N ballistic", "N magnetometric", ""});
  for (const post::RegionResult& region : result.regions)
  {
    if (!region.demagnetisation)
    {
      continue;
    }
    const post::Demagnetisation& data = *region.demagnetisation;
    const auto factor = factor_cells(data.magnetometric);
    table.rows.push_back({plain(region.name), post::count(region.permeability, 4),
                          post::number(data.apparent_permeability_middle, 4),
                          data.ballistic ? post::number(*data.ballistic, 4) : "-", factor[0],
                          factor[1]});
  }
  return table.rows.size() == 1
             ? Sheet()
             : heading("In the background field", "N magnetometric bounded, the rest estimated") +
                   text(table) +
                   wrapped("mu_app middle: flux density in the middle of the part over that far "
                           "away. N: demagnetising factor, over the middle plane (ballistic) and "
                           "over the volume (magnetometric, lower and upper).");
}

Sheet probe_text(const post::Result& result)
{
  constexpr std::size_t most_rows = 40;
  if (result.probes.empty())
  {
    return {};
  }
  Table table;
  table.rows.push_back({"probe", "r", "z", "B_r", "B_z", "flux in circle", "region"});
  table.left = {0, 6};
  for (const post::ProbeResult& probe :
       std::span(result.probes).first(std::min(most_rows, result.probes.size())))
  {
    table.rows.push_back({plain(probe.name), post::millimetres(probe.r), post::millimetres(probe.z),
                          component(probe.B_r, std::hypot(probe.B_r, probe.B_z)),
                          component(probe.B_z, std::hypot(probe.B_r, probe.B_z)),
                          engineering(probe.r == 0.0 ? 0.0 : probe.flux, "Wb"),
                          plain(probe.region)});
  }
  const std::size_t left = result.probes.size() - (table.rows.size() - 1);
  return heading("Field at the probes", "estimated") + text(table) +
         (left == 0 ? Sheet() : wrapped(fmt::format("and {} more in result.json.", left)));
}

} // namespace cases
