// Triangulation -> Mesh: (s, z) vertices, edges swapped where s = r^2 would fold a triangle, each
// triangle given its region and conductor, curves and sheets carried over.
#include "mesh/mesher.hpp"

#include "mesh/element_map.hpp"
#include "mesh/piece.hpp"
#include "mesh/refinement.hpp"
#include "mesh/repair.hpp"
#include "mesh/skeleton.hpp"
#include "mesh/triangulation.hpp"

#include <algorithm>
#include <limits>
#include <stdexcept>
#include <variant>

namespace mesh
{

namespace
{

double twice_area(const Vertex& a, const Vertex& b, const Vertex& c)
{
  return (b.s - a.s) * (c.z - a.z) - (c.s - a.s) * (b.z - a.z);
}

/// Area over the longest side squared, both in (s, z) scaled by the triangle's own width; <= 0:
/// folded.
double shape_quality(const Mesh& mesh, int a, int b, int c)
{
  const std::array<Vertex, 3> v{mesh.vertices[a], mesh.vertices[b], mesh.vertices[c]};
  double longest = 0.0, widest = 0.0;
  for (int i = 0; i < 3; ++i)
  {
    const Vertex &p = v[i], &q = v[(i + 1) % 3];
    longest = std::max(longest, std::hypot(p.r() - q.r(), p.z - q.z));
    widest = std::max(widest, p.r() + q.r());
  }
  return twice_area(v[0], v[1], v[2]) / (widest * longest * longest);
}

/// Swaps the diagonals of pairs with a folded or nearly folded triangle, constraints kept.
void unfold(Mesh& mesh, const EdgeMap<bool>& constrained)
{
  constexpr double good_enough = 0.02;
  for (int round = 0; round < 20; ++round)
  {
    EdgeMap<std::array<int, 2>> sides;
    for (std::size_t k = 0; k < mesh.triangles.size(); ++k)
      for (int i = 0; i < 3; ++i)
      {
        const auto& v = mesh.triangles[k].vertices;
        auto [it, fresh] =
            sides.try_emplace(edge(v[i], v[(i + 1) % 3]), std::array{static_cast<int>(k), -1});
        if (!fresh)
          it->second[1] = static_cast<int>(k);
      }
    bool swapped = false;
    std::vector<bool> touched(mesh.triangles.size(), false);
    for (const auto& [e, pair] : sides)
    {
      if (pair[1] < 0 || touched[pair[0]] || touched[pair[1]] || constrained.contains(e))
        continue;
      auto& t = mesh.triangles[pair[0]].vertices;
      auto& u = mesh.triangles[pair[1]].vertices;
      while (t[0] == e.a || t[0] == e.b)
        std::rotate(t.begin(), t.begin() + 1, t.end());
      while (u[0] == e.a || u[0] == e.b)
        std::rotate(u.begin(), u.begin() + 1, u.end());
      const double now =
          std::min(shape_quality(mesh, t[0], t[1], t[2]), shape_quality(mesh, u[0], u[1], u[2]));
      if (now > good_enough)
        continue;
      const double then =
          std::min(shape_quality(mesh, t[0], t[1], u[0]), shape_quality(mesh, t[0], u[0], t[2]));
      if (then <= now)
        continue;
      const std::array first{t[0], t[1], u[0]}, second{t[0], u[0], t[2]};
      t = first;
      u = second;
      touched[pair[0]] = touched[pair[1]] = swapped = true;
    }
    if (!swapped)
      return;
  }
}

/// The polygon a meshed outline really is: its mesh nodes in order.
struct Polygon
{
  std::vector<Point> points;
  Point low{std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity()};
  Point high{-std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
  double area = 0.0;
};

Polygon polygon_of(const Outline& outline, const Skeleton& skeleton, double tolerance)
{
  Polygon made;
  for (const Piece& piece : outline)
  {
    std::vector<std::pair<double, Point>> stops{{0.0, piece.from}};
    const Extent box = extent(piece);
    if (piece.arc)
      for (const Point& x : skeleton.nodes)
        if (distance(box, x) <= tolerance && distance(piece, x) <= tolerance)
          stops.emplace_back(nearest_parameter(piece, x), x);
    std::sort(stops.begin(), stops.end(), [](auto& a, auto& b) { return a.first < b.first; });
    for (const auto& [t, x] : stops)
      made.points.push_back(x);
  }
  for (std::size_t i = 0; i < made.points.size(); ++i)
  {
    const Point p = made.points[i], q = made.points[(i + 1) % made.points.size()];
    made.low = {std::min(made.low.r, p.r), std::min(made.low.z, p.z)};
    made.high = {std::max(made.high.r, p.r), std::max(made.high.z, p.z)};
    made.area += 0.5 * cross(p, q);
  }
  made.area = std::abs(made.area);
  return made;
}

bool inside(const Polygon& polygon, Point x)
{
  if (x.r < polygon.low.r || x.r > polygon.high.r || x.z < polygon.low.z || x.z > polygon.high.z)
    return false;
  bool odd = false;
  const auto& p = polygon.points;
  for (std::size_t i = 0, j = p.size() - 1; i < p.size(); j = i++)
    if ((p[i].z > x.z) != (p[j].z > x.z) &&
        x.r < p[i].r + (x.z - p[i].z) / (p[j].z - p[i].z) * (p[j].r - p[i].r))
      odd = !odd;
  return odd;
}

void assign(Mesh& mesh, const Layout& layout, const Skeleton& skeleton,
            const std::vector<Point>& points)
{
  struct Claim
  {
    Polygon polygon;
    int region;
    int conductor;
  };
  const double tolerance = 1e-9 * skeleton.box.radius;
  std::vector<Claim> claims;
  for (std::size_t g = 0; g < layout.regions.size(); ++g)
    for (const Outline& one : layout.regions[g].outlines)
      claims.push_back({polygon_of(one, skeleton, tolerance), static_cast<int>(g), -1});
  for (std::size_t c = 0; c < layout.conductors.size(); ++c)
    if (!std::holds_alternative<SheetSection>(layout.conductors[c].section))
      claims.push_back(
          {polygon_of(outline(layout.conductors[c]), skeleton, tolerance), 0, static_cast<int>(c)});
  // A conductor's own space is air; of nested bodies the innermost, so the smallest, wins.
  std::stable_sort(claims.begin(), claims.end(),
                   [](const Claim& a, const Claim& b)
                   {
                     if ((a.conductor >= 0) != (b.conductor >= 0))
                       return a.conductor >= 0;
                     return a.polygon.area < b.polygon.area;
                   });
  for (Triangle& t : mesh.triangles)
  {
    const auto& v = t.vertices;
    const Point middle = (1.0 / 3.0) * (points[v[0]] + points[v[1]] + points[v[2]]);
    const auto found = std::find_if(claims.begin(), claims.end(),
                                    [&](const Claim& c) { return inside(c.polygon, middle); });
    if (found == claims.end())
      continue;
    t.region = found->region;
    t.conductor = found->conductor;
  }
}

/// Whether both ends lie on a coordinate line that bounds the mesh, but not outer space.
bool inner_border(const Mesh& mesh, const Segment& s)
{
  const Vertex &a = mesh.vertices[s.a], &b = mesh.vertices[s.b];
  return (on_axis(a) && on_axis(b)) || (on_mirror(mesh.box, a) && on_mirror(mesh.box, b));
}

Mesh assembled(const Layout& layout, const Skeleton& lines)
{
  const Triangulation plain = triangulation(lines);
  Mesh mesh;
  mesh.box = lines.box;
  mesh.curves = lines.curves;
  mesh.corner = lines.corner;
  mesh.corner.resize(plain.points.size(), Corner::none);
  for (const Point& p : plain.points)
    mesh.vertices.push_back({p.r * p.r, p.z});
  for (const auto& corners : plain.triangles)
  {
    Triangle t{corners, 0, -1};
    const Point a = plain.points[corners[0]], b = plain.points[corners[1]],
                c = plain.points[corners[2]];
    if (cross(b - a, c - a) < 0.0)
      std::swap(t.vertices[1], t.vertices[2]);
    mesh.triangles.push_back(t);
  }
  assign(mesh, layout, lines, plain.points);
  EdgeMap<bool> constrained;
  for (const Segment& s : lines.kept)
  {
    constrained.emplace(edge(s.a, s.b), true);
    if (s.curve >= 0)
      mesh.curved.emplace(edge(s.a, s.b), s.curve);
    if (s.sheet >= 0)
      mesh.sheets.emplace(edge(s.a, s.b), s.sheet);
  }
  for (const Segment& s : lines.outline)
    if (!inner_border(mesh, s))
      mesh.outer.push_back(edge(s.a, s.b));
  unfold(mesh, constrained);
  return mesh;
}

std::vector<int> folded_triangles(const Mesh& mesh)
{
  const Bends bent = bends(mesh);
  std::vector<int> found;
  for (std::size_t k = 0; k < mesh.triangles.size(); ++k)
    if (folded(element_map(mesh, bent, static_cast<int>(k))))
      found.push_back(static_cast<int>(k));
  return found;
}

/// Middles of the bent edges at folded triangles and beside them, to be cut there.
/// @return False where a triangle folds although none of its edges is bent.
bool find_crowded(const Mesh& mesh, const std::vector<int>& folds, std::vector<Point>& crowded)
{
  std::vector<bool> beside(mesh.vertices.size(), false);
  bool curable = true;
  for (const int k : folds)
  {
    bool bowed = false;
    for (int i = 0; i < 3; ++i)
    {
      bowed = bowed || mesh.curved.contains(side(mesh.triangles[k], i));
      beside[mesh.triangles[k].vertices[i]] = true;
    }
    curable = curable && bowed;
  }
  for (const auto& [e, index] : mesh.curved)
    if (beside[e.a] || beside[e.b])
    {
      const Vertex middle = along(mesh, e, 0.5);
      crowded.push_back({middle.r(), middle.z});
    }
  return curable;
}

} // namespace

Mesh coarse_mesh(const Layout& layout, Portion portion)
{
  std::vector<Point> crowded;
  double slimness = 20.0;
  for (int attempt = 0; attempt < 10; ++attempt)
  {
    Mesh mesh = assembled(layout, skeleton(layout, slimness, crowded, portion));
    const std::vector<int> folds = folded_triangles(mesh);
    if (folds.empty())
      return mesh;
    Refinement work(mesh);
    if (unfold(work, folds))
    {
      Mesh mended = std::move(work).finished();
      if (folded_triangles(mended).empty())
        return mended;
    }
    if (!find_crowded(mesh, folds, crowded))
      slimness *= 0.5;
  }
  throw std::runtime_error("no valid mesh found: a triangle stays folded");
}

} // namespace mesh
