// Outlines: areas and volumes against closed forms, boxes, self-intersection, relations.
#include "mesh/outline.hpp"
#include "mesh/piece.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <numbers>

using namespace mesh;

namespace
{

constexpr double pi = std::numbers::pi;

Approx exactly(double value)
{
  return Approx(value).epsilon(1e-13);
}

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

bool closed(const Outline& outline)
{
  for (std::size_t i = 0; i < outline.size(); ++i)
  {
    const Point next = outline[(i + 1) % outline.size()].from;
    if (outline[i].to.r != next.r || outline[i].to.z != next.z)
      return false;
  }
  return true;
}

} // namespace

TEST_CASE("areas and volumes are those of the closed forms", "[outline]")
{
  // Elementary solids; the torus by Pappus' theorem: 2 pi R times pi a^2.
  const Outline tube = rectangle(2, 5, -1, 3);
  CHECK(area(tube) == exactly(12));
  CHECK(volume(tube) == exactly(pi * (25 - 4) * 4));
  const Outline torus = circle({5, 1}, 2);
  CHECK(area(torus) == exactly(pi * 4));
  CHECK(volume(torus) == exactly(2 * pi * 5 * pi * 4));
  const Outline ball = circle({0, -3}, 2);
  CHECK(area(ball) == exactly(pi * 2));
  CHECK(volume(ball) == exactly(4.0 / 3 * pi * 8));
  const Outline cone = polygon(std::array{Point{0, 0}, Point{3, 0}, Point{0, 4}});
  CHECK(area(cone) == exactly(6));
  CHECK(volume(cone) == exactly(pi * 9 * 4 / 3));
}

TEST_CASE("outlines are closed and run counter-clockwise", "[outline]")
{
  const std::array clockwise{Point{1, 0}, Point{1, 2}, Point{3, 2}, Point{3, 0}};
  for (const Outline& outline : {rectangle(0, 1, 0, 1), circle({3, 0}, 1), circle({0, 0}, 1),
                                 circle({1, 0}, 1), circle({0.5, 0}, 1), polygon(clockwise)})
  {
    CHECK(closed(outline));
    CHECK(signed_area(outline) > 0);
    CHECK(extent(outline).low.r >= 0);
  }
}

TEST_CASE("a repeated point of a polygon adds no piece", "[outline]")
{
  const std::array twice{Point{1, 0}, Point{3, 0}, Point{3, 0}, Point{3, 2}, Point{1, 0}};
  CHECK(polygon(twice).size() == 3);
  CHECK_FALSE(self_intersecting(twice));
}

TEST_CASE("a circle on the axis is a half disc closed along the axis", "[outline]")
{
  const Outline ball = circle({0, 5}, 2);
  REQUIRE(ball.size() == 3);
  CHECK(ball[1].from.r == 0);
  CHECK(ball[1].to.r == 0);
  CHECK(ball[1].from.z == exactly(7));
  CHECK(ball[1].to.z == exactly(3));
  CHECK(circle({2, 0}, 1).size() == 4);
}

TEST_CASE("the box holds the bulge of the arcs", "[outline]")
{
  const Extent box = extent(circle({5, 1}, 2));
  CHECK(box.low.r == exactly(3));
  CHECK(box.high.r == exactly(7));
  CHECK(box.low.z == exactly(-1));
  CHECK(box.high.z == exactly(3));
  const Extent bulge = extent(arc_piece({0, 0}, 1, -0.5, 0.5));
  CHECK(bulge.high.r == exactly(1));
  CHECK(bulge.low.r == exactly(std::cos(0.5)));
}

TEST_CASE("polygons that cross or touch themselves are found", "[outline]")
{
  using Points = std::vector<Point>;
  CHECK(self_intersecting(Points{{0, 0}, {2, 2}, {2, 0}, {0, 2}}));               // bow tie
  CHECK(self_intersecting(Points{{0, 0}, {4, 0}, {4, 4}, {2, 0}, {0, 4}}));       // tip on an edge
  CHECK(self_intersecting(Points{{0, 0}, {4, 0}, {2, 0}, {2, 3}}));               // folds back
  CHECK(self_intersecting(Points{{0, 0}, {4, 0}, {1, 0}}));                       // no area
  CHECK(self_intersecting(Points{{0, 0}, {4, 0}}));                               // no polygon
  CHECK_FALSE(self_intersecting(Points{{0, 0}, {2, 0}, {4, 0}, {4, 4}, {0, 4}})); // straight on
  CHECK_FALSE(self_intersecting(Points{{0, 0}, {4, 0}, {4, 4}, {2, 0.004}, {0, 4}}));
  CHECK_FALSE(self_intersecting(Points{{0, 0}, {4e-6, 0}, {4e-6, 4e-6}, {2e-6, 4e-9}, {0, 4e-6}}));
}

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

TEST_CASE("pieces meet where they cross, touch and begin to coincide", "[piece]")
{
  const Piece line{{0, 0}, {4, 0}};
  const Piece round = arc_piece({2, 1}, 1, -3, 3); // touches the line at (2, 0)
  const auto touch = meeting_points(line, round, 1e-9);
  REQUIRE(touch.size() == 1);
  CHECK(distance(touch[0], {2, 0}) < 1e-9);
  CHECK(meeting_points(line, arc_piece({2, 0.5}, 1, -3, 3), 1e-9).size() == 2);
  CHECK(meeting_points(line, arc_piece({2, 1.001}, 1, -3, 3), 1e-9).empty());
  CHECK(meeting_points(round, arc_piece({3.2, 2.6}, 1, -6, -1), 1e-9).size() == 1);   // outside
  CHECK(meeting_points(round, arc_piece({2.3, 1.4}, 0.5, 0, 1.5), 1e-9).size() == 1); // within
  CHECK(meeting_points(line, {{3, 0}, {7, 0}}, 1e-9).size() == 2);                    // 3 to 4
  CHECK(meeting_points(round, arc_piece({2, 1}, 1, 0, 1), 1e-9).size() == 2);
  CHECK(meeting_points(round, arc_piece({2, 1}, 1.1, 0, 1), 1e-9).empty());
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
