// Scene -> Layout: regions, air pockets and conductors, and the places of turns.
#include "bodies.hpp"

#include "mesh/layout.hpp"
#include "mesh/piece.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <map>
#include <numbers>

using namespace mesh;
using namespace bodies;

namespace
{

constexpr double pi = std::numbers::pi;

std::vector<int> turns_by_layer(const Winding& winding)
{
  std::map<long, int> layers;
  for (Point centre : turn_centres(winding))
    ++layers[std::lround(centre.r * 1e6)];
  std::vector<int> counts;
  for (auto [radius, count] : layers)
    counts.push_back(count);
  return counts;
}

} // namespace

TEST_CASE("shapes get the outlines they are called", "[layout]")
{
  // Elementary solids.
  CHECK(volume(outline(rod("a", 10, 100, 7))) == Approx(pi * 25 * 100));
  CHECK(volume(outline(tube("a", 6, 10, 100))) == Approx(pi * 16 * 100));
  CHECK(volume(outline(Part{"a", Ring{20, 4}, "core"})) == Approx(2 * pi * 10 * pi * 4));
  CHECK(volume(outline(Part{"a", Ring{0, 4}, "core"})) == Approx(4.0 / 3 * pi * 8));
  const Part cone{"a", Profile{{{0, 0}, {0, 4}, {3, 0}}}, "core", 10};
  CHECK(volume(outline(cone)) == Approx(pi * 9 * 4 / 3));
  CHECK(extent(outline(cone)).low.z == Approx(10));
  CHECK(extent(outline(rod("a", 10, 100, 7))).high.z == Approx(57));
}

TEST_CASE("a coated part brings its region and its coating's", "[layout]")
{
  const Layout result =
      layout({{coated(rod("core", 10, 100), 0.5), tube("sleeve", 20, 22, 50)}, {}});
  REQUIRE(result.regions.size() == 4);
  CHECK(result.regions[0].name == "air");
  CHECK(result.regions[0].outlines.empty());
  CHECK(result.regions[1].name == "core");
  CHECK(result.regions[1].material == "core");
  CHECK(result.regions[2].name == "core.coating");
  CHECK(result.regions[2].material == "dust");
  CHECK(result.regions[3].name == "sleeve");
  REQUIRE(result.regions[2].outlines.size() == 1);
  CHECK(relation(result.regions[1].outlines[0], result.regions[2].outlines[0]) == Relation::inside);
  CHECK(extent(result.regions[2].outlines[0]).high.r == Approx(5.5));
}

TEST_CASE("a hollow closed by a coating is a pocket of air", "[layout]")
{
  const Profile jar{{{1, 0},
                     {7, 0},
                     {7, 6},
                     {4.3, 6},
                     {4.3, 5},
                     {6, 5},
                     {6, 1},
                     {2, 1},
                     {2, 5},
                     {3.7, 5},
                     {3.7, 6},
                     {1, 6}}};
  const Layout result = layout({{coated({"jar", jar, "core"}, 0.5)}, {}});
  REQUIRE(result.regions[0].outlines.size() == 1);
  CHECK(relation(result.regions[0].outlines[0], result.regions[2].outlines[0]) == Relation::inside);
  CHECK(relation(result.regions[0].outlines[0], result.regions[1].outlines[0]) == Relation::apart);
}

TEST_CASE("block windings become one section, thin ones a sheet", "[layout]")
{
  const Layout thick = layout({{}, {block(12, 14, 100, 5)}});
  REQUIRE(thick.conductors.size() == 1);
  const auto& section = std::get<BlockSection>(thick.conductors[0].section);
  CHECK(thick.conductors[0].turns == 100);
  CHECK(section.r_inner == Approx(6));
  CHECK(section.r_outer == Approx(7));
  CHECK(section.z_low == Approx(-45));
  CHECK(section.z_high == Approx(55));
  CHECK(thick.regions[0].outlines.empty());
  const Layout thin = layout({{}, {block(8, 8, 10), named(block(12, 12, 100), "outer")}});
  REQUIRE(thin.conductors.size() == 2);
  CHECK(std::get<SheetSection>(thin.conductors[1].section).r == Approx(6));
  CHECK(thin.conductors[1].winding == 1);
  CHECK(outline(thin.conductors[1]).empty());
}

