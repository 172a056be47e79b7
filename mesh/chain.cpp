// Closed chains out of loose pieces.
#include "mesh/chain.hpp"
#include "mesh/piece.hpp"

#include <cmath>
#include <limits>
#include <numbers>
#include <stdexcept>

namespace mesh
{

namespace
{

constexpr double pi = std::numbers::pi;

/// Signed change of direction from the end of one piece to the start of the next [rad].
double turn(const Piece& piece, const Piece& next)
{
  const Point before = direction_at(piece, 1.0);
  const Point after = direction_at(next, 0.0);
  return std::atan2(cross(before, after), dot(before, after));
}

/// The rest's piece to go on with: where several start here, the one furthest to the right, so
/// that boundaries which only touch stay separate.
std::size_t continuation(const Piece& piece, const std::vector<Cutting>& rest, double tolerance)
{
  std::size_t best = rest.size();
  double best_turn = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < rest.size(); ++i)
  {
    if (distance(piece.to, rest[i].piece.from) > tolerance)
      continue;
    // Two rounded corners that just touch: go back beside the gap between them, on its right.
    double angle = turn(piece, rest[i].piece);
    angle = angle > pi - 1e-3 ? -angle : angle;
    if (angle < best_turn)
    {
      best_turn = angle;
      best = i;
    }
  }
  return best;
}

Cutting taken(std::vector<Cutting>& rest, std::size_t i)
{
  const Cutting cutting = rest[i];
  rest[i] = rest.back();
  rest.pop_back();
  return cutting;
}

/// One piece again out of two that were cut from the same curve.
Piece joined(const Piece& first, const Piece& second)
{
  Piece whole{first.from, second.to};
  if (first.arc)
    whole.arc = Arc{first.arc->centre, first.arc->radius, first.arc->from, second.arc->to};
  return whole;
}

Outline merged(std::vector<Cutting> loop)
{
  // Start at a change of source, so that no run of one source is split over the seam.
  for (std::size_t i = 0; i < loop.size() && loop.front().source == loop.back().source; ++i)
  {
    loop.insert(loop.begin(), loop.back());
    loop.pop_back();
  }
  Outline outline;
  int source = -1;
  for (const auto& [piece, own] : loop)
  {
    if (own == source)
      outline.back() = joined(outline.back(), piece);
    else
      outline.push_back(piece);
    source = own;
  }
  return outline;
}

} // namespace

std::vector<Cutting> without_doubles(std::vector<Cutting> cuttings, double tolerance)
{
  std::vector<Cutting> single;
  for (const Cutting& cutting : cuttings)
  {
    const Point middle = point_at(cutting.piece, 0.5);
    bool keep = true;
    for (std::size_t i = 0; i < single.size() && keep; ++i)
    {
      const Piece& other = single[i].piece;
      if (distance(point_at(other, 0.5), middle) > tolerance ||
          std::abs(length(other) - length(cutting.piece)) > tolerance)
        continue;
      const Point along = direction_at(other, 0.5);
      const Point own = direction_at(cutting.piece, 0.5);
      if (std::abs(cross(along, own)) > 1e-6)
        continue;
      keep = false;
      if (dot(along, own) < 0)
        taken(single, i);
    }
    if (keep)
      single.push_back(cutting);
  }
  return single;
}

std::vector<Outline> chains(std::vector<Cutting> cuttings, double tolerance)
{
  std::vector<Outline> loops;
  while (!cuttings.empty())
  {
    std::vector<Cutting> loop{taken(cuttings, cuttings.size() - 1)};
    const Point start = loop.front().piece.from;
    while (distance(loop.back().piece.to, start) > tolerance)
    {
      const std::size_t next = continuation(loop.back().piece, cuttings, tolerance);
      if (next == cuttings.size())
        throw std::runtime_error("offset: the boundary of the coating does not close");
      loop.push_back(taken(cuttings, next));
      loop.back().piece.from = loop[loop.size() - 2].piece.to;
    }
    loop.back().piece.to = start;
    loops.push_back(merged(std::move(loop)));
  }
  return loops;
}

} // namespace mesh
