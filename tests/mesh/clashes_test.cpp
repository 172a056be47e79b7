// Which bodies of a scene clash, each pair by name, and which may touch or nest.
#include "bodies.hpp"

#include "mesh/layout.hpp"

#include <catch2/catch.hpp>

using namespace mesh;
using namespace bodies;

namespace
{

/// Whether exactly this pair clashes.
bool only_clash(const Scene& scene, const std::string& first, const std::string& second)
{
  const std::vector<Clash> found = clashes(scene);
  return found.size() == 1 && found[0].first == first && found[0].second == second;
}

} // namespace

TEST_CASE("nested and touching parts are no clash", "[clashes]")
{
  CHECK(clash_free({{rod("a", 10, 100), tube("b", 10, 12, 100)}, {}}));
  CHECK(clash_free({{rod("a", 10, 100), rod("b", 10, 20, 60)}, {}}));
  CHECK(clash_free({{rod("a", 10, 100), rod("b", 5, 20, 40)}, {}}));
  CHECK(clash_free({{rod("a", 10, 100), tube("b", 10.01, 12, 100)}, {}}));
  CHECK(clash_free({{coated(rod("a", 10, 100), 1), tube("b", 12, 14, 80)}, {}})); // on the coating
  CHECK(clash_free({{coated(rod("a", 10, 100), 1), rod("b", 20, 110)}, {}}));     // coated in b
  CHECK(clash_free({{coated(rod("a", 10, 100), 3), tube("b", 11, 12, 50)}, {}})); // in the coating
  CHECK(clash_free({{Part{"a", Ring{20, 4}, "core"}, Part{"b", Ring{28, 4}, "core"}}, {}}));
}

TEST_CASE("partly overlapping and doubled parts are named", "[clashes]")
{
  CHECK(only_clash({{rod("a", 10, 100), rod("b", 10, 100)}, {}}, "a", "b"));
  CHECK(only_clash({{rod("a", 10, 100), rod("b", 8, 100, 20)}, {}}, "a", "b"));
  CHECK(only_clash({{rod("a", 10, 100), tube("b", 9.99, 12, 100.1)}, {}}, "a", "b"));
  CHECK(
      only_clash({{rod("a", 10, 100), tube("c", 20, 22, 9), tube("b", 8, 12, 100)}, {}}, "a", "b"));
  CHECK(only_clash({{coated(rod("a", 10, 100), 3), tube("b", 9, 11, 50)}, {}}, "a", "b"));
  // Coatings count: into a neighbour, out of the body around, equal to a neighbour.
  CHECK(only_clash({{coated(rod("a", 10, 100), 1), tube("b", 11, 14, 80)}, {}}, "a", "b"));
  CHECK(only_clash({{rod("b", 20, 101), coated(rod("a", 10, 100), 1)}, {}}, "b", "a"));
  CHECK(only_clash({{coated(rod("a", 4, 10), 1), coated(rod("b", 4, 10, 11.9), 1)}, {}}, "a", "b"));
  CHECK(clash_free({{coated(rod("a", 4, 10), 1), coated(rod("b", 4, 10, 12), 1)}, {}}));
  const Part thin{"a", Ring{20, 4}, "core"};
  const Part thick{"b", Ring{20, 5}, "core"};
  CHECK(only_clash({{coated(thin, 0.5), thick}, {}}, "a", "b"));
  CHECK(only_clash({{coated(thin, 0.5), coated(thick, 0.5)}, {}}, "a", "b"));
  // A body around another one within that one's coating would cut the coating off.
  CHECK(only_clash({{coated(rod("a", 10, 100), 3), rod("b", 12, 102)}, {}}, "a", "b"));
  // A body in the air pocket of a coated jar may not reach into the coating.
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
  const Part shut = coated({"jar", jar, "core"}, 0.5);
  CHECK(clash_free({{shut, tube("b", 6, 10, 2, 3)}, {}}));
  CHECK(only_clash({{shut, tube("b", 4.5, 10, 2, 3)}, {}}, "jar", "b"));
}

