// From layout to things on the sheet, and their outlines drawn.
#include "post/drawing/bodies.hpp"

#include "post/drawing/sheet.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace post::drawing
{

namespace
{

constexpr Colour copper = {0.62, 0.27, 0.07};

void add_both_halves(Line line, const Frame& frame, std::vector<Line>& lines)
{
  Line other = line;
  for (Spot& spot : other.spots)
    spot = frame.mirrored(spot);
  lines.push_back(std::move(line));
  lines.push_back(std::move(other));
}

Line on_sheet(std::span<const mesh::Point> points, bool closed, const Frame& frame)
{
  Line line{{}, closed};
  for (const mesh::Point& point : points)
    line.spots.push_back(frame.spot(point));
  return line;
}

/// @brief The boundary without its pieces on the axis, which the mirror image covers up.
void add_edges(std::vector<mesh::Point> points, const Frame& frame, std::vector<Line>& edges)
{
  const double on_axis = 1e-9 * frame.r_max;
  const std::size_t count = points.size();
  const auto axial = [&](std::size_t i)
  { return points[i].r <= on_axis && points[(i + 1) % count].r <= on_axis; };
  std::size_t start = 0;
  while (start < count && !axial(start))
    ++start;
  if (start == count)
    return add_both_halves(on_sheet(points, true, frame), frame, edges);
  std::vector<mesh::Point> run;
  for (std::size_t k = 1; k <= count; ++k)
  {
    const std::size_t i = (start + k) % count;
    run.push_back(points[i]);
    if (!axial(i))
      continue;
    if (run.size() > 1)
      add_both_halves(on_sheet(run, false, frame), frame, edges);
    run.clear();
  }
}

double size(const Body& body)
{
  double largest = 0.0;
  for (const Line& area : body.areas)
  {
    const Box box = box_around(area);
    largest = std::max(largest, box.width * box.height);
  }
  return largest;
}

/// @brief Thinner around small things, so that many of them do not turn black.
double edge_width(const Body& body)
{
  const Box box = box_around(body.areas.front());
  return body.areas.size() > 8 ? std::clamp(0.07 * std::min(box.width, box.height), 0.5, 1.2) : 1.2;
}

std::vector<Body> parts(const mesh::Layout& layout, const Frame& frame)
{
  std::vector<Body> result;
  for (std::size_t k = 1; k < layout.regions.size(); ++k)
  {
    Body body{layout.regions[k].name, false, {}, {}, 0};
    for (const mesh::Outline& outline : layout.regions[k].outlines)
    {
      const std::vector<mesh::Point> points = corners(outline);
      add_both_halves(on_sheet(points, true, frame), frame, body.areas);
      add_edges(points, frame, body.edges);
    }
    if (!body.areas.empty())
      result.push_back(std::move(body));
  }
  std::stable_sort(result.begin(), result.end(),
                   [](const Body& a, const Body& b) { return size(a) > size(b); });
  return result;
}

/// @brief A sheet as a strip of 1.6 pt.
std::vector<mesh::Point> strip(std::span<const mesh::Point> sheet, const Frame& frame)
{
  const double half = 0.8 / frame.points_per_metre;
  const double r = sheet[0].r;
  return {{r - half, sheet[0].z},
          {r + half, sheet[0].z},
          {r + half, sheet[1].z},
          {r - half, sheet[1].z}};
}

} // namespace

Box box_around(const Line& line)
{
  Box box{line.spots.front().x, line.spots.front().y, 0.0, 0.0};
  double x_high = box.x, y_high = box.y;
  for (const Spot& spot : line.spots)
  {
    box.x = std::min(box.x, spot.x);
    box.y = std::min(box.y, spot.y);
    x_high = std::max(x_high, spot.x);
    y_high = std::max(y_high, spot.y);
  }
  box.width = x_high - box.x;
  box.height = y_high - box.y;
  return box;
}

std::vector<Body> bodies(const mesh::Layout& layout, const Result& result, const Sample& sample,
                         const Frame& frame)
{
  const std::vector<int> signs = current_signs(layout, sample);
  std::vector<Body> windings(signs.size());
  for (std::size_t w = 0; w < windings.size(); ++w)
    windings[w] = {w < result.windings.size() ? result.windings[w].name
                                              : fmt::format("winding {}", w + 1),
                   true,
                   {},
                   {},
                   signs[w]};
  for (const mesh::Conductor& conductor : layout.conductors)
  {
    Body& winding = windings[conductor.winding];
    const std::vector<mesh::Point> points = corners(conductor);
    const bool sheet = points.size() == 2;
    add_both_halves(on_sheet(sheet ? strip(points, frame) : points, true, frame), frame,
                    winding.areas);
    add_both_halves(on_sheet(points, !sheet, frame), frame, winding.edges);
  }
  std::vector<Body> all = parts(layout, frame);
  std::copy_if(windings.begin(), windings.end(), std::back_inserter(all),
               [](const Body& winding) { return !winding.areas.empty(); });
  return all;
}

void draw_bodies(Canvas& canvas, std::span<const Body> bodies)
{
  for (const Body& body : bodies)
    if (body.winding)
    {
      canvas.fill(body.areas, {1.0, 1.0, 1.0, 0.5});
      canvas.stroke(body.edges, {copper, 0.9 * edge_width(body)});
    }
    else
      canvas.stroke(body.edges, {ink, edge_width(body)});
}

} // namespace post::drawing
