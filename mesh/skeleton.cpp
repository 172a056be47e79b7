// Cuts the layout's curves where they meet, then into lengths that suit what lies beside them.
#include "mesh/skeleton.hpp"

#include "mesh/mirror.hpp"
#include "mesh/piece.hpp"
#include "mesh/tips.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <map>
#include <numbers>
#include <stdexcept>
#include <tuple>

namespace mesh
{

namespace
{

/// An arc's sagitta over that distance, so that bent edges stay clear of what lies beside them.
constexpr double sagitta_share = 0.25;
constexpr double widest_arc = std::numbers::pi / 4.0;
/// Longest segment of a mirror and of the axis beside it over the distance to what lies beside:
/// where no curve passes, triangles would be as long as these, and pictures show it.
constexpr double border_slimness = 2.5;
/// Box size over the radius of the smallest ball about the middle that holds every body.
constexpr double box_ratio = 1.5;

struct Raw
{
  Piece piece;
  int sheet = -1;
  Extent box = {};
};

bool along_axis(const Piece& piece)
{
  return !piece.arc && piece.from.r == 0.0 && piece.to.r == 0.0;
}

void set_boxes(std::vector<Raw>& raws)
{
  for (Raw& raw : raws)
    raw.box = extent(raw.piece);
}

std::vector<Raw> gather(const Layout& layout)
{
  std::vector<Raw> all;
  const auto take = [&](const Outline& outline)
  {
    for (const Piece& piece : outline)
      if (!along_axis(piece))
        all.push_back({piece});
  };
  for (const Region& region : layout.regions)
    for (const Outline& one : region.outlines)
      take(one);
  for (std::size_t i = 0; i < layout.conductors.size(); ++i)
  {
    const Conductor& conductor = layout.conductors[i];
    if (const auto* sheet = std::get_if<SheetSection>(&conductor.section))
      all.push_back({{{sheet->r, sheet->z_low}, {sheet->r, sheet->z_high}}, static_cast<int>(i)});
    else
      take(outline(conductor));
  }
  set_boxes(all);
  return all;
}

/// What lies above the middle plane or in it.
std::vector<Raw> upper_half(const std::vector<Raw>& raws, double middle, double tolerance)
{
  std::vector<Raw> kept;
  for (const Raw& raw : raws)
    for (const Piece& part : above(raw.piece, middle, tolerance))
      kept.push_back({part, raw.sheet});
  set_boxes(kept);
  return kept;
}

/// Nodes merged within a tolerance.
class Nodes
{
public:
  explicit Nodes(double tolerance) : _tolerance(tolerance) {}
  int index(Point x)
  {
    for (auto it = _by_z.lower_bound(x.z - _tolerance);
         it != _by_z.end() && it->first <= x.z + _tolerance; ++it)
      if (distance(points[it->second], x) <= _tolerance)
        return it->second;
    points.push_back(x);
    _by_z.emplace(x.z, static_cast<int>(points.size()) - 1);
    return static_cast<int>(points.size()) - 1;
  }
  std::vector<Point> points;

private:
  double _tolerance;
  std::multimap<double, int> _by_z;
};

/// Every piece cut at the nodes that lie on it, each part once.
std::vector<Raw> cut_at_nodes(const std::vector<Raw>& raws, Nodes& nodes, double tolerance)
{
  for (const Raw& raw : raws)
  {
    nodes.index(raw.piece.from);
    nodes.index(raw.piece.to);
  }
  for (std::size_t i = 0; i < raws.size(); ++i)
    for (std::size_t j = i + 1; j < raws.size(); ++j)
      if (near(raws[i].box, raws[j].box, tolerance))
        for (const Point x : meeting_points(raws[i].piece, raws[j].piece, tolerance))
          nodes.index(x);
  std::map<std::tuple<int, int, int>, Raw> parts; // (nodes, centre of the arc or -1)
  Nodes centres(tolerance);
  for (const Raw& raw : raws)
  {
    std::vector<std::pair<double, int>> stops;
    for (std::size_t n = 0; n < nodes.points.size(); ++n)
      if (distance(raw.box, nodes.points[n]) <= tolerance &&
          distance(raw.piece, nodes.points[n]) <= tolerance)
        stops.emplace_back(nearest_parameter(raw.piece, nodes.points[n]), static_cast<int>(n));
    std::sort(stops.begin(), stops.end());
    for (std::size_t k = 0; k + 1 < stops.size(); ++k)
    {
      Piece part = stretch(raw.piece, stops[k].first, stops[k + 1].first);
      const int a = stops[k].second, b = stops[k + 1].second;
      part.from = nodes.points[a];
      part.to = nodes.points[b];
      const int centre = part.arc ? centres.index(part.arc->centre) : -1;
      Raw& kept =
          parts.try_emplace({std::min(a, b), std::max(a, b), centre}, Raw{part}).first->second;
      if (raw.sheet >= 0)
        kept.sheet = raw.sheet;
    }
  }
  std::vector<Raw> cut;
  for (const auto& [key, raw] : parts)
    cut.push_back(raw);
  set_boxes(cut);
  return cut;
}

bool share_end(const Piece& p, const Piece& q)
{
  const auto same = [](Point a, Point b) { return a.r == b.r && a.z == b.z; };
  return same(p.from, q.from) || same(p.from, q.to) || same(p.to, q.from) || same(p.to, q.to);
}

bool touches_axis(const Piece& piece)
{
  return piece.from.r == 0.0 || piece.to.r == 0.0;
}

bool in_mirror(const Box& box, const Piece& piece)
{
  return box.halved && !piece.arc && piece.from.z == box.middle && piece.to.z == box.middle;
}

bool touches_mirror(const Box& box, const Piece& piece)
{
  return piece.from.z == box.middle || piece.to.z == box.middle;
}

/// What the length of a piece depends on beside itself.
struct Surroundings
{
  const Box& box;
  const std::vector<Raw>& others;
  double slimness;
  const std::vector<Point>& crowded;
};

/// Distance from x to the nearest curve that does not touch `piece`, or across the axis or a mirror
/// to itself.
double clearance(Point x, const Piece& piece, const Surroundings& around)
{
  double least = touches_axis(piece) ? std::numeric_limits<double>::infinity() : 2.0 * x.r;
  if (around.box.halved && !touches_mirror(around.box, piece))
    least = std::min(least, 2.0 * (x.z - around.box.middle));
  for (const Raw& other : around.others)
    if (&other.piece != &piece && distance(other.box, x) < least && !share_end(piece, other.piece))
      least = std::min(least, distance(other.piece, x));
  return least;
}

bool too_long(const Piece& part, const Piece& whole, const Surroundings& around)
{
  double clear = std::numeric_limits<double>::infinity();
  for (const double t : {0.0, 0.5, 1.0})
    clear = std::min(clear, clearance(point_at(part, t), whole, around));
  if (around.box.halved && (in_mirror(around.box, whole) || along_axis(whole)) &&
      length(part) > border_slimness * clear)
    return true;
  // Where a clearance is hundreds of times longer than wide, so many pieces would be idle.
  const double slim = around.slimness * std::max(1.0, std::sqrt(length(whole) / clear / 400.0));
  if (length(part) > slim * clear)
    return true;
  const auto crowds = [&](Point x)
  {
    return distance(part, x) < 1e-6 * length(part) &&
           std::abs(nearest_parameter(part, x) - 0.5) < 0.1;
  };
  if (std::any_of(around.crowded.begin(), around.crowded.end(), crowds))
    return true;
  if (!part.arc)
    return false;
  const double angle = std::abs(part.arc->to - part.arc->from);
  const double sagitta = part.arc->radius * (1.0 - std::cos(0.5 * angle));
  return angle > widest_arc * 1.0001 || sagitta > sagitta_share * clear;
}

/// Parameters at which `whole` is to be cut, ends included, found by halving.
void halvings(const Piece& whole, double t0, double t1, const Surroundings& around, int depth,
              std::vector<double>& stops)
{
  if (depth > 0 && too_long(stretch(whole, t0, t1), whole, around))
  {
    const double middle = 0.5 * (t0 + t1);
    halvings(whole, t0, middle, around, depth - 1, stops);
    halvings(whole, middle, t1, around, depth - 1, stops);
    return;
  }
  stops.push_back(t1);
}

std::vector<double> stops_of(const Piece& whole, const Surroundings& around)
{
  std::vector<double> stops{0.0};
  halvings(whole, 0.0, 1.0, around, 14, stops);
  return stops;
}

std::vector<Corner> corners(const Nodes& nodes, const std::vector<Raw>& parts, const Box& box)
{
  std::map<std::pair<double, double>, std::vector<Point>> leaving;
  for (const Raw& raw : parts)
  {
    leaving[{raw.piece.from.r, raw.piece.from.z}].push_back(direction_at(raw.piece, 0.0));
    leaving[{raw.piece.to.r, raw.piece.to.z}].push_back(-1.0 * direction_at(raw.piece, 1.0));
  }
  std::vector<Corner> corner(nodes.points.size(), Corner::none);
  for (std::size_t n = 0; n < corner.size(); ++n)
  {
    std::vector<Point> ways = leaving[{nodes.points[n].r, nodes.points[n].z}];
    if (nodes.points[n].r == 0.0 && ways.size() == 1)
      ways.push_back({-ways[0].r, ways[0].z}); // the mirror half
    if (box.halved && nodes.points[n].z == box.middle)
      for (std::size_t i = ways.size(); i-- > 0;)
        if (ways[i].z > 1e-9)
          ways.push_back({ways[i].r, -ways[i].z}); // below the mirror
    if (ways.size() != 2 || dot(ways[0], ways[1]) > -1.0 + 1e-9)
      corner[n] = Corner::angle;
    for (std::size_t i = 0; i < ways.size(); ++i)
      for (std::size_t j = i + 1; j < ways.size(); ++j)
        if (dot(ways[i], ways[j]) > 1.0 - 1e-9)
          corner[n] = Corner::touch;
  }
  return corner;
}

Box box_around(const std::vector<Raw>& raws)
{
  double low = std::numeric_limits<double>::infinity(), high = -low;
  for (const Raw& raw : raws)
    for (const double t : {0.0, 0.25, 0.5, 0.75, 1.0})
    {
      low = std::min(low, point_at(raw.piece, t).z);
      high = std::max(high, point_at(raw.piece, t).z);
    }
  const double middle = 0.5 * (low + high);
  double ball = 0.0;
  for (const Raw& raw : raws)
    for (const double t : {0.0, 0.25, 0.5, 0.75, 1.0})
      ball = std::max(ball, distance(point_at(raw.piece, t), Point{0.0, middle}));
  return {box_ratio * ball, box_ratio * ball, middle};
}

int curve_index(const Piece& piece, Skeleton& skeleton)
{
  const bool slope = !piece.arc && piece.from.r != piece.to.r && piece.from.z != piece.to.z;
  if (!piece.arc && !slope)
    return -1;
  Curve curve;
  if (piece.arc)
    curve = {Curve::Kind::arc, piece.arc->centre, piece.arc->radius};
  skeleton.curves.push_back(curve);
  return static_cast<int>(skeleton.curves.size()) - 1;
}

void add_outline(Skeleton& made, Nodes& nodes, const Surroundings& around)
{
  const Box& box = made.box;
  const double low = box.halved ? box.middle : box.middle - box.half_height,
               high = box.middle + box.half_height;
  std::vector<double> axis_stops{high, low};
  for (const Point& x : nodes.points)
    if (x.r == 0.0)
      axis_stops.push_back(x.z);
  std::sort(axis_stops.begin(), axis_stops.end(), std::greater<>());
  axis_stops.erase(std::unique(axis_stops.begin(), axis_stops.end()), axis_stops.end());
  std::vector<double> floor_stops{0.0, box.radius};
  for (const Point& x : nodes.points)
    if (box.halved && x.z == low)
      floor_stops.push_back(x.r);
  std::sort(floor_stops.begin(), floor_stops.end());
  floor_stops.erase(std::unique(floor_stops.begin(), floor_stops.end()), floor_stops.end());
  std::vector<Piece> sides;
  for (std::size_t k = 0; k + 1 < floor_stops.size(); ++k)
    sides.push_back({{floor_stops[k], low}, {floor_stops[k + 1], low}});
  sides.push_back({{box.radius, low}, {box.radius, high}});
  sides.push_back({{box.radius, high}, {0.0, high}});
  for (std::size_t k = 0; k + 1 < axis_stops.size(); ++k)
    sides.push_back({{0.0, axis_stops[k]}, {0.0, axis_stops[k + 1]}});
  for (const Piece& side : sides)
  {
    const std::vector<double> stops = stops_of(side, around);
    for (std::size_t k = 0; k + 1 < stops.size(); ++k)
      made.outline.push_back({nodes.index(point_at(side, stops[k])),
                              nodes.index(point_at(side, stops[k + 1])), -1, -1});
  }
}

} // namespace

Skeleton skeleton(const Layout& layout, double slimness, const std::vector<Point>& crowded,
                  Portion portion)
{
  std::vector<Raw> raws = gather(layout);
  if (raws.empty())
    throw std::invalid_argument("the scene has no part and no winding");
  Skeleton made;
  made.box = box_around(raws);
  const double tolerance = 1e-10 * made.box.radius;
  made.box.halved =
      portion == Portion::half_if_mirrored && mirrored(layout, made.box.middle, made.box.radius);
  if (made.box.halved)
    raws = upper_half(raws, made.box.middle, tolerance);
  Nodes nodes(tolerance);
  const std::vector<Raw> parts = cut_at_nodes(raws, nodes, tolerance);
  const Surroundings around{made.box, parts, slimness, crowded};
  made.corner = corners(nodes, parts, made.box);
  for (const Raw& raw : parts)
  {
    if (in_mirror(made.box, raw.piece))
      continue; // the outline runs there
    const int curve = curve_index(raw.piece, made);
    const std::vector<double> stops = stops_of(raw.piece, around);
    for (std::size_t k = 0; k + 1 < stops.size(); ++k)
      made.kept.push_back({nodes.index(point_at(raw.piece, stops[k])),
                           nodes.index(point_at(raw.piece, stops[k + 1])), curve, raw.sheet});
  }
  add_outline(made, nodes, around);
  made.nodes = std::move(nodes.points);
  made.corner.resize(made.nodes.size(), Corner::none);
  tie_tips(made);
  return made;
}

} // namespace mesh
