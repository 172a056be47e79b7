// Which triangles conduct, what is lost in each, and which edges give heat off to open air.
#include "solver/heat_mesh.hpp"

#include "solver/form.hpp"

#include <map>
#include <numbers>

namespace solver
{

namespace
{

using std::numbers::pi;

using EdgeTriangles = mesh::EdgeMap<std::array<int, 2>>;

/// The one or two triangles at every edge, -1 for none.
EdgeTriangles triangles_at_edges(const mesh::Mesh& mesh)
{
  EdgeTriangles beside;
  for (std::size_t k = 0; k < mesh.triangles.size(); ++k)
    for (int e = 0; e < 3; ++e)
    {
      const auto& v = mesh.triangles[k].vertices;
      const auto [at, fresh] = beside.try_emplace(mesh::edge(v[e], v[(e + 1) % 3]),
                                                  std::array<int, 2>{static_cast<int>(k), -1});
      if (!fresh)
        at->second[1] = static_cast<int>(k);
    }
  return beside;
}

/// Open air is what the box's edges reach through air.
std::vector<bool> open_air(const mesh::Mesh& mesh, const EdgeTriangles& beside)
{
  std::vector<bool> open(mesh.triangles.size(), false);
  std::vector<int> reached;
  for (const mesh::Edge& edge : mesh.outer)
    reached.push_back(beside.at(edge)[0]);
  while (!reached.empty())
  {
    const int k = reached.back();
    reached.pop_back();
    const mesh::Triangle& t = mesh.triangles[k];
    if (open[k] || t.region != 0 || t.conductor >= 0)
      continue;
    open[k] = true;
    for (int e = 0; e < 3; ++e)
      for (const int other : beside.at(mesh::edge(t.vertices[e], t.vertices[(e + 1) % 3])))
        if (other >= 0)
          reached.push_back(other);
  }
  return open;
}

} // namespace

HeatParts heat_parts(const HeatProblem& problem, const Space& space)
{
  const mesh::Mesh& mesh = space.mesh;
  const EdgeTriangles beside = triangles_at_edges(mesh);
  const auto count = mesh.triangles.size();
  HeatParts made{open_air(mesh, beside), std::vector<double>(count, 0.0),
                 std::vector<double>(count, 0.0),
                 std::vector<std::array<bool, 3>>(count, {false, false, false})};
  const auto of = [&](std::size_t k) -> const HeatSource&
  {
    const mesh::Triangle& t = mesh.triangles[k];
    return t.conductor >= 0 ? problem.sections[t.conductor] : problem.regions[t.region];
  };
  std::map<const HeatSource*, double> volumes;
  for (std::size_t k = 0; k < count; ++k)
  {
    if (made.open[k])
      continue;
    made.conductivity[k] = of(k).conductivity;
    for (const ElementPoint& x : triangle_table(space, static_cast<int>(k), Care::solving).points)
      volumes[&of(k)] += pi * x.weight;
    const auto& v = mesh.triangles[k].vertices;
    for (std::size_t e = 0; e < 3; ++e)
      for (const int other : beside.at(mesh::edge(v[e], v[(e + 1) % 3])))
        made.surface[k][e] = made.surface[k][e] || (other >= 0 && made.open[other]);
  }
  for (std::size_t k = 0; k < count; ++k)
    if (!made.open[k])
      made.density[k] = of(k).heat / volumes.at(&of(k));
  return made;
}

} // namespace solver