TEST_CASE("windings may lie in or beside parts, not across them", "[clashes]")
{
  CHECK(clash_free({{rod("core", 10, 100)}, {block(10, 14, 50)}}));
  CHECK(clash_free({{rod("core", 20, 100)}, {block(10, 14, 50)}}));
  CHECK(only_clash({{rod("core", 11, 100)}, {block(10, 14, 50)}}, "core", "coil"));
  CHECK(only_clash({{tube("core", 11, 12, 10)}, {block(10, 14, 50)}}, "core", "coil"));
  CHECK(only_clash({{tube("core", 10, 14, 50)}, {block(10, 14, 50)}}, "core", "coil"));
  CHECK(only_clash({{coated(rod("core", 10, 100), 1)}, {block(11, 14, 50)}}, "core", "coil"));
  CHECK(clash_free({{coated(rod("core", 10, 100), 1)}, {block(12, 14, 50)}}));
}

TEST_CASE("sheets may follow a surface, not cross it", "[clashes]")
{
  CHECK(clash_free({{rod("core", 10, 100)}, {block(10, 10, 50)}}));
  CHECK(clash_free({{rod("core", 10, 100)}, {block(10, 10, 150)}})); // on the surface and beyond
  CHECK(clash_free({{rod("core", 10, 100)}, {block(8, 8, 50)}}));
  CHECK(clash_free({{rod("core", 10, 100)}, {block(8, 8, 100)}})); // from face to face
  CHECK(only_clash({{rod("core", 10, 100)}, {block(8, 8, 101)}}, "core", "coil"));
  CHECK(only_clash({{coated(rod("core", 10, 100), 1)}, {block(10.5, 10.5, 104)}}, "core", "coil"));
}

TEST_CASE("windings share no place", "[clashes]")
{
  const Winding coil = block(10, 14, 50);
  CHECK(clash_free({{}, {coil, named(block(14, 16, 50), "outer")}}));
  CHECK(only_clash({{}, {coil, named(block(13, 16, 50), "outer")}}, "coil", "outer"));
  CHECK(only_clash({{}, {coil, named(block(11, 13, 10), "outer")}}, "coil", "outer"));
  CHECK(only_clash({{}, {coil, named(block(12, 12, 90), "sheet")}}, "coil", "sheet"));
  CHECK(only_clash({{}, {named(block(12, 12, 90), "sheet"), coil}}, "sheet", "coil"));
  CHECK(clash_free({{}, {coil, named(block(14, 14, 90), "sheet")}}));
  CHECK(only_clash({{}, {block(9, 9, 10), named(block(9, 9, 10, 5), "b")}}, "coil", "b"));
  CHECK(clash_free({{}, {block(9, 9, 10), named(block(9, 9, 10, 10), "b")}})); // end to end
  CHECK(only_clash({{}, {round(10, 1, 12), named(round(10, 1, 12.5), "b")}}, "coil", "b"));
  CHECK(clash_free({{}, {round(10, 1, 12), named(round(10, 1, 13.4), "b")}}));
}

TEST_CASE("turns count with their insulation and coating", "[clashes]")
{
  CHECK(clash_free({{rod("core", 12, 100)}, {round(10, 2, 12)}}));
  CHECK(clash_free({{tube("sleeve", 13.4, 16, 100)}, {round(10, 1, 12)}}));
  CHECK(only_clash({{tube("sleeve", 13.3, 16, 100)}, {round(10, 1, 12)}}, "sleeve", "coil"));
  CHECK(
      only_clash({{tube("sleeve", 13.4, 16, 100)}, {round(10, 1, 12, 0, 0.1)}}, "sleeve", "coil"));
  CHECK(clash_free({{}, {round(10, 1, 12, 0.7)}}));
  CHECK(only_clash({{}, {round(10, 1, 12, 0.69)}}, "coil", "coil"));
  CHECK(only_clash({{}, {round(10, 1, 12, 0.7, 0.1)}}, "coil", "coil"));
}

TEST_CASE("a thousand coated turns are checked", "[clashes]")
{
  const Scene scene{{rod("core", 12, 200), coated(tube("sleeve", 40, 44, 200), 1)},
                    {round(1000, 4, 12, 0, 0.1), named(round(1000, 4, 30), "outer")}};
  CHECK(clash_free(scene));
  CHECK(layout(scene).conductors.size() == 2000);
}
