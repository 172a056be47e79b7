// Where the turns of a winding drawn turn by turn lie.
#include "mesh/layout.hpp"

#include <cmath>
#include <stdexcept>

namespace mesh
{

namespace
{

/// Turns of each layer, inner layer first; never more than in the layer beneath.
std::vector<int> turns_per_layer(int turns, int layers)
{
  const int full = (turns + layers - 1) / layers;
  const int remainder = turns - full * (layers - 1);
  std::vector<int> shares(static_cast<std::size_t>(layers), full);
  shares.back() = remainder;
  if (remainder >= 1)
    return shares;
  // Too few turns to fill all inner layers alike: the inner ones hold one more each.
  for (int layer = 0; layer < layers; ++layer)
    shares[layer] = turns / layers + (layer < turns % layers ? 1 : 0);
  return shares;
}

} // namespace

double full_diameter(const RoundTurns& turns)
{
  const double coating = turns.coating ? turns.coating->thickness : 0.0;
  return turns.wire_diameter + 2 * (turns.insulation + coating);
}

std::vector<Point> turn_centres(const Winding& winding)
{
  const auto& build = std::get<RoundTurns>(winding.build);
  const int turns = static_cast<int>(std::lround(winding.turns));
  if (turns < 1 || build.layers < 1)
    throw std::invalid_argument("turn_centres: a winding has at least one turn and one layer");
  const double full = full_diameter(build);
  const double pitch = build.pitch > 0 ? build.pitch : full;
  std::vector<Point> centres;
  int layer = 0;
  for (int share : turns_per_layer(turns, build.layers))
  {
    const double r = build.inner_diameter / 2 + full * (layer++ + 0.5);
    for (int i = 0; i < share; ++i)
      centres.push_back({r, winding.centre + pitch * (i - (share - 1) / 2.0)});
  }
  return centres;
}

} // namespace mesh
