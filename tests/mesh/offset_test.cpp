// Offsets: Steiner's formula, bores and pockets that close, the axis.
#include "mesh/outline.hpp"
#include "mesh/piece.hpp"
#include "sound.hpp"

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
  return Approx(value).epsilon(1e-12);
}

const std::array channel{Point{1, 0}, Point{5, 0}, Point{5, 6}, Point{4, 6},
                         Point{4, 1}, Point{2, 1}, Point{2, 6}, Point{1, 6}};

} // namespace

TEST_CASE("the offset of a plate's section is the rounded rectangle", "[offset]")
{
  // Steiner in the plane: A + P t + pi t^2 (Steiner 1840, from memory; elementary for a rectangle).
  const auto loops = offset(rectangle(10, 13, -2, 2), 0.5);
  REQUIRE(loops.size() == 1);
  CHECK(loops[0].size() == 8);
  CHECK(area(loops[0]) == exactly(12 + 14 * 0.5 + pi * 0.25));
  require_sound(loops[0], 0.5);
}

TEST_CASE("coated rods have the volume of Steiner's formula", "[offset]")
{
  // V + S t + M t^2 + 4/3 pi t^3 (Steiner 1840, from memory), M = integral of mean curvature:
  // side 2 pi R L / (2 R), each edge half its angle pi / 2 times 2 pi R; so M = pi L + pi^2 R.
  for (double scale : {1e-6, 1e-3, 100.0})
    for (double t : {1e-3, 0.3, 5.0, 40.0})
    {
      const double R = 3;
      const double L = 20;
      const auto loops = offset(rectangle(0, R * scale, -L / 2 * scale, L / 2 * scale), t * scale);
      REQUIRE(loops.size() == 1);
      require_sound(loops[0], t * scale);
      const double steiner = pi * R * R * L + (2 * pi * R * L + 2 * pi * R * R) * t +
                             (pi * pi * R + pi * L) * t * t + 4.0 / 3 * pi * t * t * t;
      CHECK(volume(loops[0]) / (scale * scale * scale) == exactly(steiner));
    }
}

TEST_CASE("a coated ring or ball is a thicker ring or ball", "[offset]")
{
  const auto ring = offset(circle({10, 1}, 2), 0.5);
  REQUIRE(ring.size() == 1);
  CHECK(ring[0].size() == 4);
  CHECK(volume(ring[0]) == exactly(2 * pi * 10 * pi * 2.5 * 2.5));
  const auto ball = offset(circle({0, 1}, 2), 0.5);
  REQUIRE(ball.size() == 1);
  CHECK(volume(ball[0]) == exactly(4.0 / 3 * pi * 2.5 * 2.5 * 2.5));
  // A ring whose coating closes its hole: the part of the thicker circle at r >= 0.
  const auto closed = offset(circle({3, 0}, 2), 2);
  REQUIRE(closed.size() == 1);
  CHECK(area(closed[0]) == exactly(area(circle({3, 0}, 4))));
  CHECK(volume(closed[0]) == exactly(volume(circle({3, 0}, 4))));
  require_sound(closed[0], 2);
}

TEST_CASE("a cone's tip is rounded about the axis", "[offset]")
{
  // Steiner again; M = integral of mean curvature = pi h over the side (normal's r-part h / l over
  // 2 r, times 2 pi r dl) + pi R (pi - atan(h / R)) over the base edge.
  const double R = 3;
  const double h = 4;
  const double t = 0.5;
  const auto loops = offset(polygon(std::array{Point{0, 0}, Point{R, 0}, Point{0, h}}), t);
  REQUIRE(loops.size() == 1);
  require_sound(loops[0], t);
  const double S = pi * R * R + pi * R * 5;
  const double M = pi * (h + R * (pi - std::atan(h / R)));
  CHECK(volume(loops[0]) ==
        exactly(pi * R * R * h / 3 + S * t + M * t * t + 4.0 / 3 * pi * t * t * t));
}

TEST_CASE("a bore narrower than twice the coating fills", "[offset]")
{
  const double t = 1.0;
  const auto open = offset(rectangle(1.001, 4, -5, 5), t);
  REQUIRE(open.size() == 1);
  CHECK(extent(open[0]).low.r == Approx(0.001));
  CHECK(area(open[0]) == exactly(2.999 * 10 + (2 * 2.999 + 20) * t + pi * t * t));
  const auto touching = offset(rectangle(1, 4, -5, 5), t);
  REQUIRE(touching.size() == 1);
  CHECK(area(touching[0]) == exactly(30 + 26 * t + pi * t * t));
  const auto filled = offset(rectangle(0.6, 4, -5, 5), t);
  REQUIRE(filled.size() == 1);
  require_sound(filled[0], t);
  // The end corners' arcs of radius 1 about r = 0.6 meet the axis 0.8 above the end faces.
  double top = 0.0;
  for (const Piece& piece : filled[0])
    if (piece.from.r == 0.0)
      top = std::max(top, piece.from.z);
  CHECK(top == exactly(5.8));
}

