// What every mesh must be like, coarse or refined, and its volumes; shared by the tests of mesh/.
#pragma once

#include "mesh/element_map.hpp"
#include "mesh/mesh.hpp"
#include "solver/quadrature.hpp"

#include <Eigen/LU>

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>
#include <numbers>
#include <set>

namespace mesh
{

/// Volume of revolution [m^3] of the triangles picked, bent edges followed: pi int ds dz.
inline double volume_of(const Mesh& mesh, const std::function<bool(const Triangle&)>& picked)
{
  const solver::TriangleRule rule = solver::triangle_rule(12, 12, 0);
  const Bends bent = bends(mesh);
  double sum = 0.0;
  for (std::size_t k = 0; k < mesh.triangles.size(); ++k)
  {
    if (!picked(mesh.triangles[k]))
      continue;
    const ElementMap map = element_map(mesh, bent, static_cast<int>(k));
    for (std::size_t i = 0; i < rule.points.size(); ++i)
      sum += std::numbers::pi * rule.weights[i] * map.at(rule.points[i]).jacobian.determinant();
  }
  return sum;
}
inline double volume_of_region(const Mesh& mesh, int region)
{
  return volume_of(mesh, [=](const Triangle& t) { return t.region == region; });
}
inline double volume_of_conductor(const Mesh& mesh, int conductor)
{
  return volume_of(mesh, [=](const Triangle& t) { return t.conductor == conductor; });
}

/// Conforming, counter-clockwise, nothing folded, the box closed, curves and sheets on edges.
inline void require_whole(const Mesh& mesh)
{
  REQUIRE(mesh.corner.size() == mesh.vertices.size());
  const Bends bent = bends(mesh);
  EdgeMap<int> sides;
  int folds = 0;
  for (std::size_t k = 0; k < mesh.triangles.size(); ++k)
  {
    folds += folded(element_map(mesh, bent, static_cast<int>(k)));
    for (int i = 0; i < 3; ++i)
    {
      const auto& v = mesh.triangles[k].vertices;
      ++sides[edge(v[i], v[(i + 1) % 3])];
    }
  }
  CHECK(folds == 0);
  EdgeMap<int> outer;
  for (const Edge& e : mesh.outer)
    ++outer[e];
  const auto at_axis = [&](const Edge& e)
  { return on_axis(mesh.vertices[e.a]) && on_axis(mesh.vertices[e.b]); };
  int hanging = 0;
  for (const auto& [e, count] : sides)
    hanging += count != (outer.contains(e) || at_axis(e) ? 1 : 2);
  CHECK(hanging == 0);
  int unused = 0;
  for (const auto& [e, times] : outer)
    unused += times != 1 || !sides.contains(e) || at_axis(e);
  for (const auto* carried : {&mesh.curved, &mesh.sheets})
    for (const auto& [e, value] : *carried)
      unused += !sides.contains(e);
  CHECK(unused == 0);
  // Euler: vertices - edges + triangles = 1 for a disc, so every vertex belongs to the mesh.
  CHECK(mesh.vertices.size() + mesh.triangles.size() == sides.size() + 1);
}

/// The box edges follow the box once around: two radii and its height [m].
inline double outer_length(const Mesh& mesh)
{
  double sum = 0.0;
  for (const Edge& e : mesh.outer)
    sum += std::hypot(mesh.vertices[e.a].r() - mesh.vertices[e.b].r(),
                      mesh.vertices[e.a].z - mesh.vertices[e.b].z);
  return sum;
}

} // namespace mesh
