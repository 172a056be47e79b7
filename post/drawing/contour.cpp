// Marching triangles over welded points: a crossing belongs to an edge, so chains close exactly.
#include "post/drawing/contour.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>
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
    std::array<mesh::Point, 2> midway = {}; // to each neighbour
    int count = 0;
    bool used = false;
  };
  std::unordered_map<std::uint64_t, Crossing> crossings;

  void join(std::uint64_t a, std::uint64_t b, mesh::Point midway)
  {
    for (const auto& [from, to] : {std::pair{a, b}, std::pair{b, a}})
      if (Crossing& crossing = crossings[from]; crossing.count < 2)
      {
        crossing.midway[crossing.count] = midway;
        crossing.neighbours[crossing.count++] = to;
      }
  }
};

/// @brief A place on an edge and the flux density there, of one side.
struct Cut
{
  mesh::Point at;
  double B_r = 0.0;
  double B_z = 0.0;
};

/// @brief Where the level lies on the edge from point a to point b of one triangle.
///
/// The flux along the edge is the cubic of both ends' values and slopes; d flux = 2 pi r (B_z dr -
/// B_r dz). Exact for flux ~ r^2, where a straight line between the values would be far off.
Cut cut(const Sample& sample, int a, int b, double level)
{
  const mesh::Point from = sample.points[a], to = sample.points[b];
  const double dr = to.r - from.r, dz = to.z - from.z;
  const auto slope = [&](int p) {
    return 2.0 * std::numbers::pi * sample.points[p].r * (sample.B_z[p] * dr - sample.B_r[p] * dz);
  };
  const double rise = sample.flux[b] - sample.flux[a];
  const double c1 = slope(a), c2 = 3.0 * rise - 2.0 * c1 - slope(b), c3 = rise - c1 - c2;
  const auto above = [&](double t)
  { return (sample.flux[a] + t * (c1 + t * (c2 + t * c3)) >= level) == (rise > 0.0); };
  double low = 0.0, high = 1.0;
  for (int halving = 0; halving < 40; ++halving)
    (above(0.5 * (low + high)) ? high : low) = 0.5 * (low + high);
  const auto between = [&](const std::vector<double>& B) { return B[a] + low * (B[b] - B[a]); };
  return {{from.r + low * dr, from.z + low * dz}, between(sample.B_r), between(sample.B_z)};
}

/// @brief The middle of a curve between two cuts that leaves and arrives along the flux density.
mesh::Point midway(const Cut& a, const Cut& b)
{
  const double dr = b.at.r - a.at.r, dz = b.at.z - a.at.z, chord = std::hypot(dr, dz);
  mesh::Point middle = {0.5 * (a.at.r + b.at.r), 0.5 * (a.at.z + b.at.z)};
  const auto along = [&](const Cut& cut) { return cut.B_r * dr + cut.B_z * dz; };
  const double at_a = std::hypot(a.B_r, a.B_z) * chord, at_b = std::hypot(b.B_r, b.B_z) * chord;
  // Beyond 45 degrees from the chord, as beside a null of the field, a direction says nothing.
  if (std::min(std::abs(along(a)) - 0.7 * at_a, std::abs(along(b)) - 0.7 * at_b) <= 0.0)
    return middle;
  // Tangents as long as the chord, both forwards: middle + (t_a - t_b) / 8.
  const double part_a = std::copysign(chord * chord / (8.0 * at_a), along(a));
  const double part_b = std::copysign(chord * chord / (8.0 * at_b), along(b));
  middle.r += part_a * a.B_r - part_b * b.B_r;
  middle.z += part_a * a.B_z - part_b * b.B_z;
  return middle;
}

/// @brief Adds the piece of the level in one triangle, if there is one.
/// @param own     The triangle's own points, which carry B on its side.
/// @param shared  The same points welded, which make the name of an edge.
void add_piece(const Sample& sample, const std::array<int, 3>& own,
               const std::array<int, 3>& shared, double level, Links& links)
{
  std::array<std::uint64_t, 2> edges;
  std::array<Cut, 2> cuts;
  int found = 0;
  for (int k = 0; k < 3; ++k)
  {
    const int next = (k + 1) % 3;
    if ((sample.flux[shared[k]] >= level) == (sample.flux[shared[next]] >= level) || found == 2)
      continue;
    const auto [a, b] = std::minmax(shared[k], shared[next]);
    edges[found] = static_cast<std::uint64_t>(a) << 32 | static_cast<unsigned>(b);
    cuts[found] = cut(sample, own[k], own[next], level);
    links.crossings[edges[found]].at = cuts[found].at;
    ++found;
  }
  if (found == 2)
    links.join(edges[0], edges[1], midway(cuts[0], cuts[1]));
}

/// @brief Walks from one crossing until the chain ends or comes round again.
FluxLine walked(Links& links, std::uint64_t start, double level)
{
  FluxLine line{level, {}};
  std::uint64_t at = start;
  while (true)
  {
    Links::Crossing& crossing = links.crossings.at(at);
    crossing.used = true;
    line.points.push_back(crossing.at);
    int next = 0;
    while (next < crossing.count && links.crossings.at(crossing.neighbours[next]).used)
      ++next;
    if (next < crossing.count)
    {
      line.points.push_back(crossing.midway[next]);
      at = crossing.neighbours[next];
      continue;
    }
    // Of more than two crossings both neighbours of the last are used: one of them is the start
    // where the chain has come round.
    for (int k = 0; k < crossing.count && line.points.size() > 3; ++k)
      if (crossing.neighbours[k] == start)
        line.points.insert(line.points.end(), {crossing.midway[k], line.points.front()});
    return line;
  }
}

/// @brief All chains of one level: open ones from their ends, then the closed ones.
void add_chains(Links& links, double level, std::vector<FluxLine>& lines)
{
  for (const bool ends_only : {true, false})
    for (auto& [edge, crossing] : links.crossings)
      if (!crossing.used && (!ends_only || crossing.count < 2))
        lines.push_back(walked(links, edge, level));
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
      add_piece(sample, triangle, corners, *level, links[level - levels.begin()]);
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
