// How two bodies lie: rectangles, circles and hollow bodies, and random bodies made of cells.
#include "mesh/outline.hpp"
#include "mesh/piece.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <random>
#include <set>

using namespace mesh;

namespace
{

/// The mirrored question has the mirrored answer.
Relation mirrored(Relation lies)
{
  if (lies == Relation::inside)
    return Relation::contains;
  return lies == Relation::contains ? Relation::inside : lies;
}

Outline scaled(Outline outline, double scale)
{
  for (Piece& piece : outline)
  {
    piece.from = scale * piece.from;
    piece.to = scale * piece.to;
    if (piece.arc)
      piece.arc =
          Arc{scale * piece.arc->centre, scale * piece.arc->radius, piece.arc->from, piece.arc->to};
  }
  return outline;
}

/// The answer must hold in both orders and at every size a part may have.
void require_relation(const Outline& a, const Outline& b, Relation expected)
{
  for (double scale : {1e-6, 1e-3, 1.0, 100.0})
  {
    CAPTURE(scale);
    CHECK(relation(scaled(a, scale), scaled(b, scale)) == expected);
    CHECK(relation(scaled(b, scale), scaled(a, scale)) == mirrored(expected));
  }
}

using Cell = std::pair<int, int>;

/// Boundary of the cells, each `size` wide, counter-clockwise; empty if it is not one simple chain.
std::vector<Point> boundary(const std::set<Cell>& cells, double size)
{
  std::multimap<Cell, Cell> edges;
  for (auto [i, j] : cells)
  {
    const Cell corners[] = {{i, j}, {i + 1, j}, {i + 1, j + 1}, {i, j + 1}};
    const Cell beyond[] = {{i, j - 1}, {i + 1, j}, {i, j + 1}, {i - 1, j}};
    for (int side = 0; side < 4; ++side)
      if (!cells.contains(beyond[side]))
        edges.insert({corners[side], corners[(side + 1) % 4]});
  }
  std::vector<Point> points;
  Cell at = edges.begin()->first;
  for (std::size_t step = 0; step < edges.size(); ++step)
  {
    if (edges.count(at) != 1)
      return {};
    points.push_back({size * at.first, size * at.second});
    at = edges.find(at)->second;
  }
  return self_intersecting(points) ? std::vector<Point>{} : points;
}

std::set<Cell> random_cells(std::mt19937& random)
{
  std::set<Cell> cells;
  const int steps = std::uniform_int_distribution(1, 12)(random);
  Cell at{std::uniform_int_distribution(0, 3)(random), std::uniform_int_distribution(0, 3)(random)};
  for (int step = 0; step < steps; ++step)
  {
    cells.insert(at);
    int& moved = std::bernoulli_distribution()(random) ? at.first : at.second;
    moved = std::clamp(moved + (std::bernoulli_distribution()(random) ? 1 : -1), 0, 4);
  }
  return cells;
}

Relation relation_of_cells(const std::set<Cell>& a, const std::set<Cell>& b)
{
  std::size_t common = 0;
  for (const Cell& cell : a)
    common += b.count(cell);
  if (common == 0)
    return Relation::apart;
  if (common == a.size())
    return common == b.size() ? Relation::equal : Relation::inside;
  return common == b.size() ? Relation::contains : Relation::overlapping;
}

} // namespace

TEST_CASE("rectangles lie to each other as drawn", "[relation]")
{
  const Outline body = rectangle(2, 4, 0, 10);
  require_relation(body, body, Relation::equal);
  require_relation(body, rectangle(4, 6, 0, 10), Relation::apart);  // side on side
  require_relation(body, rectangle(4, 6, 2, 20), Relation::apart);  // part of a side
  require_relation(body, rectangle(4, 6, 10, 12), Relation::apart); // corner on corner
  require_relation(body, rectangle(5, 6, 0, 10), Relation::apart);
  require_relation(body, rectangle(2.5, 3, 1, 9), Relation::contains);
  require_relation(body, rectangle(2, 4, 0, 9), Relation::contains);    // three common sides
  require_relation(body, rectangle(2, 3, 2, 8), Relation::contains);    // touching from within
  require_relation(body, rectangle(1, 5, 4, 6), Relation::overlapping); // a cross
  require_relation(body, rectangle(3, 5, 4, 6), Relation::overlapping);
  require_relation(body, rectangle(2, 5, 0, 9), Relation::overlapping);
  require_relation(body, rectangle(2, 4, 1, 11), Relation::overlapping); // shifted along z
  require_relation(rectangle(0, 5, -1, 1), rectangle(0, 3, -1, 1), Relation::contains); // axis
  require_relation(rectangle(0, 5, -1, 1), rectangle(0, 5, 1, 2), Relation::apart);
}

