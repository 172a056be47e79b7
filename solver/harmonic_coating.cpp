// Conducting coatings of turns: no rings about the axis, they follow their wire.
//
// In contact with a solid wire they share its constant; else, open at both ends, they have one of
// their own and carry no current in all.
#include "solver/harmonic_passes.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace solver
{

void Passes::find_turns()
{
  _turn.assign(_triangles, -1);
  for (int k = 0; k < _triangles; ++k)
    if (const int c = _space.mesh.triangles[k].conductor; c >= 0)
      _turn[k] = _solid[c];
  for (Eigen::Index w = 0; w < _windings; ++w)
  {
    const mesh::Winding& winding = _s.problem.scene.windings[w];
    const auto* build = std::get_if<mesh::RoundTurns>(&winding.build);
    for (std::size_t g = 1; build && build->coating && g < _s.layout.regions.size(); ++g)
      if (_s.layout.regions[g].name == winding.name + ".coating" && _s.conductivity[g] > 0.0)
        find_coating(static_cast<int>(g), w, build->insulation > 0.0);
  }
}

void Passes::find_coating(int region, Eigen::Index winding, bool insulated)
{
  std::vector<std::pair<mesh::Point, int>> turns; // centres, and the constant there
  for (std::size_t c = 0; c < _solid.size(); ++c)
    if (_s.layout.conductors[c].winding == winding)
      turns.emplace_back(std::get<mesh::RoundSection>(_s.layout.conductors[c].section).centre,
                         _solid[c] >= 0 && !insulated ? _solid[c] : _turns++);
  for (int k = 0; k < _triangles; ++k)
  {
    if (_space.mesh.triangles[k].region != region)
      continue;
    double r = 0.0, z = 0.0;
    for (const int v : _space.mesh.triangles[k].vertices)
    {
      r += _space.mesh.vertices[v].r() / 3.0;
      z += _space.mesh.vertices[v].z / 3.0;
    }
    const auto distance = [&](const auto& turn)
    { return std::hypot(turn.first.r - r, turn.first.z - z); };
    _turn[k] = std::ranges::min_element(turns, {}, distance)->second;
  }
}

} // namespace solver
