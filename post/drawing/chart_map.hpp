// A map's classes as colours: contours between grid points, or a filled cell about each.
#pragma once

#include "post/chart.hpp"
#include "post/drawing/canvas.hpp"
#include "post/drawing/ruler.hpp"

#include <vector>

namespace post::drawing
{

/// @brief Borders of the cells about grid values: halfway, on a logarithmic axis by ratio; one more
///        than values.
std::vector<double> cell_borders(const std::vector<double>& values, bool logarithmic);

/// @brief Where the map changes from one piece to the next: grid values, or borders of cells.
struct MapGrid
{
  std::vector<double> x, y;
  bool logarithmic_x = false, logarithmic_y = false;
};
MapGrid map_grid(const ChartMap& map, bool logarithmic_x, bool logarithmic_y);

/// @brief Class of the map at a place, -1 where it has no value.
int map_class(const ChartMap& map, const MapGrid& grid, double at_x, double at_y);

/// @brief The map on the pixels of the frame, white where there is no value.
Image map_image(const ChartMap& map, const Ruler& x, const Ruler& y, const Box& frame,
                double pixels_per_point);

/// @brief One colour a class, pale to deep.
std::vector<Colour> map_colours(const ChartMap& map);

} // namespace post::drawing
