// Round-off, misplaced curves, too many unknowns: the floors under every accuracy.
#include "solver/floors.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace solver
{

double curve_error(const mesh::Mesh& mesh)
{
  double shortest = std::numeric_limits<double>::infinity(), worst = 0.0;
  for (const mesh::Triangle& t : mesh.triangles)
    for (int i = 0; i < 3; ++i)
    {
      const mesh::Vertex &a = mesh.vertices[t.vertices[i]],
                         &b = mesh.vertices[t.vertices[(i + 1) % 3]];
      shortest = std::min(shortest, std::hypot(a.r() - b.r(), a.z - b.z));
    }
  for (const mesh::Curve& curve : mesh.curves)
    if (curve.kind == mesh::Curve::Kind::arc)
      worst =
          std::max(worst, (curve.centre.r + curve.radius) / std::min(curve.radius, 0.5 * shortest));
  return 9.0 * 4e-16 * worst;
}

std::string floor_met(int refinements, int unknowns, const std::vector<double>& widths)
{
  constexpr int most_refinements = 40, most_unknowns = 500000, patience = 5;
  if (refinements >= most_refinements)
    return "40 refinements were not enough";
  if (unknowns > most_unknowns)
    return "the mesh would need more than 500000 unknowns";
  if (widths.size() > patience && widths.back() > 0.5 * widths[widths.size() - 1 - patience])
    return "round-off: refining no longer narrows the bracket";
  return {};
}

} // namespace solver
