// Bilinear between grid points along the axes as drawn, so that logarithmic ones stay straight.
#include "post/drawing/chart_map.hpp"
#include "post/drawing/colours.hpp"

#include <algorithm>
#include <cmath>

namespace post::drawing
{

namespace
{

/// @brief Index of the interval of ascending `marks` that holds the value, -1 outside.
int interval(const std::vector<double>& marks, double value)
{
  const double slack = 1e-9 * (marks.back() - marks.front());
  if (value < marks.front() - slack || value > marks.back() + slack)
    return -1;
  const auto above = std::upper_bound(marks.begin(), marks.end(), value) - marks.begin();
  return std::clamp(static_cast<int>(above) - 1, 0, static_cast<int>(marks.size()) - 2);
}

/// @brief Part of the way from marks[k] to marks[k + 1].
double part(const std::vector<double>& marks, int k, double value, bool logarithmic)
{
  return std::clamp(logarithmic ? std::log(value / marks[k]) / std::log(marks[k + 1] / marks[k])
                                : (value - marks[k]) / (marks[k + 1] - marks[k]),
                    0.0, 1.0);
}

int class_of(const ChartMap& map, double value)
{
  if (std::isnan(value))
    return -1;
  return static_cast<int>(std::lower_bound(map.limits.begin(), map.limits.end(), value) -
                          map.limits.begin());
}

std::uint32_t pixel(const Colour& colour)
{
  const auto byte = [](double value)
  { return static_cast<std::uint32_t>(std::lround(255.0 * value)); };
  return byte(colour.red) << 16 | byte(colour.green) << 8 | byte(colour.blue);
}

} // namespace

std::vector<double> cell_borders(const std::vector<double>& values, bool logarithmic)
{
  const auto middle = [&](double a, double b)
  { return logarithmic ? std::sqrt(a) * std::sqrt(b) : 0.5 * (a + b); };
  const auto beyond = [&](double inner, double end)
  { return logarithmic ? end * std::sqrt(end / inner) : end + 0.5 * (end - inner); };
  std::vector<double> borders = {beyond(values[1], values[0])};
  for (std::size_t k = 1; k < values.size(); ++k)
    borders.push_back(middle(values[k - 1], values[k]));
  borders.push_back(beyond(values[values.size() - 2], values.back()));
  return borders;
}

MapGrid map_grid(const ChartMap& map, bool logarithmic_x, bool logarithmic_y)
{
  if (!map.cells)
    return {map.x, map.y, logarithmic_x, logarithmic_y};
  return {cell_borders(map.x, logarithmic_x), cell_borders(map.y, logarithmic_y), logarithmic_x,
          logarithmic_y};
}

int map_class(const ChartMap& map, const MapGrid& grid, double at_x, double at_y)
{
  const std::size_t width = map.x.size();
  const int column = interval(grid.x, at_x), row = interval(grid.y, at_y);
  if (column < 0 || row < 0)
    return -1;
  const double* const low = &map.values[row * width + column];
  if (map.cells)
    return class_of(map, *low);
  const double u = part(grid.x, column, at_x, grid.logarithmic_x);
  const double v = part(grid.y, row, at_y, grid.logarithmic_y);
  const double* const high = low + width;
  return class_of(map, (1.0 - v) * ((1.0 - u) * low[0] + u * low[1]) +
                           v * ((1.0 - u) * high[0] + u * high[1]));
}

Image map_image(const ChartMap& map, const Ruler& x, const Ruler& y, const Box& frame,
                double pixels_per_point)
{
  Image image{static_cast<int>(std::lround(frame.width * pixels_per_point)),
              static_cast<int>(std::lround(frame.height * pixels_per_point)),
              {}};
  const std::vector<Colour> colours = map_colours(map);
  const MapGrid grid = map_grid(map, x.logarithmic, y.logarithmic);
  for (int row = 0; row < image.height; ++row)
    for (int column = 0; column < image.width; ++column)
    {
      const double at_x = x.value(frame.x + (column + 0.5) * frame.width / image.width);
      const double at_y = y.value(frame.y + (row + 0.5) * frame.height / image.height);
      const int shade = map_class(map, grid, at_x, at_y);
      image.pixels.push_back(shade < 0 ? 0xFFFFFFu : pixel(colours[shade]));
    }
  return image;
}

std::vector<Colour> map_colours(const ChartMap& map)
{
  // Palest and deepest of the scale are left out: the first would pass for white.
  std::vector<Colour> all = colours(static_cast<int>(map.words.size()) + 1);
  all.erase(all.begin());
  return all;
}

} // namespace post::drawing
