// How two bodies lie to each other, and where a point lies to a body.
//
// Both outlines are cut at their common points; then each stretch lies wholly inside, on or
// outside the other body, and its middle tells which.
#include "mesh/outline.hpp"
#include "mesh/piece.hpp"
#include "mesh/visits.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace mesh
{

namespace
{

/// 1e-9 of the smaller body, but never below the rounding of the coordinates themselves.
double tolerance_between(const Extent& a, const Extent& b)
{
  const double smaller = std::min(distance(a.low, a.high), distance(b.low, b.high));
  double largest = 0.0;
  for (Point p : {a.low, a.high, b.low, b.high})
    largest = std::max({largest, std::abs(p.r), std::abs(p.z)});
  return std::max(1e-9 * smaller, 1e-13 * largest);
}

/// Winding of the chord about the point, in radians; a point on its line counts as on the left.
double winding_angle(Point from, Point to)
{
  const double side = cross(from, to);
  return std::atan2(side == 0.0 ? 0.0 : side, dot(from, to));
}

/// Turns to add because the piece is an arc and the point lies between it and its chord.
int segment_turns(const Piece& piece, Point point)
{
  if (!piece.arc || distance(point, piece.arc->centre) >= piece.arc->radius)
    return 0;
  const bool left = cross(piece.from - point, piece.to - point) >= 0;
  const bool clockwise = piece.arc->to < piece.arc->from;
  if (left != clockwise)
    return 0;
  return clockwise ? -1 : 1;
}

} // namespace

Visits visits(const Outline& path, const Outline& body)
{
  const double tolerance = tolerance_between(extent(path), extent(body));
  std::vector<Extent> boxes;
  for (const Piece& piece : body)
    boxes.push_back(extent(piece));
  Visits result;
  for (const Piece& piece : path)
  {
    std::vector<Point> at;
    const Extent box = extent(piece);
    for (std::size_t i = 0; i < body.size(); ++i)
      if (near(box, boxes[i], tolerance))
        for (Point point : meeting_points(piece, body[i], tolerance))
          at.push_back(point);
    if (at.empty() && &piece != &path.front())
      continue; // on the side where the piece before ended
    for (const Piece& part : cut(piece, at, tolerance))
    {
      const Point middle = point_at(part, 0.5);
      if (distance(body, middle) > tolerance)
        (encloses(body, middle) ? result.inside : result.outside) = true;
    }
  }
  return result;
}

Relation relation(const Outline& a, const Outline& b)
{
  const Extent box_a = extent(a);
  const Extent box_b = extent(b);
  if (!near(box_a, box_b, -tolerance_between(box_a, box_b)))
    return Relation::apart;
  const Visits of_a = visits(a, b);
  const Visits of_b = visits(b, a);
  if ((of_a.inside && of_a.outside) || (of_b.inside && of_b.outside) ||
      (of_a.inside && of_b.inside))
    return Relation::overlapping;
  if (of_a.inside)
    return Relation::inside;
  if (of_b.inside)
    return Relation::contains;
  return of_a.outside || of_b.outside ? Relation::apart : Relation::equal;
}

double distance(const Outline& outline, Point point)
{
  double shortest = distance(outline.at(0), point);
  for (const Piece& piece : outline)
    shortest = std::min(shortest, distance(piece, point));
  return shortest;
}

bool encloses(const Outline& outline, Point point)
{
  // Winding number of the chords, corrected by the segments between arcs and chords.
  double angle = 0.0;
  int turns = 0;
  for (const Piece& piece : outline)
  {
    angle += winding_angle(piece.from - point, piece.to - point);
    turns += segment_turns(piece, point);
  }
  return std::lround(angle / (2 * std::numbers::pi)) + turns != 0;
}

} // namespace mesh
