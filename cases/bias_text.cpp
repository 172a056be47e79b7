// Saturating materials over current: what is left of the inductance, and where it has fallen.
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

std::string amperes(double current)
{
  return current == 0.0 ? "0 A" : engineering(current, "A", 4);
}

Sheet winding_table(const post::BiasCurve& curve, const std::vector<std::size_t>& rows)
{
  if (curve.points.front().windings.empty())
  {
    return {};
  }
  Table table;
  table.rows.push_back({"winding", "current", "secant", "lower", "upper", "", "incremental"});
  table.left = {0, 5};
  for (std::size_t w = 0; w < curve.points.front().windings.size(); ++w)
  {
    for (const std::size_t i : rows)
    {
      const post::BiasWinding& one = curve.points[i].windings[w];
      const bool driven = std::isfinite(one.secant_inductance.value);
      const post::Ends ends =
          driven ? post::ends(one.secant_inductance, "H") : post::Ends{"-", "-", ""};
      table.rows.push_back({plain(one.name), amperes(one.current),
                            driven ? engineering(one.secant_inductance.value, "H", 4) : "-",
                            ends.lower, ends.upper, ends.unit,
                            engineering(one.incremental_inductance, "H", 4)});
    }
  }
  return text(table);
}

/// What small ripples meet, at the first, the middle and the last of the points shown.
Sheet ripple_text(const post::BiasCurve& curve, const std::vector<std::size_t>& rows)
{
  Table table;
  table.rows.push_back({"winding", "current", "frequency", "R", "L"});
  table.left = {0};
  std::vector<std::size_t> few = {rows.front()};
  for (const std::size_t i : {rows[rows.size() / 2], rows.back()})
  {
    if (i != few.back())
    {
      few.push_back(i);
    }
  }
  bool all = few.size() == curve.points.size();
  for (std::size_t w = 0; w < curve.points.front().windings.size(); ++w)
  {
    for (const std::size_t i : few)
    {
      const post::BiasWinding& one = curve.points[i].windings[w];
      const std::vector<std::size_t> frequencies = shown(one.ripple.size());
      all = all && frequencies.size() == one.ripple.size();
      for (const std::size_t f : frequencies)
      {
        const post::Ripple& ripple = one.ripple[f];
        table.rows.push_back(
            {plain(one.name), amperes(one.current), engineering(ripple.frequency, "Hz", 3),
             engineering(ripple.resistance, "ohm", 4), engineering(ripple.inductance, "H", 4)});
      }
    }
  }
  if (table.rows.size() == 1)
  {
    return {};
  }
  return heading("Small ripple about a bias", "estimated") + text(table) +
         wrapped(
             "Eddy currents flow, and flux densities move along the tangent of each curve. R is "
             "without proximity loss of strands and without hysteresis.") +
         (all ? Sheet() : wrapped("All are in ripple.csv."));
}

Sheet falls(const post::BiasCurve& curve)
{
  Sheet out;
  for (std::size_t i = 0; i < curve.drops.size(); i += 3)
  {
    std::string reached, name = plain(curve.drops[i].winding);
    for (std::size_t k = i; k < i + 3; ++k)
    {
      const post::BiasDrop& one = curve.drops[k];
      reached += one.current ? fmt::format("{}{} at {}", reached.empty() ? "" : ", ",
                                           post::percent(one.share), engineering(*one.current, "A"))
                             : "";
    }
    const std::string words =
        reached.empty() ? " falls by less than 10 % so far up."
                        : fmt::format(" has fallen by {} (estimated, along straight lines between "
                                      "the points).",
                                      reached);
    out += wrapped(fmt::format("Incremental inductance of {}{}", name, words), 2, 4);
  }
  return out;
}

/// Peaks of the bodies and stored energy, at the greatest current.
Sheet at_most(const post::BiasCurve& curve)
{
  const auto& top = *std::ranges::max_element(
      curve.points, {}, [](const post::BiasPoint& at) { return std::abs(at.current); });
  std::string peaks;
  bool corner = false;
  for (const post::BiasRegion& region : top.regions)
  {
    if (region.name == "air")
    {
      continue;
    }
    peaks += (peaks.empty() ? "" : ", ") + plain(region.name) + " " +
             engineering(region.peak_flux_density, "T") + (region.peak_at_corner ? "*" : "");
    corner = corner || region.peak_at_corner;
  }
  const std::string where = top.windings.empty() ? "" : " at " + amperes(top.current);
  Sheet out;
  if (!peaks.empty())
  {
    out += wrapped("Peak flux density" + where + " (estimated): " + peaks + "." +
                       (corner ? " * At a sharp edge: mesh-dependent." : ""),
                   2, 4);
  }
  if (!top.windings.empty())
  {
    out +=
        wrapped("Stored energy" + where + " (estimated): " + engineering(top.stored_energy, "J") +
                    ". It is released when the circuit opens, at whatever voltage that takes.",
                2, 4);
  }
  return out;
}

} // namespace

Sheet bias_text(const post::Result& result)
{
  const post::BiasCurve& curve = result.bias;
  if (curve.points.empty())
  {
    return {};
  }
  const std::vector<std::size_t> rows = shown(curve.points.size());
  Sheet out = heading("Over current", "bounded: secant inductance; incremental estimated") +
              winding_table(curve, rows);
  if (rows.size() < curve.points.size())
  {
    out += wrapped("All currents are in bias.csv.");
  }
  out += falls(curve) + at_most(curve);
  out +=
      wrapped("Secant: flux linkage over current, between bounds that the coenergy's bracket "
              "leaves; a smaller --accuracy narrows them. Incremental: what a small ripple sees. "
              "Curves are followed without hysteresis; beyond its last row a table rises as "
              "air does. All else in this report is for weak currents.");
  double worst = 0.0;
  bool reached = true;
  for (const post::BiasPoint& at : curve.points)
  {
    worst = std::max(worst, at.accuracy_met);
    reached = reached && at.accuracy_reached;
  }
  out += wrapped((reached ? "Coenergy: every bracket is within "
                          : "ACCURACY NOT REACHED: the "
                            "coenergy is known within ") +
                 post::fine_percent(worst) + " of its middle" +
                 (reached ? "." : ", less sharply than asked; the bounds still hold."));
  return out + ripple_text(curve, rows);
}

} // namespace cases
