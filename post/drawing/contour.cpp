// Marching triangles over welded points: a crossing belongs to an edge, so chains close exactly.
#include "post/drawing/contour.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <unordered_map>

namespace post::drawing
{

namespace
{

/// @brief For each point the first one at the same place; the sample repeats points at borders.
///
/// Same place: within about 1e-9 of the window, which is far below any triangle drawn and far
/// above the round-off of coordinates mapped from two sides.
std::vector<int> welded(const Sample& sample, const mesh::Extent& window)
{
  const double cell = 1e-9 * std::hypot(window.high.r - window.low.r, window.high.z - window.low.z);
  std::unordered_map<std::uint64_t, std::vector<int>> grid;
  grid.reserve(sample.points.size());
  const auto key = [](std::int64_t i, std::int64_t j)
  { return static_cast<std::uint64_t>(i) * 0x9E3779B97F4A7C15u ^ static_cast<std::uint64_t>(j); };
  std::vector<int> first(sample.points.size());
  for (int p = 0; p < static_cast<int>(sample.points.size()); ++p)
  {
    first[p] = p;
    const auto [r, z] = sample.points[p];
    if (!(std::abs(r) + std::abs(z) < 1e8 * cell * 1e9)) // endless or absurdly far: never drawn
      continue;
    const std::int64_t i = std::llround(r / (4.0 * cell)), j = std::llround(z / (4.0 * cell));
    for (int near = 0; near < 9 && first[p] == p; ++near)
      if (const auto found = grid.find(key(i + near % 3 - 1, j + near / 3 - 1));
          found != grid.end())
        for (const int q : found->second)
          if (std::hypot(sample.points[q].r - r, sample.points[q].z - z) <= cell)
            first[p] = q;
    if (first[p] == p)
      grid[key(i, j)].push_back(p);
  }
  return first;
}

/// @brief The links between edges that one level makes, each edge with one neighbour or two.
struct Links
{
  struct Crossing
  {
    mesh::Point at;
    std::array<std::uint64_t, 2> neighbours = {};
    int count = 0;
    bool used = false;
  };
  std::unordered_map<std::uint64_t, Crossing> crossings;

  void join(std::uint64_t a, std::uint64_t b)
  {
    for (const auto& [from, to] : {std::pair{a, b}, std::pair{b, a}})
      if (Crossing& crossing = crossings[from]; crossing.count < 2)
        crossing.neighbours[crossing.count++] = to;
  }
};

/// @brief Adds the piece of the level in one triangle, if there is one.
void add_piece(const Sample& sample, const std::array<int, 3>& corners, double level, Links& links)
{
  std::uint64_t edges[2];
  int found = 0;
  for (int k = 0; k < 3; ++k)
  {
    const auto [a, b] = std::minmax(corners[k], corners[(k + 1) % 3]);
    const double at_a = sample.flux[a], at_b = sample.flux[b];
    if ((at_a >= level) == (at_b >= level) || found == 2)
      continue;
    const std::uint64_t edge = static_cast<std::uint64_t>(a) << 32 | static_cast<unsigned>(b);
    const double t = (level - at_a) / (at_b - at_a);
    const mesh::Point from = sample.points[a], to = sample.points[b];
    links.crossings[edge].at = {from.r + t * (to.r - from.r), from.z + t * (to.z - from.z)};
    edges[found++] = edge;
  }
  if (found == 2)
    links.join(edges[0], edges[1]);
}

/// @brief Walks from one crossing until the chain ends or comes round again.
FluxLine chain(Links& links, std::uint64_t start, double level)
{
  FluxLine line{level, {}};
  std::uint64_t at = start;
  while (true)
  {
    Links::Crossing& crossing = links.crossings.at(at);
    crossing.used = true;
    line.points.push_back(crossing.at);
    bool moved = false;
    for (int k = 0; k < crossing.count && !moved; ++k)
      if (!links.crossings.at(crossing.neighbours[k]).used)
      {
        at = crossing.neighbours[k];
        moved = true;
      }
    if (moved)
      continue;
    const bool closes = line.points.size() > 2 && crossing.count == 2 &&
                        (crossing.neighbours[0] == start || crossing.neighbours[1] == start);
    if (closes)
      line.points.push_back(line.points.front());
    return line;
  }
}

/// @brief All chains of one level: open ones from their ends, then the closed ones.
void add_chains(Links& links, double level, std::vector<FluxLine>& lines)
{
  for (const bool ends_only : {true, false})
    for (auto& [edge, crossing] : links.crossings)
      if (!crossing.used && (!ends_only || crossing.count < 2))
        lines.push_back(chain(links, edge, level));
}

double distance_to_piece(mesh::Point p, mesh::Point a, mesh::Point b)
{
  const double dr = b.r - a.r, dz = b.z - a.z, squared = dr * dr + dz * dz;
  const double t =
      squared > 0.0 ? std::clamp(((p.r - a.r) * dr + (p.z - a.z) * dz) / squared, 0.0, 1.0) : 0.0;
  return std::hypot(p.r - a.r - t * dr, p.z - a.z - t * dz);
}

} // namespace

bool meets(const Sample& sample, const std::array<int, 3>& triangle, const mesh::Extent& window)
{
  const auto& [a, b, c] = triangle;
  const std::array<mesh::Point, 3> at = {sample.points[a], sample.points[b], sample.points[c]};
  const auto [r_low, r_high] = std::minmax({at[0].r, at[1].r, at[2].r});
  const auto [z_low, z_high] = std::minmax({at[0].z, at[1].z, at[2].z});
  return std::isfinite(at[0].r + at[1].r + at[2].r + at[0].z + at[1].z + at[2].z) &&
         r_high >= window.low.r && r_low <= window.high.r && z_high >= window.low.z &&
         z_low <= window.high.z;
}

std::vector<FluxLine> flux_lines(const Sample& sample, std::span<const double> levels,
                                 const mesh::Extent& window)
{
  const std::vector<int> first = welded(sample, window);
  std::vector<Links> links(levels.size());
  for (const std::array<int, 3>& triangle : sample.triangles)
  {
    if (!meets(sample, triangle, window))
      continue;
    const std::array<int, 3> corners = {first[triangle[0]], first[triangle[1]], first[triangle[2]]};
    const auto [low, high] =
        std::minmax({sample.flux[corners[0]], sample.flux[corners[1]], sample.flux[corners[2]]});
    const auto from = std::lower_bound(levels.begin(), levels.end(), low);
    for (auto level = from; level != levels.end() && *level <= high; ++level)
      add_piece(sample, corners, *level, links[level - levels.begin()]);
  }
  std::vector<FluxLine> lines;
  for (std::size_t k = 0; k < levels.size(); ++k)
    add_chains(links[k], levels[k], lines);
  return lines;
}

std::vector<mesh::Point> simplified(std::span<const mesh::Point> chain, double distance)
{
  if (chain.size() < 3)
    return {chain.begin(), chain.end()};
  std::size_t farthest = 0;
  double largest = -1.0;
  for (std::size_t i = 1; i + 1 < chain.size(); ++i)
    if (const double off = distance_to_piece(chain[i], chain.front(), chain.back()); off > largest)
    {
      largest = off;
      farthest = i;
    }
  if (largest <= distance)
    return {chain.front(), chain.back()};
  std::vector<mesh::Point> result = simplified(chain.first(farthest + 1), distance);
  const std::vector<mesh::Point> rest = simplified(chain.subspan(farthest), distance);
  result.insert(result.end(), rest.begin() + 1, rest.end());
  return result;
}

} // namespace post::drawing
