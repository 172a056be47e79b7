// Bends by interpolation at Chebyshev points; blended triangle maps.
#include "mesh/element_map.hpp"

#include <Eigen/LU>

#include <cmath>
#include <numbers>

namespace mesh
{

Bend::Value Bend::at(double t) const
{
  const double x = 2.0 * t - 1.0;
  Eigen::Vector2d value = coefficients.col(0), slope = Eigen::Vector2d::Zero();
  double T_before = 1.0, T = x, U_before = 0.0, U = 1.0; // T'_k = k U_{k-1}
  for (int k = 1; k < terms; ++k)
  {
    value += T * coefficients.col(k);
    slope += k * U * coefficients.col(k);
    const double T_next = 2.0 * x * T - T_before, U_next = 2.0 * x * U - U_before;
    T_before = T;
    T = T_next;
    U_before = U;
    U = U_next;
  }
  return {value, 2.0 * slope};
}

Bend bend(const Mesh& mesh, Edge edge)
{
  Bend made;
  const Vertex &a = mesh.vertices[edge.a], &b = mesh.vertices[edge.b];
  const Curve& curve = mesh.curves[mesh.curved.at(edge)];
  if (curve.kind == Curve::Kind::slope)
  {
    const double dr = b.r() - a.r();
    made.coefficients(0, 0) = -dr * dr; // s along the edge is quadratic, E is a constant
    return made;
  }
  constexpr int n = Bend::terms;
  for (int j = 0; j < n; ++j)
  {
    const double angle = std::numbers::pi * (j + 0.5) / n, t = 0.5 * (1.0 + std::cos(angle));
    const Vertex x = along(mesh, edge, t);
    const Eigen::Vector2d E{(x.s - a.s - t * (b.s - a.s)) / (t * (1.0 - t)),
                            (x.z - a.z - t * (b.z - a.z)) / (t * (1.0 - t))};
    for (int k = 0; k < n; ++k)
      made.coefficients.col(k) += (k == 0 ? 1.0 : 2.0) / n * std::cos(k * angle) * E;
  }
  return made;
}

Bends bends(const Mesh& mesh)
{
  Bends made;
  for (const auto& [e, curve] : mesh.curved)
  {
    made.of.emplace(e, static_cast<int>(made.list.size()));
    made.list.push_back(bend(mesh, e));
  }
  return made;
}

ElementMap element_map(const Mesh& mesh, const Bends& bends, int triangle)
{
  ElementMap map;
  const auto& v = mesh.triangles[triangle].vertices;
  for (int i = 0; i < 3; ++i)
  {
    const Vertex& x = mesh.vertices[v[i]];
    map.corners[i] = {x.s, x.z};
    if (bends.list.empty())
      continue;
    const auto found = bends.of.find(edge(v[i], v[(i + 1) % 3]));
    if (found == bends.of.end())
      continue;
    map.bends[i] = &bends.list[found->second];
    map.reversed[i] = v[i] > v[(i + 1) % 3];
  }
  return map;
}

bool would_fold(const Mesh& mesh, const std::array<int, 3>& vertices)
{
  std::array<Bend, 3> own;
  ElementMap map;
  for (int i = 0; i < 3; ++i)
  {
    map.corners[i] = {mesh.vertices[vertices[i]].s, mesh.vertices[vertices[i]].z};
    const int next = vertices[(i + 1) % 3];
    if (!mesh.curved.contains(edge(vertices[i], next)))
      continue;
    own[i] = bend(mesh, edge(vertices[i], next));
    map.bends[i] = &own[i];
    map.reversed[i] = vertices[i] > next;
  }
  return folded(map);
}

bool folded(const ElementMap& map)
{
  // A grid just inside the triangle: at a touching point the Jacobian may vanish on the vertex.
  constexpr int n = 8;
  const ElementMap::Place middle = map.at({1.0 / 3.0, 1.0 / 3.0, 1.0 / 3.0});
  // A flat triangle counts as folded: sine of the angle between its sides, s measured as 2 r dr.
  Eigen::Matrix2d J = middle.jacobian;
  J.row(0) /= 2.0 * std::sqrt(std::abs(middle.point[0]));
  if (!(J.determinant() > 1e-7 * J.col(0).norm() * J.col(1).norm()))
    return true;
  for (int i = 0; i <= n && !map.straight(); ++i)
    for (int j = 0; i + j <= n; ++j)
    {
      const double inset = 1e-3, a = inset + (1.0 - 3.0 * inset) * i / n,
                   b = inset + (1.0 - 3.0 * inset) * j / n;
      if (!(map.at({1.0 - a - b, a, b}).jacobian.determinant() > 0.0))
        return true;
    }
  return false;
}

ElementMap::Place ElementMap::at(const std::array<double, 3>& lambda) const
{
  Place place;
  place.point = lambda[0] * corners[0] + lambda[1] * corners[1] + lambda[2] * corners[2];
  std::array<Eigen::Vector2d, 3> by{corners[0], corners[1], corners[2]};
  for (int i = 0; i < 3; ++i)
  {
    if (!bends[i])
      continue;
    const int j = (i + 1) % 3;
    const double a = lambda[i], b = lambda[j], t = 0.5 * (1.0 + b - a);
    Bend::Value E = bends[i]->at(reversed[i] ? 1.0 - t : t);
    if (reversed[i])
      E.slope = -E.slope;
    place.point += a * b * E.value;
    by[i] += b * E.value - 0.5 * a * b * E.slope;
    by[j] += a * E.value + 0.5 * a * b * E.slope;
  }
  place.jacobian << by[1] - by[0], by[2] - by[0];
  return place;
}

EdgePlace edge_place(const ElementMap& map, int local_edge, double t)
{
  const Eigen::Vector2d &a = map.corners[local_edge], &b = map.corners[(local_edge + 1) % 3];
  EdgePlace place{a + t * (b - a), b - a};
  if (const Bend* bent = map.bends[local_edge])
  {
    const bool back = map.reversed[local_edge];
    const Bend::Value E = bent->at(back ? 1.0 - t : t);
    place.point += t * (1.0 - t) * E.value;
    place.tangent += (1.0 - 2.0 * t) * E.value + t * (1.0 - t) * (back ? -1.0 : 1.0) * E.slope;
  }
  return place;
}

} // namespace mesh
