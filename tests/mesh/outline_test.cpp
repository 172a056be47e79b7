// Outlines: areas and volumes against closed forms, boxes, self-intersection, meeting points.
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

TEST_CASE("points are inside or outside where arcs bulge, on their chords too", "[outline]")
{
  // A square whose lower side bulges outward and whose upper one bulges inward.
  const double radius = std::sqrt(2.0);
  const Outline barrel{{{4, 0}, {6, 0}, Arc{{5, 1}, radius, -0.75 * pi, -0.25 * pi}},
                       {{6, 0}, {6, 2}},
                       {{6, 2}, {4, 2}, Arc{{5, 3}, radius, -0.25 * pi, -0.75 * pi}},
                       {{4, 2}, {4, 0}}};
  CHECK(encloses(barrel, {5, 0}));    // on the chord of the bulge
  CHECK(encloses(barrel, {5, -0.4})); // in the bulge
  CHECK(encloses(barrel, {5.2, 1}));
  CHECK_FALSE(encloses(barrel, {5, -0.42}));
  CHECK_FALSE(encloses(barrel, {5, 2}));   // on the chord of the hollow
  CHECK_FALSE(encloses(barrel, {5, 1.6})); // in the hollow
  CHECK(encloses(barrel, {5, 1.58}));
  CHECK_FALSE(encloses(barrel, {7, 0})); // beside the chord
  CHECK_FALSE(encloses(barrel, {3, 0}));
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
  CHECK(meeting_points(arc_piece({2.3, 1.4}, 0.5, 0, 1.5), round, 1e-9).size() == 1);
  CHECK(meeting_points(line, {{3, 0}, {7, 0}}, 1e-9).size() == 2); // 3 to 4
  CHECK(meeting_points(round, arc_piece({2, 1}, 1, 0, 1), 1e-9).size() == 2);
  CHECK(meeting_points(round, arc_piece({2, 1}, 1.1, 0, 1), 1e-9).empty());
}