TEST_CASE("hollow corners stay sharp, narrow channels close to a pocket", "[offset]")
{
  const Outline cup = polygon(channel);
  const auto open = offset(cup, 0.5);
  REQUIRE(open.size() == 1);
  // The rounded 4 x 6 box about the whole cup, less what stays open of the channel: 1 wide from
  // the floor's coating at 1.5 to the top edge at 6, and above it 1 + 2 (0.5 - x) between the rims.
  const double box = 24 + 20 * 0.5 + pi * 0.25;
  CHECK(area(open[0]) == exactly(box - 1 * 4.5 - (2 * 0.5 - 2 * pi / 4 * 0.25)));
  require_sound(open[0], 0.5);
  // A rim narrowed by lips: their coatings meet, the chamber behind stays as a pocket.
  const std::array jar{Point{1, 0},   Point{7, 0},   Point{7, 6},   Point{4.3, 6},
                       Point{4.3, 5}, Point{6, 5},   Point{6, 1},   Point{2, 1},
                       Point{2, 5},   Point{3.7, 5}, Point{3.7, 6}, Point{1, 6}};
  const auto shut = offset(polygon(jar), 0.5);
  REQUIRE(shut.size() == 2);
  for (const Outline& loop : shut)
    require_sound(loop, 0.5);
  CHECK(relation(shut[1], shut[0]) == Relation::inside);
  // Chamber 4 x 4 less 0.5 all round is 3 x 3; in the middle of its top the lips' edges, 0.6
  // apart, curve upward: the gap between two quarter circles of radius 0.5 up to where they meet.
  const double rise = std::sqrt(0.25 - 0.09);
  const double sector = 0.5 * 0.25 * std::atan2(0.3, rise) + 0.5 * 0.3 * rise;
  CHECK(area(shut[1]) == exactly(9 + 2 * (0.5 * 0.3 - sector)));
  CHECK(offset(polygon(jar), 2.1).size() == 1);
}

TEST_CASE("a channel just as wide as its coating closes without a seam", "[offset]")
{
  const auto shut = offset(polygon(channel), 1);
  REQUIRE(shut.size() == 1);
  require_sound(shut[0], 1);
  // The rounded box less the nook above the two rims, which meet in a cusp.
  CHECK(area(shut[0]) == exactly(24 + 20 + pi - (2 - 2 * pi / 4)));
  CHECK(shut[0].size() == 11); // bottom, two sides, two rims, six corners
}

TEST_CASE("lips whose coatings just touch leave a pocket of its own", "[offset]")
{
  const std::array bottle{Point{1, 0}, Point{7, 0}, Point{7, 6}, Point{4.5, 5.5}, Point{6, 5},
                          Point{6, 1}, Point{2, 1}, Point{2, 5}, Point{3.5, 5.5}, Point{1, 6}};
  const auto touching = offset(polygon(bottle), 0.5);
  REQUIRE(touching.size() == 2);
  for (const Outline& loop : touching)
    require_sound(loop, 0.5);
  CHECK(relation(touching[1], touching[0]) == Relation::inside);
  CHECK(offset(polygon(bottle), 0.499).size() == 1);
  CHECK(offset(polygon(bottle), 0.501).size() == 2);
}

TEST_CASE("a side hardly hollow, or cut by a curve that is not kept, stays simple", "[offset]")
{
  for (double dent : {1e-8, 1e-6, 1e-5, 1e-4, 1e-2})
  {
    CAPTURE(dent);
    const std::array bent{Point{1, 0}, Point{5, 0}, Point{5 - dent, 5}, Point{5, 10}, Point{1, 10}};
    const auto loops = offset(polygon(bent), 2);
    REQUIRE(loops.size() == 1);
    require_sound(loops[0], 2);
    CHECK(loops[0].size() <= 10);
  }
}

TEST_CASE("a corner whose coating just reaches the axis has a point there", "[offset]")
{
  const std::array diamond{Point{1, 0}, Point{3, -2}, Point{5, 0}, Point{3, 2}};
  const auto loops = offset(polygon(diamond), 1);
  REQUIRE(loops.size() == 1);
  require_sound(loops[0], 1);
  CHECK(loops[0].size() == 9); // four sides, four corners, one of them in two
  CHECK(area(loops[0]) == exactly(8 + 4 * std::sqrt(8.0) + pi));
}

TEST_CASE("a thin coating far from the origin keeps its shape", "[offset]")
{
  for (double ratio = 0.1; ratio < 1e8; ratio *= 1.7)
  {
    const double z = 1.0 / 3;
    const double t = z / ratio;
    CAPTURE(ratio);
    const auto loops = offset(rectangle(0.1, 0.1 + 4 * t, z, z + 9 * t), t);
    REQUIRE(loops.size() == 1);
    CHECK(loops[0].size() == 8);
    require_sound(loops[0], t);
  }
}
