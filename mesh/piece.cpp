// Points, distances and stretches of a single piece; boxes; cutting.
#include "mesh/piece.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace mesh
{

namespace
{

using std::numbers::pi;

Point on_circle(const Arc& arc, double angle)
{
  return arc.centre + arc.radius * Point{std::cos(angle), std::sin(angle)};
}

/// Angle travelled from the start of the arc to the ray through `point`, in [0, 2 pi).
double travelled(const Arc& arc, Point point)
{
  const Point ray = point - arc.centre;
  const double ahead = std::atan2(ray.z, ray.r) - arc.from;
  const double turn = std::fmod(arc.to < arc.from ? -ahead : ahead, 2 * pi);
  return turn < 0 ? turn + 2 * pi : turn;
}

} // namespace

double distance(Point a, Point b)
{
  return std::hypot(a.r - b.r, a.z - b.z);
}

Piece arc_piece(Point centre, double radius, double from, double to)
{
  const Arc arc{centre, radius, from, to};
  return {on_circle(arc, from), on_circle(arc, to), arc};
}

Point point_at(const Piece& piece, double t)
{
  if (t <= 0)
    return piece.from;
  if (t >= 1)
    return piece.to;
  if (piece.arc)
    return on_circle(*piece.arc, std::lerp(piece.arc->from, piece.arc->to, t));
  return {std::lerp(piece.from.r, piece.to.r, t), std::lerp(piece.from.z, piece.to.z, t)};
}

Point direction_at(const Piece& piece, double t)
{
  if (piece.arc)
  {
    const double angle = std::lerp(piece.arc->from, piece.arc->to, t);
    const double sense = piece.arc->to < piece.arc->from ? -1.0 : 1.0;
    return sense * Point{-std::sin(angle), std::cos(angle)};
  }
  return 1 / distance(piece.from, piece.to) * (piece.to - piece.from);
}

double length(const Piece& piece)
{
  if (piece.arc)
    return piece.arc->radius * std::abs(piece.arc->to - piece.arc->from);
  return distance(piece.from, piece.to);
}

double nearest_parameter(const Piece& piece, Point point)
{
  if (!piece.arc)
  {
    const Point way = piece.to - piece.from;
    const double square = dot(way, way);
    return square > 0 ? std::clamp(dot(point - piece.from, way) / square, 0.0, 1.0) : 0.0;
  }
  const double t = travelled(*piece.arc, point) / std::abs(piece.arc->to - piece.arc->from);
  if (t <= 1)
    return t;
  return distance(point, piece.from) < distance(point, piece.to) ? 0.0 : 1.0;
}

double distance(const Piece& piece, Point point)
{
  const double t = nearest_parameter(piece, point);
  if (piece.arc && t > 0 && t < 1)
    return std::abs(distance(point, piece.arc->centre) - piece.arc->radius);
  if (!piece.arc && t > 0 && t < 1)
    return std::abs(cross(direction_at(piece, t), point - piece.from));
  return distance(point, point_at(piece, t));
}

Piece stretch(const Piece& piece, double t0, double t1)
{
  Piece result{point_at(piece, t0), point_at(piece, t1)};
  if (piece.arc)
  {
    const Arc& arc = *piece.arc;
    result.arc = Arc{arc.centre, arc.radius, std::lerp(arc.from, arc.to, t0),
                     std::lerp(arc.from, arc.to, t1)};
  }
  return result;
}

Piece reversed(const Piece& piece)
{
  Piece result{piece.to, piece.from};
  if (piece.arc)
    result.arc = Arc{piece.arc->centre, piece.arc->radius, piece.arc->to, piece.arc->from};
  return result;
}

Outline reversed(const Outline& outline)
{
  Outline result;
  for (auto piece = outline.rbegin(); piece != outline.rend(); ++piece)
    result.push_back(reversed(*piece));
  return result;
}

Extent extent(const Piece& piece)
{
  Extent box{{std::min(piece.from.r, piece.to.r), std::min(piece.from.z, piece.to.z)},
             {std::max(piece.from.r, piece.to.r), std::max(piece.from.z, piece.to.z)}};
  if (!piece.arc)
    return box;
  const auto [first, last] = std::minmax(piece.arc->from, piece.arc->to);
  for (double quarter = std::ceil(first / (pi / 2)); quarter * (pi / 2) <= last; ++quarter)
  {
    const Point p = on_circle(*piece.arc, quarter * (pi / 2));
    box.low = {std::min(box.low.r, p.r), std::min(box.low.z, p.z)};
    box.high = {std::max(box.high.r, p.r), std::max(box.high.z, p.z)};
  }
  return box;
}

double distance(const Extent& box, Point point)
{
  const double dr = std::max({box.low.r - point.r, 0.0, point.r - box.high.r});
  const double dz = std::max({box.low.z - point.z, 0.0, point.z - box.high.z});
  return std::hypot(dr, dz);
}

bool near(const Extent& a, const Extent& b, double margin)
{
  return a.low.r <= b.high.r + margin && b.low.r <= a.high.r + margin &&
         a.low.z <= b.high.z + margin && b.low.z <= a.high.z + margin;
}

std::vector<Piece> cut(const Piece& piece, const std::vector<Point>& at, double tolerance)
{
  const double shortest = tolerance / length(piece);
  std::vector<double> parameters;
  for (const Point& point : at)
    parameters.push_back(nearest_parameter(piece, point));
  std::sort(parameters.begin(), parameters.end());
  std::vector<Piece> stretches;
  double last = 0.0;
  for (double t : parameters)
  {
    if (t - last <= shortest || 1 - t <= shortest)
      continue;
    stretches.push_back(stretch(piece, last, t));
    last = t;
  }
  stretches.push_back(stretch(piece, last, 1.0));
  return stretches;
}

} // namespace mesh
