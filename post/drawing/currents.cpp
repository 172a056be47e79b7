// Which way the windings' currents run, read from the sample, and its sign on the sheet.
#include "post/drawing/bodies.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace post::drawing
{

namespace
{

constexpr Colour copper = {0.62, 0.27, 0.07};
constexpr double smallest = 2.6; ///< Radius of a sign [pt].
constexpr double largest = 5.0;

mesh::Point middle(const Sample& sample, const std::array<int, 3>& triangle)
{
  mesh::Point sum;
  for (const int p : triangle)
    sum = {sum.r + sample.points[p].r / 3.0, sum.z + sample.points[p].z / 3.0};
  return sum;
}

/// @brief Whether a section holds the point; a sheet holds none.
struct Holds
{
  mesh::Point at;

  bool operator()(const mesh::BlockSection& block) const
  {
    return at.r > block.r_inner && at.r < block.r_outer && at.z > block.z_low &&
           at.z < block.z_high;
  }
  bool operator()(const mesh::SheetSection&) const { return false; }
  bool operator()(const mesh::RoundSection& turn) const
  {
    return std::hypot(at.r - turn.centre.r, at.z - turn.centre.z) < turn.radius;
  }
};

int sign(double value)
{
  return (value > 0.0) - (value < 0.0);
}

/// @brief Sign of H_z inside less H_z outside, summed over the triangles' corners on the sheet.
///
/// Points are repeated a mesh triangle, so each carries the field of its own side. A jump below
/// a hundredth of the field is taken for the mesh's error: no current.
int jump(const mesh::SheetSection& sheet, const Sample& sample)
{
  double sum = 0.0, size = 0.0;
  const double near = 1e-9 * sheet.r;
  for (const std::array<int, 3>& triangle : sample.triangles)
    for (const int p : triangle)
    {
      const auto [r, z] = sample.points[p];
      if (std::abs(r - sheet.r) > near || z < sheet.z_low || z > sheet.z_high)
        continue;
      sum += sample.H_z[p] * (middle(sample, triangle).r < sheet.r ? 1.0 : -1.0);
      size += std::abs(sample.H_z[p]);
    }
  return std::abs(sum) > 0.01 * size ? sign(sum) : 0;
}

struct Sign
{
  Spot at;
  double radius = 0.0;
  bool crowded = false; ///< It hides its section, so only some of its kind are drawn.
};

/// @brief Signs along the longer side of a section.
void add_signs(const Line& area, std::vector<Sign>& signs)
{
  const Box box = box_around(area);
  const double across = std::min(box.width, box.height), along = std::max(box.width, box.height);
  const double radius = std::clamp(0.34 * across, smallest, largest);
  const bool crowded = 0.5 * across < smallest + 0.6;
  const int count = std::max(1, static_cast<int>(along / 40.0));
  for (int k = 0; k < count; ++k)
  {
    const double part = (k + 0.5) / count;
    const Spot at = box.width > box.height
                        ? Spot{box.x + part * box.width, box.y + 0.5 * box.height}
                        : Spot{box.x + 0.5 * box.width, box.y + part * box.height};
    const auto too_near = [&](const Sign& other)
    { return std::hypot(other.at.x - at.x, other.at.y - at.y) < 24.0; };
    if (!crowded || std::none_of(signs.begin(), signs.end(), too_near))
      signs.push_back({at, radius, crowded});
  }
}

Line circle(Spot at, double radius)
{
  Line line{{}, true};
  const auto angle = [](int k) { return std::numbers::pi * k / 10.0; };
  for (int k = 0; k < 20; ++k)
    line.spots.push_back({at.x + radius * std::cos(angle(k)), at.y + radius * std::sin(angle(k))});
  return line;
}

void draw_signs(Canvas& canvas, const std::vector<Sign>& signs, bool into_page)
{
  std::vector<Line> discs, rims, dots, crosses;
  for (const auto& [at, radius, crowded] : signs)
  {
    discs.push_back(circle(at, radius + (crowded ? 0.8 : 0.0)));
    rims.push_back(circle(at, radius));
    dots.push_back(circle(at, 0.28 * radius));
    const double d = 0.7071 * radius;
    crosses.push_back({{{at.x - d, at.y - d}, {at.x + d, at.y + d}}});
    crosses.push_back({{{at.x - d, at.y + d}, {at.x + d, at.y - d}}});
  }
  canvas.fill(discs, {1.0, 1.0, 1.0});
  canvas.stroke(rims, {copper, 0.8});
  if (into_page)
    canvas.stroke(crosses, {copper, 0.8});
  else
    canvas.fill(dots, copper);
}

} // namespace

std::vector<int> current_signs(const mesh::Layout& layout, const Sample& sample)
{
  int count = 0;
  for (const mesh::Conductor& conductor : layout.conductors)
    count = std::max(count, conductor.winding + 1);
  std::vector<int> signs(count, 0);
  for (std::size_t t = 0; t < sample.triangles.size(); ++t)
    if (sample.current_density[t] != 0.0)
    {
      const Holds holds{middle(sample, sample.triangles[t])};
      for (const mesh::Conductor& conductor : layout.conductors)
        if (signs[conductor.winding] == 0 && std::visit(holds, conductor.section))
          signs[conductor.winding] = sign(sample.current_density[t]);
    }
  for (const mesh::Conductor& conductor : layout.conductors)
    if (const auto* sheet = std::get_if<mesh::SheetSection>(&conductor.section))
      if (signs[conductor.winding] == 0)
        signs[conductor.winding] = jump(*sheet, sample);
  return signs;
}

bool goes_in(const Body& winding, const Frame& frame, bool mirror_image)
{
  const bool along_phi_goes_in = frame.lying == mirror_image;
  return along_phi_goes_in == (winding.current > 0);
}

void draw_currents(Canvas& canvas, std::span<const Body> bodies, const Frame& frame)
{
  for (const Body& body : bodies)
    if (body.winding && body.current != 0)
      for (const bool mirror_image : {false, true})
      {
        std::vector<Sign> signs;
        for (std::size_t k = mirror_image ? 1 : 0; k < body.areas.size(); k += 2)
          add_signs(body.areas[k], signs);
        draw_signs(canvas, signs, goes_in(body, frame, mirror_image));
      }
}

} // namespace post::drawing
