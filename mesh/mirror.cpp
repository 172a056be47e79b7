// Pieces and sections looked up at their mirrored places.
#include "mesh/mirror.hpp"

#include "mesh/piece.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace mesh
{

namespace
{

/// A piece of a boundary, or a section, told by points of it.
struct Mark
{
  std::array<double, 4> owner{}; ///< What it belongs to; numbers that no mirror changes.
  Point from;
  Point to;
  Point middle;
};

bool near(Point a, Point b, double tolerance)
{
  return distance(a, b) <= tolerance;
}

bool same(const Mark& a, const Mark& b, double tolerance)
{
  return a.owner == b.owner && near(a.middle, b.middle, tolerance) &&
         ((near(a.from, b.from, tolerance) && near(a.to, b.to, tolerance)) ||
          (near(a.from, b.to, tolerance) && near(a.to, b.from, tolerance)));
}

Mark section_mark(const Conductor& conductor)
{
  const auto kind = static_cast<double>(conductor.section.index());
  Mark mark{
      {-1.0 - kind, static_cast<double>(conductor.winding), conductor.turns, 0.0}, {}, {}, {}};
  if (const auto* block = std::get_if<BlockSection>(&conductor.section))
  {
    mark.from = {block->r_inner, block->z_low};
    mark.to = {block->r_inner, block->z_high};
    mark.middle = {block->r_outer, 0.5 * (block->z_low + block->z_high)};
  }
  else if (const auto* sheet = std::get_if<SheetSection>(&conductor.section))
  {
    mark.from = {sheet->r, sheet->z_low};
    mark.to = {sheet->r, sheet->z_high};
    mark.middle = {sheet->r, 0.5 * (sheet->z_low + sheet->z_high)};
  }
  else
  {
    const auto& round = std::get<RoundSection>(conductor.section);
    mark.owner[3] = round.radius;
    mark.from = mark.to = mark.middle = round.centre;
  }
  return mark;
}

std::vector<Mark> marks(const Layout& layout)
{
  std::vector<Mark> all;
  for (std::size_t g = 0; g < layout.regions.size(); ++g)
    for (const Outline& one : layout.regions[g].outlines)
      for (const Piece& piece : one)
        all.push_back({{0.0, static_cast<double>(g), 0.0, piece.arc ? piece.arc->radius : 0.0},
                       piece.from,
                       piece.to,
                       point_at(piece, 0.5)});
  for (const Conductor& conductor : layout.conductors)
    all.push_back(section_mark(conductor));
  return all;
}

/// A curve and its edges in the mirrored half.
Curve reflected(Curve curve, double middle)
{
  curve.centre.z = 2.0 * middle - curve.centre.z;
  return curve;
}

} // namespace

bool mirrored(const Layout& layout, double middle, double size)
{
  const double tolerance = 1e-12 * size;
  const std::vector<Mark> all = marks(layout);
  std::multimap<double, const Mark*> by_z;
  for (const Mark& mark : all)
    by_z.emplace(mark.middle.z, &mark);
  return std::all_of(all.begin(), all.end(),
                     [&](Mark mark)
                     {
                       for (Point* x : {&mark.from, &mark.to, &mark.middle})
                         x->z = 2.0 * middle - x->z;
                       auto it = by_z.lower_bound(mark.middle.z - tolerance);
                       while (it != by_z.end() && it->first <= mark.middle.z + tolerance)
                         if (same(mark, *(it++)->second, tolerance))
                           return true;
                       return false;
                     });
}

std::vector<Piece> above(const Piece& piece, double middle, double tolerance)
{
  const Extent box = extent(piece);
  if (box.low.z > middle + tolerance)
    return {piece};
  if (box.high.z < middle - tolerance)
    return {};
  const Piece plane{{box.low.r - tolerance, middle}, {box.high.r + tolerance, middle}};
  std::vector<Piece> kept;
  for (Piece part : cut(piece, meeting_points(piece, plane, tolerance), tolerance))
  {
    for (Point* end : {&part.from, &part.to})
      if (std::abs(end->z - middle) <= tolerance)
        end->z = middle;
    if (point_at(part, 0.5).z >= middle - tolerance)
      kept.push_back(part);
  }
  return kept;
}

Mesh whole(const Mesh& mesh)
{
  if (!mesh.box.halved)
    return mesh;
  const double middle = mesh.box.middle;
  Mesh made;
  made.box = mesh.box;
  made.box.halved = false;
  made.vertices = mesh.vertices;
  made.corner = mesh.corner;
  made.triangles = mesh.triangles;
  made.curves = mesh.curves;
  made.curved = mesh.curved;
  made.outer = mesh.outer;
  std::vector<int> image(mesh.vertices.size());
  for (std::size_t v = 0; v < image.size(); ++v)
  {
    const Vertex& x = mesh.vertices[v];
    image[v] = static_cast<int>(x.z == middle ? v : made.vertices.size());
    if (x.z == middle)
      continue;
    made.vertices.push_back({x.s, 2.0 * middle - x.z});
    made.corner.push_back(mesh.corner[v]);
  }
  const auto image_of = [&](Edge e) { return edge(image[e.a], image[e.b]); };
  for (Triangle& t : made.triangles)
    t.conductor = -1;
  for (const Triangle& t : mesh.triangles)
    made.triangles.push_back(
        {{image[t.vertices[0]], image[t.vertices[2]], image[t.vertices[1]]}, t.region, -1});
  for (const Curve& curve : mesh.curves)
    made.curves.push_back(reflected(curve, middle));
  const auto curves = static_cast<int>(mesh.curves.size());
  for (const auto& [e, index] : mesh.curved)
    made.curved.emplace(image_of(e), curves + index);
  for (const Edge& e : mesh.outer)
    made.outer.push_back(image_of(e));
  return made;
}

} // namespace mesh
