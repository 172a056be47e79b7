// The points of each triangle's rule.
#include "solver/saturation_peaks.hpp"

#include "solver/gather.hpp"

#include <algorithm>

namespace solver
{

std::vector<Peak> peaks(const Saturated& s)
{
  const Space& space = s.stage->space;
  const mesh::Mesh& mesh = space.mesh;
  std::vector<Peak> list(s.stage->laws.size());
  for (std::size_t k = 0; k < mesh.triangles.size(); ++k)
  {
    const auto triangle = static_cast<int>(k);
    const FieldMap map = field_map(triangle_table(space, triangle, Care::solving), Side::flux);
    Eigen::Matrix2Xd B = map.field(gathered(triangle_gather(space, triangle), s.flux));
    B.row(1).array() += s.problem.background.value_or(0.0);
    const double most = B.colwise().norm().maxCoeff();
    Peak& peak = list[mesh.triangles[k].region];
    if (most <= peak.flux_density)
      continue;
    peak.flux_density = most;
    const auto& v = mesh.triangles[k].vertices;
    peak.at_corner = std::any_of(v.begin(), v.end(),
                                 [&mesh](int x) { return mesh.corner[x] != mesh::Corner::none; });
  }
  return list;
}

} // namespace solver
