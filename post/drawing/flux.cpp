// Levels at whole multiples of a round step, so that a caption can state the flux between lines.
#include "post/drawing/flux.hpp"
#include "post/drawing/contour.hpp"
#include "post/drawing/words.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace post::drawing
{

namespace
{

/// @brief Flux between two circles about the axis 1 pt apart, where it is densest but for 1 % of
///        the area: 2 pi r |B| [Wb].
double flux_per_point(const Raster& field, const Frame& frame)
{
  Raster density = field;
  for (int row = 0; row < field.height; ++row)
    for (int column = 0; column < field.width; ++column)
    {
      const double off_axis =
          frame.lying ? (row + 0.5) / field.height - 0.5 : (column + 0.5) / field.width - 0.5;
      density.flux_density[row * field.width + column] *=
          static_cast<float>(4.0 * std::numbers::pi * frame.r_max * std::abs(off_axis));
    }
  return quantile(density, 0.99) / frame.points_per_metre;
}

} // namespace

FluxPicture flux_picture(const Sample& sample, const Frame& frame, const Raster& field)
{
  const mesh::Extent window = frame.extent();
  double least = 0.0, greatest = 0.0; // the axis is always there
  for (std::size_t p = 0; p < sample.points.size(); ++p)
    if (const auto [r, z] = sample.points[p];
        r <= window.high.r && z >= window.low.z && z <= window.high.z)
    {
      least = std::min(least, sample.flux[p]);
      greatest = std::max(greatest, sample.flux[p]);
    }
  FluxPicture picture;
  if (!(greatest - least > 0.0) || !std::isfinite(greatest - least))
    return picture;
  picture.step = round_step((greatest - least) / 12.0);
  const double crowded = flux_per_point(field, frame); // lines are 0.7 pt wide
  for (double next = picture.step; picture.step < crowded && (greatest - least) / next >= 6.0;
       next = round_step(2.6 * next)) // 1, 2, 5, 10
    picture.step = next;
  std::vector<double> levels;
  for (double k = std::ceil(least / picture.step); k * picture.step <= greatest; ++k)
    if (k != 0.0)
      levels.push_back(k * picture.step);
  const double unseen = 0.06 / frame.points_per_metre; // a sixteenth of a line's width
  for (const FluxLine& line : flux_lines(sample, levels, window))
  {
    Line drawn;
    for (const mesh::Point& point : simplified(line.points, unseen))
      drawn.spots.push_back(frame.spot(point));
    Line other = drawn;
    for (Spot& spot : other.spots)
      spot = frame.mirrored(spot);
    picture.lines.push_back(std::move(drawn));
    picture.lines.push_back(std::move(other));
  }
  return picture;
}

} // namespace post::drawing