TEST_CASE("clearances and overlaps of 1/1000 of the size are seen", "[relation]")
{
  const Outline body = rectangle(2, 4, 0, 10);
  require_relation(body, rectangle(4 + 1e-3, 6, 0, 10), Relation::apart);
  require_relation(body, rectangle(4 - 1e-3, 6, 0, 10), Relation::overlapping);
  require_relation(body, rectangle(2 + 1e-3, 4 - 1e-3, 1e-3, 10 - 1e-3), Relation::contains);
  require_relation(body, rectangle(2 - 1e-3, 4 - 1e-3, 1e-3, 10 - 1e-3), Relation::overlapping);
  require_relation(circle({5, 0}, 1), circle({7 - 1e-3, 0}, 1), Relation::overlapping);
  require_relation(circle({5, 0}, 1), circle({7 + 1e-3, 0}, 1), Relation::apart);
  require_relation(circle({5, 0}, 1), circle({5, 0}, 1 - 1e-3), Relation::contains);
  require_relation(circle({5, 0}, 1), rectangle(6 - 1e-3, 8, -3, 3), Relation::overlapping);
  // Deeper than rounding and shallower than anything drawn on purpose.
  require_relation(body, rectangle(4 - 1e-6, 6, 0, 10), Relation::overlapping);
}

TEST_CASE("circles lie to each other and to rectangles as drawn", "[relation]")
{
  const Outline turn = circle({5, 0}, 1);
  require_relation(turn, turn, Relation::equal);
  require_relation(turn, circle({7, 0}, 1), Relation::apart);         // tangent where quarters meet
  require_relation(turn, circle({5 + 1.2, 1.6}, 1), Relation::apart); // tangent within a quarter
  require_relation(turn, circle({5 + 0.3, 0.4}, 0.5), Relation::contains); // tangent from within
  require_relation(turn, circle({5.2, 0}, 0.8), Relation::contains);
  require_relation(turn, circle({6, 1}, 1), Relation::overlapping);
  require_relation(turn, rectangle(6, 8, -3, 3), Relation::apart);  // tangent to a side
  require_relation(turn, rectangle(4, 6, -1, 1), Relation::inside); // tangent to four sides
  require_relation(turn, rectangle(4.9, 5.1, -3, 3), Relation::overlapping);
  const double half = std::sqrt(0.5);
  require_relation(turn, rectangle(5 - half, 5 + half, -half, half), Relation::contains);
  require_relation(turn, rectangle(5 + half, 8, half, 3), Relation::apart);    // corner on the arc
  require_relation(circle({0, 0}, 1), rectangle(0, 2, 1, 3), Relation::apart); // ball on a plate
  require_relation(circle({0, 0}, 1), rectangle(0, 0.5, -0.5, 0.5), Relation::contains);
}

TEST_CASE("a body touching in the middle of every piece is not taken for the same", "[relation]")
{
  // The circle's quarters and the diamond's sides touch in their middles.
  const double reach = std::sqrt(2.0);
  const std::array corners{Point{5 + reach, 0}, Point{5, reach}, Point{5 - reach, 0},
                           Point{5, -reach}};
  require_relation(circle({5, 0}, 1), polygon(corners), Relation::inside);
}

TEST_CASE("a small body far from the origin keeps its relation", "[relation]")
{
  const double z = 100.0;
  const double size = 1e-6;
  const Outline speck = rectangle(1, 1 + size, z, z + size);
  CHECK(relation(speck, rectangle(1 + size, 1 + 2 * size, z, z + size)) == Relation::apart);
  CHECK(relation(speck, rectangle(0.9, 1.1, 99, 101)) == Relation::inside);
  CHECK(relation(speck, rectangle(1 + size / 2, 1.1, 99, 101)) == Relation::overlapping);
  CHECK(relation(speck, rectangle(1 + 1e-3 * size, 1.1, 99, 101)) == Relation::overlapping);
  // Sides equal but for the last bit are common sides.
  const double side = std::nextafter(1 + size, 0.0);
  const double top = std::nextafter(z + size, 0.0);
  CHECK(relation(speck, rectangle(side, 1.1, 99, 101)) == Relation::apart);
  CHECK(relation(speck, rectangle(0.9, side, 99, top)) == Relation::inside);
}

TEST_CASE("bodies in the hollow of another one are apart from it", "[relation]")
{
  const std::array channel{Point{1, 0}, Point{5, 0}, Point{5, 6}, Point{4, 6},
                           Point{4, 1}, Point{2, 1}, Point{2, 6}, Point{1, 6}};
  const Outline cup = polygon(channel);
  require_relation(cup, rectangle(2, 4, 1, 6), Relation::apart); // fills the hollow
  require_relation(cup, rectangle(2.5, 3.5, 2, 8), Relation::apart);
  require_relation(cup, rectangle(2, 4.001, 1, 6), Relation::overlapping);
  require_relation(cup, rectangle(1, 5, 0, 6), Relation::inside);
  require_relation(cup, circle({3, 2}, 1), Relation::apart); // touches three walls
}

TEST_CASE("random bodies of cells lie as their cells do", "[relation]")
{
  std::mt19937 random(7);
  std::map<Relation, int> seen;
  for (int i = 0; i < 4000; ++i)
  {
    const std::set<Cell> a = random_cells(random);
    const std::set<Cell> b = random_cells(random);
    const double size = std::pow(10.0, std::uniform_real_distribution(-6.0, 1.0)(random));
    const std::vector<Point> around_a = boundary(a, size);
    const std::vector<Point> around_b = boundary(b, size);
    if (around_a.empty() || around_b.empty())
      continue;
    const Relation expected = relation_of_cells(a, b);
    CAPTURE(i, size);
    CHECK(relation(polygon(around_a), polygon(around_b)) == expected);
    ++seen[expected];
  }
  CHECK(seen.size() == 5);
  for (auto [kind, count] : seen)
    CHECK(count >= 10);
}
