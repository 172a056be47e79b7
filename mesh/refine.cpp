// Longest-edge bisection and geometric grading on one growing mesh.
#include "mesh/refine.hpp"

#include <algorithm>
#include <utility>

namespace mesh
{

namespace
{

double length_squared(const Vertex& a, const Vertex& b)
{
  const double dr = a.r() - b.r(), dz = a.z - b.z;
  return dr * dr + dz * dz;
}

/// A mesh under refinement with its edge-to-triangle table kept up to date.
class Refinement
{
public:
  explicit Refinement(const Mesh& mesh) : _mesh(mesh)
  {
    for (std::size_t k = 0; k < _mesh.triangles.size(); ++k)
      attach(static_cast<int>(k));
    for (const Edge& e : _mesh.outer)
      _outer.emplace(e, true);
  }

  /// Bisects triangle k at its longest edge, after making that edge the neighbour's longest too.
  void bisect(int k)
  {
    for (;;)
    {
      const Edge longest = longest_edge(k);
      const int other = neighbour(k, longest);
      if (other < 0 || longest_edge(other) == longest)
      {
        split(longest, 0.5);
        return;
      }
      bisect(other);
    }
  }

  /// Cuts every edge at the vertex at corner_ratio from it, once.
  void grade(int vertex, const std::vector<int>& around)
  {
    for (const int k : around)
      grade_triangle(k, vertex);
  }

  std::vector<std::vector<int>> triangles_around(const std::vector<int>& wanted) const
  {
    std::vector<int> slot(_mesh.vertices.size(), -1);
    for (std::size_t i = 0; i < wanted.size(); ++i)
      slot[wanted[i]] = static_cast<int>(i);
    std::vector<std::vector<int>> around(wanted.size());
    for (std::size_t k = 0; k < _mesh.triangles.size(); ++k)
      for (const int v : _mesh.triangles[k].vertices)
        if (slot[v] >= 0)
          around[slot[v]].push_back(static_cast<int>(k));
    return around;
  }

  const Mesh& mesh() const { return _mesh; }

  Mesh finished() &&
  {
    _mesh.outer.clear();
    for (const auto& [e, kept] : _outer)
      _mesh.outer.push_back(e);
    std::sort(_mesh.outer.begin(), _mesh.outer.end(),
              [](Edge x, Edge y) { return std::pair(x.a, x.b) < std::pair(y.a, y.b); });
    return std::move(_mesh);
  }

private:
  Mesh _mesh;
  EdgeMap<std::array<int, 2>> _sides;
  EdgeMap<bool> _outer;

  static Edge side(const Triangle& t, int i)
  {
    return edge(t.vertices[i], t.vertices[(i + 1) % 3]);
  }

  void attach(int k)
  {
    for (int i = 0; i < 3; ++i)
    {
      auto [it, fresh] = _sides.try_emplace(side(_mesh.triangles[k], i), std::array{k, -1});
      if (!fresh)
        it->second[it->second[0] < 0 ? 0 : 1] = k;
    }
  }

  void detach(int k)
  {
    for (int i = 0; i < 3; ++i)
    {
      std::array<int, 2>& pair = _sides.at(side(_mesh.triangles[k], i));
      pair[pair[0] == k ? 0 : 1] = -1;
    }
  }

  int neighbour(int k, Edge e) const
  {
    const std::array<int, 2>& pair = _sides.at(e);
    return pair[0] == k ? pair[1] : pair[0];
  }

  Edge longest_edge(int k) const
  {
    const Triangle& t = _mesh.triangles[k];
    Edge best = side(t, 0);
    double most = -1.0;
    for (int i = 0; i < 3; ++i)
    {
      const Edge e = side(t, i);
      const double now = length_squared(_mesh.vertices[e.a], _mesh.vertices[e.b]);
      // Ties fall to the lower edge, the same from both sides: else bisection would never end.
      if (now > most * (1.0 + 1e-12) ||
          (now > most * (1.0 - 1e-12) && std::pair(e.a, e.b) < std::pair(best.a, best.b)))
      {
        best = e;
        most = now;
      }
    }
    return best;
  }

  /// New vertex on the edge at parameter t from e.a; the two halves inherit what the edge carries.
  int cut(Edge e, double t)
  {
    const int m = static_cast<int>(_mesh.vertices.size());
    Vertex vertex = along(_mesh, e, t);
    if (on_axis(_mesh.vertices[e.a]) && on_axis(_mesh.vertices[e.b]))
      vertex.s = 0.0;
    _mesh.vertices.push_back(vertex);
    _mesh.corner.push_back(Corner::none);
    inherit(_mesh.curved, e, m);
    inherit(_mesh.sheets, e, m);
    if (_outer.erase(e) > 0)
    {
      _outer.emplace(edge(e.a, m), true);
      _outer.emplace(edge(m, e.b), true);
    }
    return m;
  }

