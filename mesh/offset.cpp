// The boundary of all points within a distance of a body: the outline of a coating.
//
// Every piece is moved outward and every convex corner gets its arc; all these curves are cut at
// each other and at the axis, and the stretches kept are those that no other part of the body is
// nearer to. What the distance swallows of the axis closes the chain.
#include "mesh/chain.hpp"
#include "mesh/piece.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace mesh
{

namespace
{

using std::numbers::pi;

/// Lengths below which points are the same, places equal and gaps closed [m].
struct Tolerance
{
  double place;
  double weld;
};

Tolerance tolerance_for(const Extent& box, double distance)
{
  double largest = distance;
  for (Point p : {box.low, box.high})
    largest = std::max({largest, std::abs(p.r), std::abs(p.z)});
  const double place = std::max(1e-9 * distance, 1e-13 * largest);
  return {place, 100 * place};
}

Point outward(Point direction)
{
  return {direction.z, -direction.r};
}

/// Angle by which the boundary turns left at the end of a piece [rad].
double corner_angle(const Piece& piece, const Piece& next)
{
  const Point before = direction_at(piece, 1.0);
  const Point after = direction_at(next, 0.0);
  return std::atan2(cross(before, after), dot(before, after));
}

/// The piece moved outward; an arc hollowed out to nothing vanishes.
std::optional<Piece> moved(const Piece& piece, double distance)
{
  if (!piece.arc)
  {
    const Point shift = distance * outward(direction_at(piece, 0.0));
    return Piece{piece.from + shift, piece.to + shift};
  }
  const Arc& arc = *piece.arc;
  const double radius = arc.radius + (arc.to > arc.from ? distance : -distance);
  if (radius <= 1e-9 * distance)
    return std::nullopt;
  return arc_piece(arc.centre, radius, arc.from, arc.to);
}

Piece corner_arc(const Piece& piece, double angle, double distance)
{
  const Point normal = outward(direction_at(piece, 1.0));
  const double from = std::atan2(normal.z, normal.r);
  return arc_piece(piece.to, distance, from, from + angle);
}

/// Ends two moved lines at their common point where the body is only slightly hollow: their
/// overhangs would be too flat to be told from the boundary itself.
void trim(Piece& first, Piece& second, double angle, double distance)
{
  const double overhang = distance * std::tan(-angle / 2);
  if (first.arc || second.arc || 2 * overhang > std::min(length(first), length(second)))
    return;
  first.to = first.to - overhang * direction_at(first, 1.0);
  second.from = first.to;
}

/// Whether the boundary bends inward so little between two lines that they must be trimmed.
bool slightly_hollow(const Piece& piece, const Piece& next)
{
  const double angle = corner_angle(piece, next);
  return !piece.arc && !next.arc && angle < -1e-12 && angle > -0.05;
}

/// Moved pieces and corner arcs in order.
std::vector<Piece> moved_pieces(const Outline& body, double distance)
{
  std::vector<Piece> raw;
  for (std::size_t i = 0; i < body.size(); ++i)
  {
    const Piece& before = body[(i + body.size() - 1) % body.size()];
    const Piece& next = body[(i + 1) % body.size()];
    std::optional<Piece> piece = moved(body[i], distance);
    if (!piece)
      continue;
    if (i > 0 && slightly_hollow(before, body[i]))
      trim(raw.back(), *piece, corner_angle(before, body[i]), distance);
    raw.push_back(*piece);
    if (corner_angle(body[i], next) > 1e-12)
      raw.push_back(corner_arc(body[i], corner_angle(body[i], next), distance));
  }
  if (slightly_hollow(body.back(), body.front()))
    trim(raw.back(), raw.front(), corner_angle(body.back(), body.front()), distance);
  return raw;
}

/// Every curve in stretches that end wherever another one meets it.
std::vector<std::vector<Piece>> cut_at_each_other(const std::vector<Piece>& raw,
                                                  Tolerance tolerance)
{
  std::vector<std::vector<Point>> at(raw.size());
  std::vector<Extent> boxes;
  for (const Piece& piece : raw)
    boxes.push_back(extent(piece));
  for (std::size_t i = 0; i < raw.size(); ++i)
    for (std::size_t j = i + 1; j < raw.size(); ++j)
    {
      if (!near(boxes[i], boxes[j], tolerance.place))
        continue;
      for (Point point : meeting_points(raw[i], raw[j], tolerance.place))
      {
        at[i].push_back(point);
        at[j].push_back(point);
      }
    }
  std::vector<std::vector<Piece>> stretches;
  for (std::size_t i = 0; i < raw.size(); ++i)
    stretches.push_back(length(raw[i]) > tolerance.weld ? cut(raw[i], at[i], tolerance.weld)
                                                        : std::vector<Piece>{});
  return stretches;
}

/// A body with the boxes of its pieces, to ask quickly what is near.
class Surroundings
{
public:
  Surroundings(const Outline& body, double reach) : _body(body), _reach(reach)
  {
    for (const Piece& piece : body)
      _boxes.push_back(extent(piece));
  }
  /// Whether the body's boundary is nearer to the point than the reach.
  bool within(Point point) const
  {
    for (std::size_t i = 0; i < _body.size(); ++i)
      if (near({point, point}, _boxes[i], _reach) && distance(_body[i], point) < _reach)
        return true;
    return false;
  }

private:
  const Outline& _body;
  double _reach;
  std::vector<Extent> _boxes;
};

/// The stretches that bound the coated body: at the full distance, or on the swallowed axis, which
/// is the last curve. Moved curves never surface deep in the body, so its boundary is all to ask.
std::vector<Piece> bounding(const std::vector<std::vector<Piece>>& curves, const Outline& body,
                            double distance, double tolerance)
{
  const Surroundings surroundings(body, distance - tolerance);
  std::vector<Piece> kept;
  for (const std::vector<Piece>& curve : curves)
    for (const Piece& piece : curve)
    {
      const Point middle = point_at(piece, 0.5);
      const bool axis = &curve == &curves.back();
      if (middle.r >= -tolerance && axis == surroundings.within(middle))
        kept.push_back(piece);
    }
  return kept;
}

/// Long arcs in two: no arc of a returned outline reaches half a turn.
Outline with_short_arcs(const Outline& outline)
{
  Outline result;
  for (const Piece& piece : outline)
  {
    const bool long_arc = piece.arc && std::abs(piece.arc->to - piece.arc->from) > 0.6 * pi;
    if (long_arc)
      result.push_back(stretch(piece, 0.0, 0.5));
    result.push_back(long_arc ? stretch(piece, 0.5, 1.0) : piece);
  }
  return result;
}

/// Points within rounding of the axis put onto it.
void snap_to_axis(Outline& outline, double tolerance)
{
  for (Piece& piece : outline)
    for (Point* end : {&piece.from, &piece.to})
      if (std::abs(end->r) <= tolerance)
        end->r = 0.0;
}

} // namespace

std::vector<Outline> offset(const Outline& body, double distance)
{
  if (!(distance > 0))
    throw std::invalid_argument("offset: the distance must be positive");
  const Extent box = extent(body);
  const Tolerance tolerance = tolerance_for(box, distance);
  std::vector<Piece> raw = moved_pieces(body, distance);
  raw.push_back({{0.0, box.high.z + 2 * distance}, {0.0, box.low.z - 2 * distance}}); // the axis
  const std::vector<Piece> kept =
      bounding(cut_at_each_other(raw, tolerance), body, distance, tolerance.place);
  std::vector<Outline> loops = chains(without_doubles(kept, tolerance.weld), 3 * tolerance.weld);
  for (Outline& loop : loops)
  {
    loop = with_short_arcs(loop);
    snap_to_axis(loop, 3 * tolerance.weld);
  }
  std::sort(loops.begin(), loops.end(),
            [](const Outline& a, const Outline& b) { return signed_area(a) > signed_area(b); });
  for (Outline& loop : loops)
    if (signed_area(loop) < 0)
      loop = reversed(loop);
  return loops;
}

} // namespace mesh
