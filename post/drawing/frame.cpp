// The choice of frame: a margin of about half a body's size, long bodies lying.
#include "post/drawing/frame.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace post::drawing
{

namespace
{

constexpr mesh::Extent nothing = {
    {std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity()},
    {-std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()}};

void include(mesh::Extent& extent, const mesh::Point& point)
{
  if (!std::isfinite(point.r) || !std::isfinite(point.z))
    return;
  extent.low = {std::min(extent.low.r, point.r), std::min(extent.low.z, point.z)};
  extent.high = {std::max(extent.high.r, point.r), std::max(extent.high.z, point.z)};
}

mesh::Extent extent(const Sample& sample)
{
  mesh::Extent result = nothing;
  for (const mesh::Point& point : sample.points)
    include(result, point);
  return result;
}

/// @brief Widens both sides alike until width / height lies in [1.25, 3].
void make_presentable(double& width, double& height)
{
  width = std::max(width, 1.25 * height);
  height = std::max(height, width / 3.0);
}

} // namespace

mesh::Extent extent(const mesh::Layout& layout, const Sample& sample)
{
  mesh::Extent result = nothing;
  for (const mesh::Region& region : layout.regions)
    for (const mesh::Outline& outline : region.outlines)
      for (const mesh::Point& point : corners(outline))
        include(result, point);
  for (const mesh::Conductor& conductor : layout.conductors)
    for (const mesh::Point& point : corners(conductor))
      include(result, point);
  return std::isfinite(result.low.r) ? result : extent(sample);
}

Frame frame(const mesh::Layout& layout, const Sample& sample, const Box& room)
{
  const mesh::Extent bodies = extent(layout, sample);
  const mesh::Extent covered = extent(sample);
  Frame frame;
  double across = 2.0 * bodies.high.r;
  double along = bodies.high.z - bodies.low.z;
  frame.lying = along > across;
  const double margin = 0.6 * std::sqrt(across * std::max(along, 0.1 * across));
  across += 2.0 * margin;
  along += 2.0 * margin;
  make_presentable(frame.lying ? along : across, frame.lying ? across : along);
  const double middle = 0.5 * (bodies.low.z + bodies.high.z);
  frame.r_max = std::min(0.5 * across, covered.high.r);
  frame.z_low = std::max(middle - 0.5 * along, covered.low.z);
  frame.z_high = std::min(middle + 0.5 * along, covered.high.z);

  double width = 2.0 * frame.r_max;
  double height = frame.z_high - frame.z_low;
  if (frame.lying)
    std::swap(width, height);
  if (!(width > 0.0 && height > 0.0 && std::isfinite(width + height)))
    throw std::runtime_error("nothing to draw: the field sample is empty or flat");
  frame.points_per_metre = std::min(room.width / width, room.height / height);
  frame.box.width = width * frame.points_per_metre;
  frame.box.height = height * frame.points_per_metre;
  frame.box.x = room.x + 0.5 * (room.width - frame.box.width);
  frame.box.y = room.y;
  return frame;
}

Spot Frame::spot(mesh::Point point) const
{
  if (lying)
    return {box.x + (point.z - z_low) * points_per_metre,
            box.y + (r_max - point.r) * points_per_metre};
  return {box.x + (r_max + point.r) * points_per_metre,
          box.y + (z_high - point.z) * points_per_metre};
}

Spot Frame::mirrored(Spot spot) const
{
  if (lying)
    return {spot.x, 2.0 * box.y + box.height - spot.y};
  return {2.0 * box.x + box.width - spot.x, spot.y};
}

} // namespace post::drawing
