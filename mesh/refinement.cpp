// Edge cuts and the bookkeeping that follows them.
#include "mesh/refinement.hpp"

#include "mesh/element_map.hpp"
#include "mesh/refine.hpp"
#include "mesh/repair.hpp"

#include <algorithm>
#include <numeric>
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

/// The two halves of a cut edge inherit what it carries.
void inherit(EdgeMap<int>& carried, Edge e, int m)
{
  const auto found = carried.find(e);
  if (found == carried.end())
    return;
  const int value = found->second;
  carried.erase(found);
  carried.emplace(edge(e.a, m), value);
  carried.emplace(edge(m, e.b), value);
}

/// The triangle with its vertices turned so that v comes first.
std::array<int, 3> starting_at(const Triangle& t, int v)
{
  std::array<int, 3> turned = t.vertices;
  std::rotate(turned.begin(), std::find(turned.begin(), turned.end(), v), turned.end());
  return turned;
}

} // namespace

Refinement::Refinement(const Mesh& mesh)
    : _mesh(mesh), _origin(mesh.triangles.size()), _halved(mesh.triangles.size(), 0)
{
  std::iota(_origin.begin(), _origin.end(), 0);
  for (std::size_t k = 0; k < _mesh.triangles.size(); ++k)
    attach(static_cast<int>(k));
  for (const Edge& e : _mesh.outer)
    _outer.emplace(e, true);
}

void Refinement::bisect(int k)
{
  int budget = 100; // mending may turn edges and so reopen a path; without it, paths are short
  bisect(k, budget);
}

void Refinement::bisect(int k, int& budget)
{
  for (;;)
  {
    const Edge longest = longest_edge(k);
    const int other = neighbour(k, longest);
    const std::array<int, 3> before = _mesh.triangles[k].vertices;
    if (other >= 0 && longest_edge(other) != longest && --budget > 0)
    {
      bisect(other, budget);
      if (_mesh.triangles[k].vertices != before)
        return; // mending already made it smaller
      continue;
    }
    for (const int beside : {k, other})
      if (beside >= 0 && --budget > 0 && halving_folds(beside, longest))
      {
        const Triangle t = _mesh.triangles[beside];
        for (int i = 0; i < 3; ++i)
          if (_mesh.curved.contains(side(t, i)))
            halve_at(side(t, i));
      }
    if (_mesh.triangles[k].vertices != before)
      return;
    halve_at(longest);
    unfold_fresh(*this);
    return;
  }
}

/// Whether cutting straight edge e would lay an edge across a bent one of triangle k: then the bent
/// one is to be cut first, as no later cut of it could mend that.
bool Refinement::halving_folds(int k, Edge e)
{
  const Triangle t = _mesh.triangles[k];
  if (_mesh.curved.empty() || _mesh.curved.contains(e))
    return false;
  const int m = static_cast<int>(_mesh.vertices.size());
  _mesh.vertices.push_back(along(_mesh, e, 0.5));
  std::array<int, 3> first = t.vertices, second = t.vertices;
  std::replace(first.begin(), first.end(), e.b, m);
  std::replace(second.begin(), second.end(), e.a, m);
  const bool folds = would_fold(_mesh, first) || would_fold(_mesh, second);
  _mesh.vertices.pop_back();
  return folds;
}

void Refinement::grade(int vertex, const std::vector<int>& around)
{
  _graded.clear();
  for (const int k : around)
    grade_triangle(k, vertex);
  unfold_fresh(*this);
}

std::vector<int> Refinement::fresh()
{
  return std::exchange(_fresh, {});
}

void Refinement::halve_at(Edge e)
{
  const std::array<int, 2> pair = _sides.at(e);
  for (const int k : pair)
    if (k >= 0)
      detach(k);
  const int m = cut(e, 0.5);
  for (const int k : pair)
    if (k >= 0)
      halve(k, e, m);
  _sides.erase(e);
}

void Refinement::swap_diagonal(Edge e)
{
  const std::array<int, 2> pair = _sides.at(e);
  Triangle first = _mesh.triangles[pair[0]], second = first;
  const auto apex = [&](int k)
  {
    const auto& v = _mesh.triangles[k].vertices;
    return *std::find_if(v.begin(), v.end(), [&](int x) { return x != e.a && x != e.b; });
  };
  const std::array<int, 3> t = starting_at(_mesh.triangles[pair[0]], apex(pair[0]));
  const int across = apex(pair[1]);
  first.vertices = {t[0], t[1], across};
  second.vertices = {t[0], across, t[2]};
  detach(pair[0]);
  detach(pair[1]);
  _sides.erase(e);
  replace(pair[0], {first});
  replace(pair[1], {second});
}

Mesh Refinement::finished() &&
{
  _mesh.outer.clear();
  for (const auto& [e, kept] : _outer)
    _mesh.outer.push_back(e);
  std::sort(_mesh.outer.begin(), _mesh.outer.end(),
            [](Edge x, Edge y) { return std::pair(x.a, x.b) < std::pair(y.a, y.b); });
  return std::move(_mesh);
}

void Refinement::attach(int k)
{
  for (int i = 0; i < 3; ++i)
  {
    auto [it, fresh] = _sides.try_emplace(side(_mesh.triangles[k], i), std::array{k, -1});
    if (!fresh)
      it->second[it->second[0] < 0 ? 0 : 1] = k;
  }
}

void Refinement::detach(int k)
{
  for (int i = 0; i < 3; ++i)
  {
    std::array<int, 2>& pair = _sides.at(side(_mesh.triangles[k], i));
    pair[pair[0] == k ? 0 : 1] = -1;
  }
}

int Refinement::neighbour(int k, Edge e) const
{
  const std::array<int, 2>& pair = _sides.at(e);
  return pair[0] == k ? pair[1] : pair[0];
}

Edge Refinement::longest_edge(int k) const
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

int Refinement::cut(Edge e, double t)
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

void Refinement::halve(int k, Edge e, int m)
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

void Refinement::replace(int k, std::initializer_list<Triangle> parts)
{
  auto part = parts.begin();
  _mesh.triangles[k] = *part;
  if (parts.size() > 1)
    ++_halved[k];
  attach(k);
  _fresh.push_back(k);
  for (++part; part != parts.end(); ++part)
  {
    _mesh.triangles.push_back(*part);
    _origin.push_back(_origin[k]);
    _halved.push_back(_halved[k]);
    attach(static_cast<int>(_mesh.triangles.size()) - 1);
    _fresh.push_back(static_cast<int>(_mesh.triangles.size()) - 1);
  }
}

int Refinement::graded_point(int v, int other)
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

void Refinement::grade_triangle(int k, int v)
{
  detach(k);
  Triangle t = _mesh.triangles[k];
  t.vertices = starting_at(t, v);
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

} // namespace mesh
