// The field picture's sheet with rises in place of flux densities, in even steps of whole kelvins.
#include "post/drawing/warm_page.hpp"
#include "post/drawing/colours.hpp"
#include "post/drawing/words.hpp"
#include "post/engineering.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <limits>

namespace post::drawing
{

namespace
{

/// @brief Six to sixteen even bands over the rises that occur, edges at round numbers.
Scale rises(const Sample& sample)
{
  double low = std::numeric_limits<double>::infinity(), high = 0.0;
  for (const double rise : sample.rise)
    if (std::isfinite(rise))
    {
      low = std::min(low, rise);
      high = std::max(high, rise);
    }
  Scale scale;
  scale.unit_name = "K";
  scale.quantity = "temperature rise";
  scale.even = true;
  const double span = std::max(high - std::min(low, high), 1e-3 * high);
  const double step = round_step(span / 5.0);
  const double first = std::floor(low / step);
  for (double k = first; scale.edges.size() < 3 || (k - 1.0) * step < high; ++k)
    scale.edges.push_back(k * step);
  return scale;
}

std::vector<std::string> headline(const HeatPoint& at)
{
  constexpr std::size_t most = 6;
  std::vector<std::string> lines;
  for (const HeatBody& body : at.bodies)
    if (lines.size() < most)
      lines.push_back(fmt::format("{}: {} K above the air on average, {} K at its hottest "
                                  "(estimated)",
                                  body.name, number(body.mean_rise), number(body.hottest_rise)));
  return lines;
}

std::string driven(const HeatPoint& at)
{
  return at.frequency > 0.0 ? engineering(at.frequency, "Hz")
                            : engineering(at.current, "A") + " of direct current";
}

} // namespace

Page warm_page(const Sample& sample, const mesh::Layout& layout, const Result& result,
               std::size_t point)
{
  const HeatPoint& at = result.heat.points.at(point);
  Sample one = sample; // the raster's one component
  one.B_r = sample.rise;
  one.B_z.assign(sample.rise.size(), 0.0);
  one.H_z.assign(sample.rise.size(), 0.0);
  one.current_density.assign(sample.triangles.size(), 0.0); // no crosses and dots
  Page page = begun_page(one, layout, result, headline(at));
  page.scale = rises(sample);
  page.colours = colours(static_cast<int>(page.scale.edges.size()) + 1);
  page.field = coloured(raster(one, page.frame, pixels_per_point), page.scale, page.colours);
  close_page(
      page,
      {fmt::format("Driven by {}; {} lost in all. Windings are drawn as the section their turns "
                   "take up. White: open air, which takes the heat.",
                   driven(at), engineering(at.heat, "W")),
       "An estimate, no approval: how surfaces are cooled was given, not computed."});
  return page;
}

} // namespace post::drawing
