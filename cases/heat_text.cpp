// How warm bodies get, what takes the heat, and what this estimate leaves out.
#include "cases/result_text.hpp"
#include "cases/sheet.hpp"
#include "cases/wording.hpp"
#include "post/engineering.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace cases
{

namespace
{

using post::engineering;

std::string kelvin(double rise)
{
  return post::number(rise, rise < 99.95 ? 3 : 4) + " K";
}

const post::HeatBody& hottest(const post::HeatPoint& at)
{
  return *std::ranges::max_element(at.bodies, {}, &post::HeatBody::hottest_rise);
}

std::string driven(const post::HeatPoint& at)
{
  return at.frequency > 0.0 ? engineering(at.frequency, "Hz")
                            : engineering(at.current, "A") + " dc";
}

Sheet body_table(const post::HeatPoint& at, double ambient)
{
  Table table;
  table.rows.push_back({"body", "heat", "mean rise", "hottest", "at"});
  for (const post::HeatBody& body : at.bodies)
  {
    table.rows.push_back({plain(body.name), body.heat > 0.0 ? engineering(body.heat, "W") : "-",
                          kelvin(body.mean_rise), kelvin(body.hottest_rise),
                          fmt::format("{:.0f} degC", ambient + body.hottest_rise - 273.15)});
  }
  return text(table);
}

/// Every drive with its hottest body, where there are several.
Sheet drive_table(const std::vector<post::HeatPoint>& points)
{
  if (points.size() < 2)
  {
    return {};
  }
  Table table;
  table.rows.push_back({"driven by", "heat", "hottest body", "rise"});
  table.left = {0, 2};
  for (const std::size_t i : shown(points.size()))
  {
    const post::HeatBody& top = hottest(points[i]);
    table.rows.push_back({driven(points[i]), engineering(points[i].heat, "W"), plain(top.name),
                          kelvin(top.hottest_rise)});
  }
  return text(table);
}

std::string cooling_words(const solver::Cooling& cooling, const post::HeatPoint& at)
{
  std::string words = fmt::format("Surfaces in open air at {} give off {} W/(m2 K)",
                                  degrees(cooling.ambient), post::count(cooling.convection));
  if (cooling.emissivity > 0.0)
  {
    words += fmt::format(" and radiate with an emissivity of {}: {} of the heat leaves so",
                         post::count(cooling.emissivity), post::percent(at.radiated / at.heat));
  }
  return words + ", as the case says; nothing of that is computed. Air that bodies enclose on all "
                 "sides conducts as still air. Narrow open gaps, which cool less, and surfaces "
                 "that face each other count as open.";
}

/// Losses are those of the case's temperature: how far off its copper is.
std::string loss_words(const solver::Problem& problem, const post::HeatPoint& at)
{
  std::string words = fmt::format("Losses are those at {}", degrees(problem.temperature));
  for (const mesh::Winding& winding : problem.scene.windings)
  {
    const auto own = std::ranges::find(at.bodies, winding.name, &post::HeatBody::name);
    if (own == at.bodies.end() || !(own->heat > 0.0))
    {
      continue;
    }
    const solver::Material& copper = solver::material(problem, "copper");
    const double mean = problem.cooling->ambient + own->mean_rise;
    const double more =
        solver::conductivity(copper, problem.temperature) / solver::conductivity(copper, mean);
    return words + fmt::format("; at the {:.0f} degC of {} the dc resistance is {:.2f} times as "
                               "large: set drive.temperature near that and solve again.",
                               mean - 273.15, plain(winding.name), more);
  }
  return words + ".";
}

Sheet curie_text(const solver::Problem& problem, const std::vector<post::HeatPoint>& points)
{
  std::vector<std::string> names;
  bool known = false;
  for (const post::HeatPoint& at : points)
  {
    for (const post::HeatBody& body : at.bodies)
    {
      if (body.above_curie && std::ranges::find(names, plain(body.name)) == names.end())
      {
        names.push_back(plain(body.name));
      }
    }
  }
  for (const auto& [name, material] : problem.materials)
  {
    known = known || material.curie_temperature > 0.0;
  }
  if (!names.empty())
  {
    return wrapped(fmt::format("CAUTION: {} would pass {} Curie temperature. There the inductance "
                               "collapses and the current rises: losses and inductance here no "
                               "longer hold.",
                               in_words(names), names.size() == 1 ? "its" : "their"));
  }
  return known ? Sheet()
               : wrapped("No curie_temperature is given: above it inductance collapses and the "
                         "current rises.");
}

} // namespace

Sheet heat_text(const solver::Problem& problem, const post::Result& result)
{
  const std::vector<post::HeatPoint>& points = result.heat.points;
  if (!problem.cooling)
  {
    return {};
  }
  if (points.empty())
  {
    return heading("Temperature rise", "estimated") +
           wrapped("No loss is known in this case, so nothing gets warm.");
  }
  const post::HeatPoint& worst = points[post::warmest(result.heat)];
  Sheet out = heading("Temperature rise", "estimated") + drive_table(points);
  out += wrapped("Driven by " + driven(worst) + (points.size() > 1 ? ", the warmest:" : ":"));
  out += body_table(worst, problem.cooling->ambient) +
         wrapped(cooling_words(*problem.cooling, worst)) + wrapped(loss_words(problem, worst)) +
         curie_text(problem, points);
  if (!worst.accuracy_reached)
  {
    out += wrapped("ACCURACY NOT REACHED: " + worst.limit + ".");
  }
  return out + wrapped("An estimate, no approval: parts get hot, and how they are cooled decides. "
                       "Measure, and follow local codes, the supplier's data sheet and licensed "
                       "practice.");
}

Sheet compare_heat_text(std::span<const post::Result> results, std::span<const std::string> names)
{
  Table table;
  table.rows.push_back({"case", "driven by", "heat", "hottest body", "rise"});
  table.left = {0, 1, 3};
  for (std::size_t i = 0; i < results.size(); ++i)
  {
    if (results[i].heat.points.empty())
    {
      continue;
    }
    const post::HeatPoint& at = results[i].heat.points[post::warmest(results[i].heat)];
    const post::HeatBody& top = hottest(at);
    table.rows.push_back({names[i], driven(at), engineering(at.heat, "W"), plain(top.name),
                          kelvin(top.hottest_rise)});
  }
  return table.rows.size() < 3
             ? Sheet()
             : heading("Temperature rise, the warmest drive of each", "estimated") + text(table) +
                   wrapped("Over the ambient air of each case, cooled as each says. An estimate, "
                           "no approval.");
}

} // namespace cases
