// Connected by vertices: the current function is continuous there.
#include "solver/toroid_parts.hpp"

#include <array>
#include <map>
#include <numeric>

namespace solver
{

namespace
{

/// Vertices joined into connected sets.
class Sets
{
public:
  explicit Sets(std::size_t count) : _above(count) { std::iota(_above.begin(), _above.end(), 0); }
  int of(int v)
  {
    while (_above[v] != v)
      v = _above[v] = _above[_above[v]];
    return v;
  }
  void join(int a, int b) { _above[of(b)] = of(a); }

private:
  std::vector<int> _above;
};

Sets connected(const mesh::Mesh& mesh, const std::vector<bool>& conducts, bool which)
{
  Sets sets(mesh.vertices.size());
  for (std::size_t k = 0; k < conducts.size(); ++k)
    if (conducts[k] == which)
      for (const int v : mesh.triangles[k].vertices)
        sets.join(mesh.triangles[k].vertices[0], v);
  return sets;
}

/// Air that reaches the box through edges of air; other air is a hollow.
std::vector<bool> open_air(const Space& space)
{
  const auto& triangles = space.mesh.triangles;
  std::vector<std::array<int, 2>> beside(space.edge_count, {-1, -1});
  for (std::size_t k = 0; k < triangles.size(); ++k)
    for (const int e : space.triangle_edges[k])
      beside[e][beside[e][0] < 0 ? 0 : 1] = static_cast<int>(k);
  std::vector<bool> open(triangles.size(), false);
  std::vector<int> next;
  const auto reach = [&](int k)
  {
    if (k < 0 || open[k] || triangles[k].region != 0)
      return;
    open[k] = true;
    next.push_back(k);
  };
  for (const Exterior& beyond : space.exteriors)
    reach(beside[beyond.edge_index][0]);
  while (!next.empty())
  {
    const int k = next.back();
    next.pop_back();
    for (const int e : space.triangle_edges[k])
      for (const int other : beside[e])
        reach(other);
  }
  return open;
}

} // namespace

ToroidParts toroid_parts(const Space& space, std::span<const double> conductivity)
{
  const mesh::Mesh& mesh = space.mesh;
  ToroidParts made;
  made.counts = open_air(space);
  made.counts.flip();
  for (const mesh::Triangle& t : mesh.triangles)
    made.conducts.push_back(conductivity[t.region] > 0.0);
  Sets still = connected(mesh, made.conducts, false), live = connected(mesh, made.conducts, true);
  std::map<int, int> number{{still.of(mesh.outer.front().a), 0}};
  std::map<int, int> fixed;
  made.vertex_body.assign(mesh.vertices.size(), -1);
  for (std::size_t k = 0; k < mesh.triangles.size(); ++k)
  {
    const auto& v = mesh.triangles[k].vertices;
    made.body.push_back(-1);
    if (made.conducts[k])
    {
      fixed.emplace(live.of(v[0]), v[0]);
      continue;
    }
    const int next = static_cast<int>(number.size());
    made.body.back() = number.emplace(still.of(v[0]), next).first->second;
    for (const int i : v)
      made.vertex_body[i] = made.body.back();
  }
  made.bodies = static_cast<int>(number.size());
  for (const auto& [set, vertex] : fixed)
    made.fixed.push_back(vertex);
  return made;
}

} // namespace solver
