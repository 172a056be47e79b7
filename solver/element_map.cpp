// Bends by interpolation at Chebyshev points; blended triangle maps.
#include "solver/element_map.hpp"

#include <cmath>
#include <numbers>

namespace solver
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

Bend bend(const mesh::Mesh& mesh, mesh::Edge edge)
{
  Bend made;
  const mesh::Vertex &a = mesh.vertices[edge.a], &b = mesh.vertices[edge.b];
  const mesh::Curve& curve = mesh.curves[mesh.curved.at(edge)];
  if (curve.kind == mesh::Curve::Kind::slope)
  {
    const double dr = b.r() - a.r();
    made.coefficients(0, 0) = -dr * dr; // s along the edge is quadratic, E is a constant
    return made;
  }
  constexpr int n = Bend::terms;
  for (int j = 0; j < n; ++j)
  {
    const double angle = std::numbers::pi * (j + 0.5) / n, t = 0.5 * (1.0 + std::cos(angle));
    const mesh::Vertex x = mesh::along(mesh, edge, t);
    const Eigen::Vector2d E{(x.s - a.s - t * (b.s - a.s)) / (t * (1.0 - t)),
                            (x.z - a.z - t * (b.z - a.z)) / (t * (1.0 - t))};
    for (int k = 0; k < n; ++k)
      made.coefficients.col(k) += (k == 0 ? 1.0 : 2.0) / n * std::cos(k * angle) * E;
  }
  return made;
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

} // namespace solver
