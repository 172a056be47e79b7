// Cuts at the four sides of a box.
#include "post/drawing/clipping.hpp"

#include <algorithm>
#include <optional>
#include <utility>

namespace post::drawing
{

namespace
{

/// @brief The part of a to b in the box, nothing where it passes by.
std::optional<std::pair<Spot, Spot>> cut(Spot a, Spot b, const Box& box)
{
  double enters = 0.0, leaves = 1.0;
  const double across = b.x - a.x, down = b.y - a.y;
  const std::pair<double, double> sides[] = {{-across, a.x - box.x},
                                             {across, box.x + box.width - a.x},
                                             {-down, a.y - box.y},
                                             {down, box.y + box.height - a.y}};
  for (const auto& [outwards, distance] : sides)
  {
    if (outwards == 0.0 && distance < 0.0)
      return std::nullopt;
    if (outwards < 0.0)
      enters = std::max(enters, distance / outwards);
    else if (outwards > 0.0)
      leaves = std::min(leaves, distance / outwards);
  }
  if (enters > leaves)
    return std::nullopt;
  return std::pair{Spot{a.x + enters * across, a.y + enters * down},
                   Spot{a.x + leaves * across, a.y + leaves * down}};
}

bool same(Spot a, Spot b)
{
  return a.x == b.x && a.y == b.y;
}

} // namespace

std::vector<Line> clipped_line(std::span<const Spot> chain, const Box& box)
{
  std::vector<Line> pieces;
  if (chain.size() == 1) // a dot
    if (const auto dot = cut(chain[0], chain[0], box))
      pieces.push_back({{dot->first, dot->first}, false});
  for (std::size_t k = 1; k < chain.size(); ++k)
    if (const auto part = cut(chain[k - 1], chain[k], box))
    {
      if (pieces.empty() || !same(pieces.back().spots.back(), part->first))
        pieces.push_back({{part->first}, false});
      pieces.back().spots.push_back(part->second);
    }
  return pieces;
}

Line clipped_area(const Line& area, const Box& box)
{
  // Signed distance inwards from each side.
  const auto inwards = [&](Spot spot, int side)
  {
    return side == 0   ? spot.x - box.x
           : side == 1 ? box.x + box.width - spot.x
           : side == 2 ? spot.y - box.y
                       : box.y + box.height - spot.y;
  };
  std::vector<Spot> spots = area.spots;
  for (int side = 0; side < 4; ++side)
  {
    std::vector<Spot> kept;
    for (std::size_t k = 0; k < spots.size(); ++k)
    {
      const Spot a = spots[k], b = spots[(k + 1) % spots.size()];
      const double from = inwards(a, side), to = inwards(b, side);
      if (from >= 0.0)
        kept.push_back(a);
      if ((from >= 0.0) != (to >= 0.0))
        kept.push_back(
            {a.x + from / (from - to) * (b.x - a.x), a.y + from / (from - to) * (b.y - a.y)});
    }
    spots = std::move(kept);
  }
  return {spots, true};
}

} // namespace post::drawing
