// Closed chains of pieces: the simple shapes, and their area, volume and box.
#include "mesh/outline.hpp"
#include "mesh/piece.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace mesh
{

namespace
{

using std::numbers::pi;

/// Points without immediate repetitions, the closing one included.
std::vector<Point> distinct(std::span<const Point> points)
{
  const auto same = [](Point a, Point b) { return a.r == b.r && a.z == b.z; };
  std::vector<Point> result(points.begin(), points.end());
  result.erase(std::unique(result.begin(), result.end(), same), result.end());
  while (result.size() > 1 && same(result.front(), result.back()))
    result.pop_back();
  return result;
}

Outline closed(std::span<const Point> points)
{
  Outline outline;
  for (std::size_t i = 0; i < points.size(); ++i)
    outline.push_back({points[i], points[(i + 1) % points.size()]});
  return outline;
}

/// Integral of r dz over a piece.
double swept_area(const Piece& piece)
{
  if (!piece.arc)
    return (piece.from.r + piece.to.r) / 2 * (piece.to.z - piece.from.z);
  const auto& [c, R, from, to] = *piece.arc;
  const auto primitive = [&](double a)
  { return R * (c.r * std::sin(a) + R * (a / 2 + std::sin(2 * a) / 4)); };
  return primitive(to) - primitive(from);
}

/// Integral of pi r^2 dz over a piece: the volume between it and the axis.
double swept_volume(const Piece& piece)
{
  if (!piece.arc)
  {
    const double a = piece.from.r;
    const double b = piece.to.r;
    return pi * (piece.to.z - piece.from.z) * (a * a + a * b + b * b) / 3;
  }
  const auto& [c, R, from, to] = *piece.arc;
  const auto primitive = [&](double a)
  {
    const double sine = std::sin(a);
    return pi * R *
           (c.r * c.r * sine + 2 * c.r * R * (a / 2 + std::sin(2 * a) / 4) +
            R * R * (sine - sine * sine * sine / 3));
  };
  return primitive(to) - primitive(from);
}

} // namespace

Outline rectangle(double r_inner, double r_outer, double z_low, double z_high)
{
  const Point corners[] = {
      {r_inner, z_low}, {r_outer, z_low}, {r_outer, z_high}, {r_inner, z_high}};
  return closed(corners);
}

Outline circle(Point centre, double radius)
{
  // A circle that crosses the axis keeps its part at r >= 0 and runs down the axis.
  const bool whole = centre.r >= radius * (1 - 1e-12);
  const double last = whole ? pi : std::acos(-centre.r / radius);
  Outline outline{arc_piece(centre, radius, 0, pi / 2)};
  if (last > pi / 2)
    outline.push_back(arc_piece(centre, radius, pi / 2, last));
  if (last > pi / 2)
    outline.push_back(arc_piece(centre, radius, -last, -pi / 2));
  outline.push_back(arc_piece(centre, radius, -pi / 2, 0));
  const std::size_t upper = outline.size() / 2;
  if (whole)
  {
    outline[upper].arc->from += 2 * pi;
    outline[upper].arc->to += 2 * pi;
    outline[upper + 1].arc->from += 2 * pi;
    outline[upper + 1].arc->to += 2 * pi;
  }
  else
  {
    outline[upper - 1].to.r = outline[upper].from.r = 0;
    outline.insert(outline.begin() + upper, Piece{outline[upper - 1].to, outline[upper].from});
  }
  for (std::size_t i = 0; i < outline.size(); ++i)
    outline[(i + 1) % outline.size()].from = outline[i].to;
  return outline;
}

Outline polygon(std::span<const Point> points)
{
  const Outline outline = closed(distinct(points));
  return signed_area(outline) < 0 ? reversed(outline) : outline;
}

bool self_intersecting(std::span<const Point> points)
{
  const Outline edges = closed(distinct(points));
  if (edges.size() < 3)
    return true;
  const Extent box = extent(edges);
  const double tolerance = 1e-9 * distance(box.low, box.high);
  std::vector<std::size_t> upward(edges.size());
  for (std::size_t i = 0; i < upward.size(); ++i)
    upward[i] = i;
  const auto low = [&](std::size_t i) { return std::min(edges[i].from.z, edges[i].to.z); };
  const auto high = [&](std::size_t i) { return std::max(edges[i].from.z, edges[i].to.z); };
  std::sort(upward.begin(), upward.end(), [&](auto i, auto j) { return low(i) < low(j); });
  const auto meet = [&](std::size_t i, std::size_t j)
  {
    const bool next = (i + 1) % edges.size() == j;
    if (!next && (j + 1) % edges.size() != i)
      return !meeting_points(edges[i], edges[j], tolerance).empty();
    // Neighbours share a corner: wrong only where the second folds back onto the first.
    const Piece& before = next ? edges[i] : edges[j];
    const Piece& after = next ? edges[j] : edges[i];
    return distance(before, after.to) <= tolerance || distance(after, before.from) <= tolerance;
  };
  for (std::size_t a = 0; a < upward.size(); ++a)
    for (std::size_t b = a + 1; b < upward.size() && low(upward[b]) <= high(upward[a]) + tolerance;
         ++b)
      if (near(extent(edges[upward[a]]), extent(edges[upward[b]]), tolerance) &&
          meet(upward[a], upward[b]))
        return true;
  return false;
}

double signed_area(const Outline& outline)
{
  double sum = 0.0;
  for (const Piece& piece : outline)
    sum += swept_area(piece);
  return sum;
}

double area(const Outline& outline)
{
  return std::abs(signed_area(outline));
}

double volume(const Outline& outline)
{
  double sum = 0.0;
  for (const Piece& piece : outline)
    sum += swept_volume(piece);
  return std::abs(sum);
}

Extent extent(const Outline& outline)
{
  Extent box = extent(outline.at(0));
  for (const Piece& piece : outline)
  {
    const Extent own = extent(piece);
    box.low = {std::min(box.low.r, own.low.r), std::min(box.low.z, own.low.z)};
    box.high = {std::max(box.high.r, own.high.r), std::max(box.high.z, own.high.z)};
  }
  return box;
}

} // namespace mesh
