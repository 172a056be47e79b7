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

using std::numbers::pi;

/// Signed change of direction from the end of one piece to the start of the next [rad].
double turn(const Piece& piece, const Piece& next)
{
  const Point before = direction_at(piece, 1.0);
  const Point after = direction_at(next, 0.0);
  return std::atan2(cross(before, after), dot(before, after));
}

/// The rest's piece to go on with: where several start here, the one furthest to the right, so
/// that boundaries which only touch stay separate.
std::size_t continuation(const Piece& piece, const std::vector<Piece>& rest, double tolerance)
{
  std::size_t best = rest.size();
  double best_turn = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < rest.size(); ++i)
  {
    if (distance(piece.to, rest[i].from) > tolerance)
      continue;
    // Two rounded corners that just touch: go back beside the gap between them, on its right.
    double angle = turn(piece, rest[i]);
    angle = angle > pi - 1e-3 ? -angle : angle;
    if (angle < best_turn)
    {
      best_turn = angle;
      best = i;
    }
  }
  return best;
}

Piece taken(std::vector<Piece>& rest, std::size_t i)
{
  const Piece piece = rest[i];
  rest[i] = rest.back();
  rest.pop_back();
  return piece;
}

} // namespace

std::vector<Piece> without_doubles(const std::vector<Piece>& pieces, double tolerance)
{
  std::vector<Point> middles;
  for (const Piece& piece : pieces)
    middles.push_back(point_at(piece, 0.5));
  std::vector<bool> dropped(pieces.size(), false);
  for (std::size_t i = 0; i < pieces.size(); ++i)
    for (std::size_t j = i + 1; j < pieces.size() && !dropped[i]; ++j)
    {
      if (dropped[j] || distance(middles[i], middles[j]) > tolerance ||
          std::abs(length(pieces[i]) - length(pieces[j])) > tolerance)
        continue;
      // All are cut where they meet, so with a common middle they run along the same curve.
      dropped[j] = true;
      dropped[i] = dot(direction_at(pieces[i], 0.5), direction_at(pieces[j], 0.5)) < 0;
    }
  std::vector<Piece> single;
  for (std::size_t i = 0; i < pieces.size(); ++i)
    if (!dropped[i])
      single.push_back(pieces[i]);
  return single;
}

std::vector<Outline> chains(std::vector<Piece> pieces, double tolerance)
{
  std::vector<Outline> loops;
  while (!pieces.empty())
  {
    Outline loop{taken(pieces, pieces.size() - 1)};
    while (distance(loop.back().to, loop.front().from) > tolerance)
    {
      const std::size_t next = continuation(loop.back(), pieces, tolerance);
      if (next == pieces.size())
        throw std::runtime_error("offset: the boundary of the coating does not close");
      loop.push_back(taken(pieces, next));
      loop.back().from = loop[loop.size() - 2].to;
    }
    loop.back().to = loop.front().from;
    loops.push_back(std::move(loop));
  }
  return loops;
}

} // namespace mesh
