// The parts to scale, as vectors in the page itself, so that they follow its colours.
//
// Long arrangements lie, the axis from left to right; others stand. A number points at each body,
// the list below names them.
#include "post/page_blocks.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numeric>

namespace post
{

namespace
{

constexpr double sheet = 360.0, margin = 14.0, badge = 9.0, badges = 38.0; // units of the drawing
constexpr double tallest = 300.0;

struct View
{
  bool lying = false;
  double scale = 1.0; ///< Units per metre.
  double r_max = 0.0, z_low = 0.0, z_high = 0.0;
  double width = sheet, height = 0.0;

  std::pair<double, double> at(double r, double z) const
  {
    const double left = 0.5 * (sheet - (lying ? 0.0 : badges) - scale * across());
    return lying ? std::pair{left + scale * (z - z_low), badges + scale * (r_max - r)}
                 : std::pair{left + scale * (r_max + r), margin + scale * (z_high - z)};
  }
  double across() const { return lying ? z_high - z_low : 2.0 * r_max; }
  double down() const { return lying ? 2.0 * r_max : z_high - z_low; }
};

View view(const PageParts& parts)
{
  View made;
  made.z_low = 1e300;
  made.z_high = -1e300;
  for (const PageBody& body : parts.bodies)
  {
    for (const auto& area : body.areas)
    {
      for (const auto& [r, z] : area)
      {
        made.r_max = std::max(made.r_max, r);
        made.z_low = std::min(made.z_low, z);
        made.z_high = std::max(made.z_high, z);
      }
    }
  }
  made.lying = made.z_high - made.z_low > 2.0 * made.r_max;
  const double room = sheet - 2.0 * margin - (made.lying ? 0.0 : badges);
  made.scale = std::min(room / made.across(), tallest / std::max(made.down(), 1e-12));
  made.height = made.scale * made.down() + (made.lying ? badges + margin : 2.0 * margin) + 30.0;
  return made;
}

std::string point(const View& view, double r, double z)
{
  const auto [x, y] = view.at(r, z);
  return fmt::format("{:.2f} {:.2f}", x, y);
}

/// One outline in one half: its fill, and its rim without what lies on the axis.
std::string half(const View& view, const std::vector<std::pair<double, double>>& area, double side)
{
  std::string fill, rim;
  for (std::size_t i = 0; i < area.size(); ++i)
  {
    const auto [r, z] = area[i];
    const auto [next_r, next_z] = area[(i + 1) % area.size()];
    fill += (i == 0 ? "M" : "L") + point(view, side * r, z);
    const bool on_axis = std::max(r, next_r) * view.scale < 0.01;
    rim += on_axis ? "" : "M" + point(view, side * r, z) + "L" + point(view, side * next_r, next_z);
  }
  return fmt::format("<path class=\"fill\" d=\"{}Z\"/><path class=\"rim\" d=\"{}\"/>", fill, rim);
}

std::string body_html(const View& view, const PageBody& body)
{
  const char* const kind = body.kind == PageBody::Kind::part      ? "solid"
                           : body.kind == PageBody::Kind::coating ? "coat"
                           : body.kind == PageBody::Kind::winding ? "copper"
                                                                  : "hollow";
  std::string out;
  for (const auto& area : body.areas)
  {
    out += half(view, area, 1.0) + half(view, area, -1.0) + "\n";
  }
  return fmt::format("<g class=\"{}\">{}</g>\n", kind, out);
}

/// Where a body is pointed at, in its half of positive r: along its outermost edge.
std::pair<double, double> target(const View& view, const PageBody& body, double along)
{
  const auto outer = [](const auto& area)
  { return std::ranges::max_element(area, {}, [](const auto& p) { return p.first; })->first; };
  const double most = outer(*std::ranges::max_element(body.areas, {}, outer));
  std::vector<const std::vector<std::pair<double, double>>*> outermost;
  for (const auto& area : body.areas)
  {
    if (outer(area) > most * (1.0 - 1e-9))
    {
      outermost.push_back(&area);
    }
  }
  const auto& area = *outermost[outermost.size() / 2];
  double low = 1e300, high = -1e300;
  for (const auto& [r, z] : area)
  {
    low = r > most * (1.0 - 1e-9) ? std::min(low, z) : low;
    high = r > most * (1.0 - 1e-9) ? std::max(high, z) : high;
  }
  return {std::max(0.0, most - (area.size() > 2 ? 2.0 / view.scale : 0.0)),
          low + along * (high - low)};
}

/// Places for the numbers along the sheet: near to what they point at, none over another.
std::vector<double> spread(const std::vector<double>& wanted, double length)
{
  std::vector<std::size_t> order(wanted.size());
  std::iota(order.begin(), order.end(), 0U);
  std::ranges::stable_sort(order, {}, [&](std::size_t k) { return wanted[k]; });
  const double apart =
      std::min(2.0 * badge + 5.0, (length - 2.0 * margin) / static_cast<double>(wanted.size()));
  std::vector<double> places(wanted.size());
  double next = margin;
  for (const std::size_t k : order)
  {
    places[k] = std::max(next, wanted[k]);
    next = places[k] + apart;
  }
  double last = length - margin;
  for (auto k = order.rbegin(); k != order.rend(); ++k)
  {
    places[*k] = std::min(last, places[*k]);
    last = places[*k] - apart;
  }
  return places;
}

std::string pointers(const View& view, const std::vector<PageBody>& bodies)
{
  std::vector<std::pair<double, double>> targets;
  std::vector<double> wanted;
  for (std::size_t i = 0; i < bodies.size(); ++i)
  {
    const double along = 0.3 + 0.45 * std::fmod(0.618 * static_cast<double>(i), 1.0);
    const auto [r, z] = target(view, bodies[i], along);
    targets.push_back(view.at(r, z));
    wanted.push_back(view.lying ? targets.back().first : targets.back().second);
  }
  const std::vector<double> places = spread(wanted, view.lying ? sheet : view.height - 30.0);
  std::string out;
  for (std::size_t i = 0; i < bodies.size(); ++i)
  {
    const double x = view.lying ? places[i] : sheet - margin;
    const double y = view.lying ? margin : places[i];
    out += fmt::format("<path class=\"leader\" d=\"M{0:.2f} {1:.2f}L{2:.2f} {3:.2f}\"/>"
                       "<circle class=\"dot\" cx=\"{2:.2f}\" cy=\"{3:.2f}\" r=\"2\"/>"
                       "<circle class=\"badge\" cx=\"{0:.2f}\" cy=\"{1:.2f}\" r=\"{4}\"/>"
                       "<text x=\"{0:.2f}\" y=\"{5:.2f}\" text-anchor=\"middle\">{6}</text>\n",
                       x, y, targets[i].first, targets[i].second, badge, y + 4.0, i + 1);
  }
  return out;
}

/// A bar of 1, 2 or 5 times a power of ten, about a quarter of the sheet.
std::string scale_bar(const View& view)
{
  const double wanted = 0.3 * sheet / view.scale;
  const double decade = std::pow(10.0, std::floor(std::log10(wanted)));
  const double length = decade * (wanted >= 5.0 * decade   ? 5.0
                                  : wanted >= 2.0 * decade ? 2.0
                                                           : 1.0);
  const double y = view.height - 10.0;
  return fmt::format("<path class=\"leader\" d=\"M{0} {1:.2f}v-6m0 3h{2:.2f}m0 -3v6\"/>"
                     "<text x=\"{3:.2f}\" y=\"{1:.2f}\">{4:.6g} mm</text>\n",
                     margin, y, length * view.scale, margin + length * view.scale + 6.0,
                     length * 1e3);
}

} // namespace

std::string block_html(const PageParts& parts)
{
  if (parts.bodies.empty())
  {
    return "";
  }
  const View shown = view(parts);
  std::string drawn, names;
  PageList legend;
  legend.numbered = true;
  std::vector<PageBody> named;
  for (const PageBody& body : parts.bodies)
  {
    drawn += body_html(shown, body);
    if (body.kind == PageBody::Kind::hollow)
    {
      continue;
    }
    named.push_back(body);
    names += (names.empty() ? "" : ", ") + body.name;
    legend.items.emplace_back(body.name + ":", body.words);
  }
  const double beyond = 6.0 / shown.scale;
  return fmt::format(
      "<svg class=\"parts\" role=\"img\" aria-label=\"Section through the axis, to scale: {}\" "
      "viewBox=\"0 0 {} {:.2f}\">\n{}<path class=\"axis\" d=\"M{}L{}\"/>\n{}{}</svg>\n{}",
      escaped(names), sheet, shown.height, drawn, point(shown, 0.0, shown.z_low - beyond),
      point(shown, 0.0, shown.z_high + beyond), pointers(shown, named), scale_bar(shown),
      block_html(legend));
}

} // namespace post
