// Numbers vertices, edges, bubbles, rays and exterior interiors, in this order.
#include "solver/space.hpp"

#include "solver/shapes.hpp"

#include <utility>

namespace solver
{

namespace
{

void number_edges(Space& made, mesh::EdgeMap<int>& numbers)
{
  numbers.reserve(2 * made.mesh.triangles.size());
  for (const mesh::Triangle& t : made.mesh.triangles)
  {
    std::array<int, 3> own{};
    for (int i = 0; i < 3; ++i)
      own[i] = numbers
                   .try_emplace(mesh::edge(t.vertices[i], t.vertices[(i + 1) % 3]),
                                static_cast<int>(numbers.size()))
                   .first->second;
    made.triangle_edges.push_back(own);
  }
  made.edge_count = static_cast<int>(numbers.size());
}

int first_edge(const Space& s)
{
  return static_cast<int>(s.mesh.vertices.size());
}
int first_bubble(const Space& s)
{
  return first_edge(s) + (s.order - 1) * s.edge_count;
}
int first_ray(const Space& s)
{
  return first_bubble(s) + bubble_count(s.order) * static_cast<int>(s.mesh.triangles.size());
}

void number_exteriors(Space& made, const mesh::EdgeMap<int>& numbers)
{
  made.ray_of_vertex.assign(made.mesh.vertices.size(), -1);
  int next = first_ray(made);
  for (const mesh::Edge& e : made.mesh.outer)
  {
    made.exteriors.push_back({e, numbers.at(e)});
    for (const int v : {e.a, e.b})
      if (made.ray_of_vertex[v] < 0)
      {
        made.ray_of_vertex[v] = next;
        next += made.ray_order - 1;
      }
  }
  made.count =
      next + (made.order - 1) * (made.ray_order - 1) * static_cast<int>(made.exteriors.size());
}

/// Degrees of freedom on a straight line: at its vertices, along its edges and its ray.
template <class OnLine>
std::vector<bool> marked(const Space& s, const mesh::EdgeMap<int>& numbers, OnLine on_line)
{
  std::vector<bool> made(s.count, false);
  for (std::size_t v = 0; v < s.mesh.vertices.size(); ++v)
    if (on_line(s.mesh.vertices[v]))
    {
      made[v] = true;
      if (const int ray = s.ray_of_vertex[v]; ray >= 0)
        for (int k = 0; k < s.ray_order - 1; ++k)
          made[ray + k] = true;
    }
  for (const auto& [e, number] : numbers)
    if (on_line(s.mesh.vertices[e.a]) && on_line(s.mesh.vertices[e.b]))
      for (int k = 0; k < s.order - 1; ++k)
        made[first_edge(s) + number * (s.order - 1) + k] = true;
  return made;
}

} // namespace

Space space(mesh::Mesh mesh, int order)
{
  Space made;
  made.mesh = std::move(mesh);
  made.order = order;
  made.ray_order = order + 2;
  mesh::EdgeMap<int> numbers;
  number_edges(made, numbers);
  number_exteriors(made, numbers);
  made.on_axis = marked(made, numbers, mesh::on_axis);
  made.on_mirror = marked(made, numbers,
                          [&](const mesh::Vertex& v) { return mesh::on_mirror(made.mesh.box, v); });
  made.bends = mesh::bends(made.mesh);
  return made;
}

Gather triangle_gather(const Space& space, int triangle)
{
  const int p = space.order;
  Gather gather;
  const auto& v = space.mesh.triangles[triangle].vertices;
  gather.index.reserve(triangle_shape_count(p));
  gather.index.assign(v.begin(), v.end());
  gather.sign.assign(triangle_shape_count(p), 1.0);
  for (int i = 0; i < 3; ++i)
  {
    const bool against = v[i] > v[(i + 1) % 3];
    for (int k = 2; k <= p; ++k)
    {
      if (against && k % 2 == 1)
        gather.sign[gather.index.size()] = -1.0;
      gather.index.push_back(first_edge(space) + space.triangle_edges[triangle][i] * (p - 1) + k -
                             2);
    }
  }
  for (int k = 0; k < bubble_count(p); ++k)
    gather.index.push_back(first_bubble(space) + triangle * bubble_count(p) + k);
  return gather;
}

Gather exterior_gather(const Space& space, int exterior)
{
  const int p = space.order, q = space.ray_order;
  const Exterior& x = space.exteriors[exterior];
  const int interior =
      space.count - (p - 1) * (q - 1) * (static_cast<int>(space.exteriors.size()) - exterior);
  Gather gather;
  for (int m = 0; m < q; ++m)
    for (int j = 0; j <= p; ++j)
    {
      if (j < 2)
      {
        const int v = j == 0 ? x.edge.a : x.edge.b;
        gather.index.push_back(m == 0 ? v : space.ray_of_vertex[v] + m - 1);
      }
      else
        gather.index.push_back(m == 0 ? first_edge(space) + x.edge_index * (p - 1) + j - 2
                                      : interior + (m - 1) * (p - 1) + j - 2);
    }
  gather.sign.assign(gather.index.size(), 1.0);
  return gather;
}

} // namespace solver
