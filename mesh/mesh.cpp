// Points along bent edges: the one place that knows how a curve is parametrised.
#include "mesh/mesh.hpp"

#include <numbers>

namespace mesh
{

namespace
{

Vertex on_arc(const Curve& curve, const Vertex& a, const Vertex& b, double t)
{
  const double from = std::atan2(a.z - curve.centre.z, a.r() - curve.centre.r);
  double turn = std::atan2(b.z - curve.centre.z, b.r() - curve.centre.r) - from;
  turn -= 2.0 * std::numbers::pi * std::round(turn / (2.0 * std::numbers::pi));
  const double angle = from + t * turn;
  const double r = curve.centre.r + curve.radius * std::cos(angle);
  return {r * r, curve.centre.z + curve.radius * std::sin(angle)};
}

} // namespace

Vertex along(const Mesh& mesh, Edge e, double t)
{
  const Vertex& a = mesh.vertices[e.a];
  const Vertex& b = mesh.vertices[e.b];
  const auto found = mesh.curved.find(e);
  if (found == mesh.curved.end())
    return {a.s + t * (b.s - a.s), a.z + t * (b.z - a.z)};
  const Curve& curve = mesh.curves[found->second];
  if (curve.kind == Curve::Kind::arc)
    return on_arc(curve, a, b, t);
  const double r = a.r() + t * (b.r() - a.r());
  return {r * r, a.z + t * (b.z - a.z)};
}

} // namespace mesh
