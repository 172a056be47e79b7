// Levels at whole multiples of a round step, so that a caption can state the flux between lines.
#include "post/drawing/flux.hpp"
#include "post/drawing/contour.hpp"
#include "post/drawing/words.hpp"

#include <algorithm>
#include <cmath>

namespace post::drawing
{

FluxPicture flux_picture(const Sample& sample, const Frame& frame)
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
  picture.step = round_step((greatest - least) / 16.0);
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
