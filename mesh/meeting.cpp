// Where two pieces cross or touch: line with line, line with circle, circle with circle.
//
// Every candidate is checked against both pieces, so a formula may offer too many.
#include "mesh/piece.hpp"

#include <algorithm>
#include <cmath>

namespace mesh
{

namespace
{

using Candidates = std::vector<Point>;

void line_with_line(const Piece& a, const Piece& b, Candidates& found)
{
  const Point u = a.to - a.from;
  const Point v = b.to - b.from;
  const double slant = cross(u, v);
  if (slant == 0.0)
    return; // parallel: a common stretch is found by its ends
  const double t = cross(b.from - a.from, v) / slant;
  if (t > 0 && t < 1)
    found.push_back(a.from + t * u);
}

void line_with_circle(const Piece& line, const Arc& arc, double tolerance, Candidates& found)
{
  const Point u = direction_at(line, 0.0);
  const Point nearest = line.from + dot(arc.centre - line.from, u) * u;
  const double height = std::abs(cross(u, arc.centre - line.from));
  found.push_back(nearest); // touching, if it lies on the circle
  // One deeper by no more than the tolerance touches: round-off alone makes a chord of its root.
  if (arc.radius - height <= tolerance)
    return;
  const double square = (arc.radius - height) * (arc.radius + height);
  const double half_chord = std::sqrt(square);
  found.push_back(nearest - half_chord * u);
  found.push_back(nearest + half_chord * u);
}

void circle_with_circle(const Arc& a, const Arc& b, double tolerance, Candidates& found)
{
  const double apart = distance(a.centre, b.centre);
  if (apart == 0.0)
    return; // concentric: a common stretch is found by its ends
  const Point u = 1 / apart * (b.centre - a.centre);
  const Point left{-u.z, u.r};
  found.push_back(a.centre + a.radius * u); // touching from outside, or b around a
  found.push_back(a.centre - a.radius * u); // touching with a around or inside b
  // Foot of the common chord; written so that nearly concentric circles keep their digits.
  const double along = apart / 2 + (a.radius - b.radius) * (a.radius + b.radius) / (2 * apart);
  if (a.radius - std::abs(along) <= tolerance)
    return; // touching, as above
  const double square = (a.radius - along) * (a.radius + along);
  found.push_back(a.centre + along * u + std::sqrt(square) * left);
  found.push_back(a.centre + along * u - std::sqrt(square) * left);
}

} // namespace

std::vector<Point> meeting_points(const Piece& a, const Piece& b, double tolerance)
{
  Candidates found{a.from, a.to, b.from, b.to};
  if (a.arc && b.arc)
    circle_with_circle(*a.arc, *b.arc, tolerance, found);
  else if (a.arc)
    line_with_circle(b, *a.arc, tolerance, found);
  else if (b.arc)
    line_with_circle(a, *b.arc, tolerance, found);
  else
    line_with_line(a, b, found);
  std::erase_if(found,
                [&](Point p) { return distance(a, p) > tolerance || distance(b, p) > tolerance; });
  return found;
}

} // namespace mesh
