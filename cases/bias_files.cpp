// Inductance over current: secant with its bounds, and incremental, of every winding.
#include "cases/bias_files.hpp"

#include "cases/table.hpp"
#include "post/chart.hpp"
#include "post/files.hpp"

#include <algorithm>

namespace cases
{

namespace
{

post::Chart chart(const std::string& title, const post::BiasCurve& curve)
{
  post::Chart made;
  made.title = plain(title);
  made.subtitle = "Inductance over current";
  made.x = {"current", "A", false};
  made.y = {"inductance", "H", false, 0.0};
  std::vector<const post::BiasPoint*> points;
  for (const post::BiasPoint& at : curve.points)
  {
    points.push_back(&at);
  }
  std::ranges::stable_sort(points, {}, &post::BiasPoint::current);
  const auto& windings = curve.points.front().windings;
  for (std::size_t w = 0; w < windings.size(); ++w)
  {
    const std::string name = windings.size() > 1 ? plain(windings[w].name) + ", " : "";
    post::ChartLine secant{name + "secant", {}, {}}, incremental{name + "incremental", {}, {}};
    post::ChartBand bounds{"", {}, {}, {}};
    for (const post::BiasPoint* at : points)
    {
      const post::BiasWinding& one = at->windings[w];
      secant.x.push_back(at->current);
      secant.y.push_back(one.secant_inductance.value);
      incremental.x.push_back(at->current);
      incremental.y.push_back(one.incremental_inductance);
      bounds.x.push_back(at->current);
      bounds.lower.push_back(one.secant_inductance.lower);
      bounds.upper.push_back(one.secant_inductance.upper);
    }
    made.bands.push_back(std::move(bounds));
    made.lines.push_back(std::move(secant));
    made.lines.push_back(std::move(incremental));
  }
  made.notes = {"Secant: flux linkage over current, the tint its guaranteed bounds. Incremental: "
                "what a small ripple sees, estimated. Curves without hysteresis."};
  return made;
}

} // namespace

std::optional<post::Chart> bias_chart(const std::string& title, const post::BiasCurve& curve)
{
  if (curve.points.empty() || curve.points.front().windings.empty())
  {
    return std::nullopt;
  }
  const auto [least, most] = std::ranges::minmax(curve.points, {}, &post::BiasPoint::current);
  return least.current < most.current ? std::optional(chart(title, curve)) : std::nullopt;
}

std::vector<std::string> write_bias_files(const std::filesystem::path& folder,
                                          const std::string& title, const post::BiasCurve& curve)
{
  std::vector<std::string> names = {"bias.csv"};
  post::write_text(folder / names[0], post::bias_table(curve));
  if (curve.points.front().windings.empty())
  {
    return names;
  }
  if (const std::string ripple = post::ripple_table(curve); !ripple.empty())
  {
    names.push_back("ripple.csv");
    post::write_text(folder / names.back(), ripple);
  }
  if (const std::string netlist = post::flux_netlist(curve); !netlist.empty())
  {
    names.push_back("flux-linkage.cir");
    post::write_text(folder / names.back(), netlist);
  }
  if (const auto drawn = bias_chart(title, curve))
  {
    for (const std::string& name : post::write_chart(folder, "bias", *drawn))
    {
      names.push_back(name);
    }
  }
  return names;
}

} // namespace cases