  static void inherit(EdgeMap<int>& carried, Edge e, int m)
  {
    const auto found = carried.find(e);
    if (found == carried.end())
      return;
    const int value = found->second;
    carried.erase(found);
    carried.emplace(edge(e.a, m), value);
    carried.emplace(edge(m, e.b), value);
  }

  void split(Edge e, double t)
  {
    const std::array<int, 2> pair = _sides.at(e);
    for (const int k : pair)
      if (k >= 0)
        detach(k);
    const int m = cut(e, t);
    for (const int k : pair)
      if (k >= 0)
        halve(k, e, m);
    _sides.erase(e);
  }

  void halve(int k, Edge e, int m)
  {
    Triangle first = _mesh.triangles[k], second = first;
    for (int& v : first.vertices)
      if (v == e.b)
        v = m;
    for (int& v : second.vertices)
      if (v == e.a)
        v = m;
    replace(k, {first, second});
  }

  void replace(int k, std::initializer_list<Triangle> parts)
  {
    auto part = parts.begin();
    _mesh.triangles[k] = *part;
    attach(k);
    for (++part; part != parts.end(); ++part)
    {
      _mesh.triangles.push_back(*part);
      attach(static_cast<int>(_mesh.triangles.size()) - 1);
    }
  }

  int graded_point(int v, int other)
  {
    const Edge e = edge(v, other);
    const auto found = _graded.find(e);
    if (found != _graded.end())
      return found->second;
    const double ratio = _mesh.corner[v] == Corner::touch ? touch_ratio : corner_ratio;
    const int m = cut(e, v < other ? ratio : 1.0 - ratio);
    _graded.emplace(e, m);
    return m;
  }

  void grade_triangle(int k, int v)
  {
    detach(k);
    Triangle t = _mesh.triangles[k];
    std::rotate(t.vertices.begin(), std::find(t.vertices.begin(), t.vertices.end(), v),
                t.vertices.end());
    const int b = t.vertices[1], c = t.vertices[2];
    const int mb = graded_point(v, b), mc = graded_point(v, c);
    Triangle tip = t, low = t, high = t;
    tip.vertices = {v, mb, mc};
    const bool through_b = length_squared(_mesh.vertices[b], _mesh.vertices[mc]) <=
                           length_squared(_mesh.vertices[c], _mesh.vertices[mb]);
    low.vertices = through_b ? std::array{mb, b, mc} : std::array{mb, b, c};
    high.vertices = through_b ? std::array{b, c, mc} : std::array{mb, c, mc};
    replace(k, {tip, low, high});
  }

public:
  void forget_graded() { _graded.clear(); }

private:
  EdgeMap<int> _graded;
};

void grade_all(Refinement& work, std::vector<int> vertices)
{
  // A triangle between two corners can be graded to one of them only after the other is done.
  while (!vertices.empty())
  {
    const auto around = work.triangles_around(vertices);
    std::vector<bool> taken(work.mesh().triangles.size(), false);
    std::vector<int> later;
    for (std::size_t i = 0; i < vertices.size(); ++i)
    {
      if (std::any_of(around[i].begin(), around[i].end(), [&](int k) { return taken[k]; }))
      {
        later.push_back(vertices[i]);
        continue;
      }
      for (const int k : around[i])
        taken[k] = true;
      work.forget_graded();
      work.grade(vertices[i], around[i]);
    }
    vertices = std::move(later);
  }
}

} // namespace

Mesh refined(const Mesh& mesh, const Marks& marks)
{
  Refinement work(mesh);
  const auto graded = [&](const Triangle& t)
  {
    return std::any_of(t.vertices.begin(), t.vertices.end(),
                       [&](int v) { return marks.layers[v] > 0; });
  };
  for (std::size_t k = 0; k < marks.bisect.size(); ++k)
    if (marks.bisect[k] && !graded(mesh.triangles[k]) &&
        work.mesh().triangles[k].vertices == mesh.triangles[k].vertices)
      work.bisect(static_cast<int>(k));
  for (int layer = 0;; ++layer)
  {
    std::vector<int> corners;
    for (std::size_t v = 0; v < marks.layers.size(); ++v)
      if (marks.layers[v] > layer)
        corners.push_back(static_cast<int>(v));
    if (corners.empty())
      break;
    grade_all(work, corners);
  }
  return std::move(work).finished();
}

} // namespace mesh
