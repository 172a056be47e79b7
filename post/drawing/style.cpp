// Colours chosen in OKLab; post/drawing/colours.hpp turns them into what a screen shows.
#include "post/drawing/style.hpp"
#include "post/drawing/colours.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace post::drawing
{

namespace
{

Colour hue(double lightness, double chroma, double degrees)
{
  const double angle = degrees * std::numbers::pi / 180.0;
  Colour colour = shown({lightness, chroma * std::cos(angle), chroma * std::sin(angle)});
  for (double* part : {&colour.red, &colour.green, &colour.blue})
    *part = std::clamp(*part, 0.0, 1.0);
  return colour;
}

/// @brief A closed line through points given from the middle.
Line closed(Spot middle, std::initializer_list<Spot> corners)
{
  Line line{{}, true};
  for (const Spot& corner : corners)
    line.spots.push_back({middle.x + corner.x, middle.y + corner.y});
  return line;
}

} // namespace

Colour series_colour(int k)
{
  switch (k % 6)
  {
  case 0:
    return hue(0.43, 0.135, 265.0); // blue
  case 1:
    return hue(0.55, 0.160, 40.0); // brick
  case 2:
    return hue(0.61, 0.100, 180.0); // teal
  case 3:
    return hue(0.47, 0.170, 345.0); // plum
  case 4:
    return hue(0.67, 0.135, 90.0); // ochre
  default:
    return hue(0.27, 0.020, 260.0); // near black
  }
}

Pen series_pen(int k)
{
  static const std::vector<double> dashes[] = {
      {}, {7.0, 4.0}, {1.0, 4.0}, {9.0, 3.5, 1.0, 3.5}, {13.0, 4.0}};
  return {series_colour(k), 1.8, dashes[k % 5]};
}

Pen fine_pen(int k, int dashes)
{
  static const std::vector<double> kinds[] = {{1.2, 2.4}, {4.5, 2.4}, {5.5, 2.0, 1.2, 2.0}};
  return {series_colour(k), 1.0, kinds[dashes % 3]};
}

Colour band_colour(int k, int count)
{
  return shown(seen(count > 1 ? 0.06 + 0.24 * k / (count - 1.0) : 0.16));
}

void draw_mark(Canvas& canvas, Spot middle, int k)
{
  Line mark{{}, true};
  if (k % 4 == 1)
    mark = closed(middle, {{-3.6, -3.6}, {3.6, -3.6}, {3.6, 3.6}, {-3.6, 3.6}});
  else if (k % 4 == 2)
    mark = closed(middle, {{0.0, -5.0}, {4.7, 3.2}, {-4.7, 3.2}});
  else if (k % 4 == 3)
    mark = closed(middle, {{0.0, -5.2}, {5.2, 0.0}, {0.0, 5.2}, {-5.2, 0.0}});
  else
    for (int side = 0; side < 24; ++side)
    {
      const double angle = side * std::numbers::pi / 12.0;
      mark.spots.push_back({middle.x + 4.1 * std::cos(angle), middle.y + 4.1 * std::sin(angle)});
    }
  canvas.stroke({&mark, 1}, {{1.0, 1.0, 1.0}, 2.4});
  canvas.fill({&mark, 1}, series_colour(k));
}

} // namespace post::drawing
