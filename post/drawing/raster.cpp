// Scan conversion of the sample's triangles, one half of the frame, mirrored as it is written.
#include "post/drawing/raster.hpp"
#include "post/drawing/contour.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace post::drawing
{

namespace
{

struct Corner
{
  double x, y, B_r, B_z; // pixels, T
};

/// @brief Twice the signed area of a, b, c.
double turn(double ax, double ay, double bx, double by, double cx, double cy)
{
  return (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
}

/// @brief Writes |B| to every pixel whose middle lies in the triangle, and to its mirror image.
void paint(const std::array<Corner, 3>& at, bool lying, Raster& raster)
{
  const auto& [a, b, c] = at;
  const double twice_area = turn(a.x, a.y, b.x, b.y, c.x, c.y);
  if (twice_area == 0.0)
    return;
  const auto [x_low, x_high] = std::minmax({a.x, b.x, c.x});
  const auto [y_low, y_high] = std::minmax({a.y, b.y, c.y});
  const int first_column = std::max(0, static_cast<int>(std::ceil(std::max(x_low, 0.0) - 0.5)));
  const int first_row = std::max(0, static_cast<int>(std::ceil(std::max(y_low, 0.0) - 0.5)));
  for (int row = first_row; row < raster.height && row + 0.5 <= y_high; ++row)
    for (int column = first_column; column < raster.width && column + 0.5 <= x_high; ++column)
    {
      const double x = column + 0.5, y = row + 0.5;
      const double at_a = turn(b.x, b.y, c.x, c.y, x, y) / twice_area;
      const double at_b = turn(c.x, c.y, a.x, a.y, x, y) / twice_area;
      const double at_c = 1.0 - at_a - at_b;
      if (std::min({at_a, at_b, at_c}) < -1e-9) // a hair outside counts in, so no pixel is missed
        continue;
      const double B_r = at_a * a.B_r + at_b * b.B_r + at_c * c.B_r;
      const double B_z = at_a * a.B_z + at_b * b.B_z + at_c * c.B_z;
      const int other_row = lying ? raster.height - 1 - row : row;
      const int other_column = lying ? column : raster.width - 1 - column;
      const auto value = static_cast<float>(std::hypot(B_r, B_z));
      raster.flux_density[row * raster.width + column] = value;
      raster.flux_density[other_row * raster.width + other_column] = value;
    }
}

} // namespace

Raster raster(const Sample& sample, const Frame& frame, double pixels_per_point)
{
  Raster raster;
  // Even numbers, so that the axis lies between two pixels.
  raster.width = 2 * std::max(1, static_cast<int>(0.5 * frame.box.width * pixels_per_point));
  raster.height = 2 * std::max(1, static_cast<int>(0.5 * frame.box.height * pixels_per_point));
  raster.flux_density.assign(static_cast<std::size_t>(raster.width) * raster.height,
                             std::numeric_limits<float>::quiet_NaN());
  const double across = raster.width / frame.box.width, down = raster.height / frame.box.height;
  for (const std::array<int, 3>& triangle : sample.triangles)
  {
    if (!meets(sample, triangle, frame.extent()))
      continue;
    std::array<Corner, 3> at;
    for (int k = 0; k < 3; ++k)
    {
      const int p = triangle[k];
      const Spot spot = frame.spot(sample.points[p]);
      at[k] = {(spot.x - frame.box.x) * across, (spot.y - frame.box.y) * down, sample.B_r[p],
               sample.B_z[p]};
    }
    paint(at, frame.lying, raster);
  }
  return raster;
}

double quantile(const Raster& raster, double part)
{
  std::vector<float> values;
  std::copy_if(raster.flux_density.begin(), raster.flux_density.end(), std::back_inserter(values),
               [](float value) { return std::isfinite(value); });
  if (values.empty())
    return 0.0;
  const auto place = values.begin() + static_cast<std::ptrdiff_t>(part * double(values.size() - 1));
  std::nth_element(values.begin(), place, values.end());
  return *place;
}

Image coloured(const Raster& raster, const Scale& scale, std::span<const Colour> colours)
{
  std::vector<std::uint32_t> packed;
  for (const Colour& colour : colours)
  {
    const auto part = [](double value)
    { return static_cast<std::uint32_t>(std::lround(255.0 * std::clamp(value, 0.0, 1.0))); };
    packed.push_back(part(colour.red) << 16 | part(colour.green) << 8 | part(colour.blue));
  }
  Image image{raster.width, raster.height, {}};
  image.pixels.reserve(raster.flux_density.size());
  for (const float value : raster.flux_density)
    image.pixels.push_back(std::isfinite(value) ? packed[scale.band(value)] : 0xFFFFFFu);
  return image;
}

} // namespace post::drawing
