// Colour key, scale bar and centre line.
#include "post/drawing/key.hpp"
#include "post/drawing/sheet.hpp"
#include "post/drawing/words.hpp"

#include <cmath>
#include <fmt/format.h>

namespace post::drawing
{

namespace
{

/// @brief A length in the unit its size asks for; drawings are dimensioned in mm.
std::string length(double metres)
{
  if (metres >= 1.0)
    return fmt::format("{:g} m", metres);
  if (metres < 1e-4)
    return fmt::format("{:g} \u00B5m", metres * 1e6);
  return fmt::format("{:g} mm", metres * 1e3);
}

/// @brief Whether the number is 1, 2 or 5 times a power of ten.
bool labelled(double value)
{
  return std::abs(round_step(value) / value - 1.0) < 1e-6;
}

void arrow(Canvas& canvas, Spot from, Spot to)
{
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  const double x = (to.x - from.x) / length, y = (to.y - from.y) / length;
  canvas.stroke(std::vector<Line>{{{from, to}}}, {quiet, 0.8});
  const Spot left{to.x - 5.0 * x - 2.0 * y, to.y - 5.0 * y + 2.0 * x};
  const Spot right{to.x - 5.0 * x + 2.0 * y, to.y - 5.0 * y - 2.0 * x};
  canvas.fill(std::vector<Line>{{{to, left, right}, true}}, quiet);
}

} // namespace

void draw_key(Canvas& canvas, const Box& where, const Scale& scale, std::span<const Colour> colours)
{
  const Font small{9.0, quiet};
  const double point = 9.0; // length of the pointed ends
  const int bands = static_cast<int>(scale.edges.size()) - 1;
  const double step = (where.width - 2.0 * point) / bands;
  const auto edge = [&](double k) { return where.x + point + k * step; };
  const double top = where.y, middle = where.y + 0.5 * where.height, low = where.y + where.height;
  for (int k = 1; k <= bands; ++k)
    canvas.fill(std::vector<Line>{{{{edge(k - 1.0), top},
                                    {edge(k + 0.15), top}, // overlaps, so no seam shows
                                    {edge(k + 0.15), low},
                                    {edge(k - 1.0), low}},
                                   true}},
                colours[k]);
  const Line weaker{{{edge(0), top}, {where.x, middle}, {edge(0), low}}, true};
  const Line stronger{{{edge(bands), top}, {where.x + where.width, middle}, {edge(bands), low}},
                      true};
  canvas.fill({&weaker, 1}, colours.front());
  canvas.fill({&stronger, 1}, colours.back());
  const Line rim{{weaker.spots[1],
                  {edge(0), top},
                  {edge(bands), top},
                  stronger.spots[1],
                  {edge(bands), low},
                  {edge(0), low}},
                 true};
  canvas.stroke({&rim, 1}, {quiet, 0.6});
  for (int k = 0; k <= bands; ++k)
    if (const double number = scale.edges[k] / scale.unit; scale.even || labelled(number))
    {
      canvas.stroke(std::vector<Line>{{{{edge(k), low}, {edge(k), low + 3.0}}}}, {quiet, 0.6});
      canvas.text({edge(k), low + 12.5}, fmt::format("{:g}", number), small, Align::middle);
    }
  canvas.text({where.x + where.width, top - 5.0},
              fmt::format("{} in {}", scale.quantity, scale.unit_name), {10.0, ink}, Align::right);
}

void draw_scale_bar(Canvas& canvas, Spot left, double width, double points_per_metre)
{
  const double metres = round_step(width / points_per_metre);
  const double right = left.x + metres * points_per_metre;
  const std::vector<Line> bar = {{{left, {right, left.y}}},
                                 {{{left.x, left.y - 3.5}, {left.x, left.y + 3.5}}},
                                 {{{right, left.y - 3.5}, {right, left.y + 3.5}}}};
  canvas.stroke(bar, {ink, 1.0});
  canvas.text({0.5 * (left.x + right), left.y - 6.0}, length(metres), {10.0, ink}, Align::middle);
}

void draw_axis(Canvas& canvas, const Frame& frame)
{
  const Box& box = frame.box;
  const Font font{10.0, quiet};
  const Spot middle{box.x + 0.5 * box.width, box.y + 0.5 * box.height};
  const double over = 7.0;
  Line line{{{middle.x, box.y - over}, {middle.x, box.y + box.height + over}}};
  if (frame.lying)
    line = {{{box.x - over, middle.y}, {box.x + box.width + over, middle.y}}};
  canvas.stroke({&line, 1}, {quiet, 0.7, {9.0, 2.5, 1.5, 2.5}});
  // The cross of arrows stands in the lower left corner of the box, outside the bodies.
  const Spot origin{box.x + 12.0, box.y + box.height - 12.0};
  const Line patch{{{box.x, origin.y + 12.0},
                    {box.x, origin.y - 36.0},
                    {origin.x + 36.0, origin.y - 36.0},
                    {origin.x + 36.0, origin.y + 12.0}},
                   true};
  canvas.fill({&patch, 1}, {1.0, 1.0, 1.0, 0.75});
  const Spot right{origin.x + 22.0, origin.y}, up{origin.x, origin.y - 22.0};
  arrow(canvas, origin, right);
  arrow(canvas, origin, up);
  canvas.text({right.x + 4.0, right.y + 3.5}, frame.lying ? "z" : "r", font);
  canvas.text({up.x, up.y - 4.0}, frame.lying ? "r" : "z", font, Align::middle);
}

} // namespace post::drawing