TEST_CASE("a block winding within a part or coating is an air pocket there", "[layout]")
{
  CHECK(layout({{tube("pot", 4, 40, 40)}, {block(12, 14, 10)}}).regions[0].outlines.size() == 1);
  CHECK(layout({{rod("core", 10, 40)}, {block(12, 14, 10)}}).regions[0].outlines.empty());
  const Layout result = layout({{coated(rod("core", 10, 40), 5)}, {block(12, 14, 10)}});
  REQUIRE(result.regions[0].outlines.size() == 1);
  CHECK(area(result.regions[0].outlines[0]) == Approx(10));
}

TEST_CASE("coated turns bring a coating, an air pocket and a section each", "[layout]")
{
  const Layout result = layout({{}, {round(10, 2, 12, 0, 0.2)}});
  REQUIRE(result.conductors.size() == 10);
  REQUIRE(result.regions.size() == 2);
  CHECK(result.regions[1].name == "coil.coating");
  REQUIRE(result.regions[1].outlines.size() == 10);
  REQUIRE(result.regions[0].outlines.size() == 10);
  // Wire radius 0.25, insulation 0.1, coating 0.2.
  CHECK(area(outline(result.conductors[0])) == Approx(pi * 0.25 * 0.25));
  CHECK(area(result.regions[0].outlines[0]) == Approx(pi * 0.35 * 0.35));
  CHECK(area(result.regions[1].outlines[0]) == Approx(pi * 0.55 * 0.55));
  CHECK(result.conductors[0].turns == 1);
}

TEST_CASE("bare turns are pockets only where they lie in material", "[layout]")
{
  CHECK(layout({{}, {round(10, 1, 12)}}).regions[0].outlines.empty());
  // Turns 0.7 thick from z = -3.5 to 3.5; the rod of 14 reaches up to z = 0: half of them lie in
  // it.
  const Scene scene{{rod("core", 14, 20, -10)}, {round(10, 1, 12)}};
  CHECK(clash_free(scene));
  CHECK(layout(scene).regions[0].outlines.size() == 5);
}

TEST_CASE("turns stack square, the outermost layer holds what is left", "[turns]")
{
  using Counts = std::vector<int>;
  CHECK(turns_by_layer(round(10, 3, 12)) == Counts{4, 4, 2});
  CHECK(turns_by_layer(round(100, 2, 12)) == Counts{50, 50});
  CHECK(turns_by_layer(round(7, 3, 12)) == Counts{3, 3, 1});
  CHECK(turns_by_layer(round(4, 3, 12)) == Counts{2, 1, 1});
  CHECK(turns_by_layer(round(11, 5, 12)) == Counts{3, 2, 2, 2, 2});
  CHECK(turns_by_layer(round(1, 1, 12)) == Counts{1});
  const auto centres = turn_centres(round(10, 3, 12));
  CHECK(centres[0].r == Approx(6.35)); // on a former of radius 6, wire and insulation 0.7 thick
  CHECK(centres[0].z == Approx(-1.05));
  CHECK(centres[3].z == Approx(1.05));
  CHECK(centres[4].r == Approx(7.05));
  CHECK(centres[8].z == Approx(-0.35));
  CHECK(centres[9].r == Approx(7.75));
  CHECK(full_diameter(std::get<RoundTurns>(round(10, 3, 12, 0, 0.2).build)) == Approx(1.1));
  const auto spaced = turn_centres(round(2, 1, 12, 3));
  CHECK(spaced[1].z - spaced[0].z == Approx(3));
  CHECK_THROWS_AS(turn_centres(round(0, 1, 12)), std::invalid_argument);
}
