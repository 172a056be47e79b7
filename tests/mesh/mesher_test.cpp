// The coarse mesh: whole, with every body's and every section's volume where it belongs.
#include "core_scenes.hpp"
#include "whole.hpp"

#include "mesh/skeleton.hpp"
#include "mesh/triangulation.hpp"

#include <algorithm>

using namespace mesh;
using scenes::mm;
using scenes::pi;

namespace
{

int region_index(const Layout& layout, const std::string& name)
{
  for (std::size_t g = 0; g < layout.regions.size(); ++g)
    if (layout.regions[g].name == name)
      return static_cast<int>(g);
  FAIL("no region " << name);
  return -1;
}

/// Volume of a region by name, in mm^3.
double volume_mm3(const Mesh& made, const Layout& layout, const std::string& name)
{
  return volume_of_region(made, region_index(layout, name)) / (mm * mm * mm);
}

/// Volume of a coating about a rod of diameter d, length l: S t + M t^2 + 4 pi t^3 / 3, S its
/// surface and M = pi l + pi^2 d / 2 its integral of mean curvature [Steiner 1840].
double rod_coating(double d, double l, double t)
{
  const double S = pi * d * d / 2 + pi * d * l, M = pi * l + pi * pi * d / 2;
  return S * t + M * t * t + 4.0 / 3.0 * pi * t * t * t;
}

} // namespace

TEST_CASE("every coarse mesh is whole and fills its box", "[mesher]")
{
  for (const scenes::Named& one : scenes::all())
  {
    CAPTURE(one.name);
    const Mesh made = coarse_mesh(layout(one.scene));
    require_whole(made);
    CHECK(outer_length(made) ==
          Approx(2 * made.box.radius + 2 * made.box.half_height).epsilon(1e-12));
    CHECK(volume_of(made, [](const Triangle&) { return true; }) ==
          Approx(pi * made.box.radius * made.box.radius * 2 * made.box.half_height).epsilon(1e-12));
  }
}

TEST_CASE("each conductor's triangles fill its section and nothing else", "[mesher]")
{
  for (const scenes::Named& one : scenes::all())
  {
    CAPTURE(one.name);
    const Layout l = layout(one.scene);
    const Mesh made = coarse_mesh(l);
    for (std::size_t c = 0; c < l.conductors.size(); ++c)
    {
      const int index = static_cast<int>(c);
      const auto* sheet = std::get_if<SheetSection>(&l.conductors[c].section);
      const double expected = sheet ? 0.0 : volume(outline(l.conductors[c]));
      // Arcs are followed to 1e-13 of their radius.
      CHECK(volume_of_conductor(made, index) == Approx(expected).epsilon(1e-11));
      double length = 0.0;
      for (const auto& [e, owner] : made.sheets)
        if (owner == index)
        {
          CHECK(made.vertices[e.a].r() == Approx(sheet->r).epsilon(1e-14));
          length += std::abs(made.vertices[e.a].z - made.vertices[e.b].z);
        }
      CHECK(length == Approx(sheet ? sheet->z_high - sheet->z_low : 0.0).epsilon(1e-13));
    }
    CHECK(std::all_of(made.triangles.begin(), made.triangles.end(),
                      [](const Triangle& t) { return t.conductor < 0 || t.region == 0; }));
  }
}

TEST_CASE("a coating of a rod has Steiner's volume", "[mesher]")
{
  Scene scene{{scenes::rod(6, 20)}, {scenes::block(10, 10, 10, 40)}};
  scene.parts[0].coating = Coating{"dust", 0.5 * mm};
  const Layout l = layout(scene);
  const Mesh made = coarse_mesh(l);
  CHECK(volume_mm3(made, l, "core") == Approx(pi * 9 * 20).epsilon(1e-12));
  CHECK(volume_mm3(made, l, "core.coating") == Approx(rod_coating(6, 20, 0.5)).epsilon(1e-11));
}

TEST_CASE("a coated ring has Pappus's volumes", "[mesher]")
{
  // 2 pi R times the section's area [Pappus]: pi 2^2 and pi (2.5^2 - 2^2) about R = 8.
  Scene scene{{{"core", Ring{16 * mm, 4 * mm}, "core", 3 * mm, Coating{"dust", 0.5 * mm}}}, {}};
  const Layout l = layout(scene);
  const Mesh made = coarse_mesh(l);
  CHECK(volume_mm3(made, l, "core") == Approx(2 * pi * 8 * pi * 4).epsilon(1e-11));
  CHECK(volume_mm3(made, l, "core.coating") == Approx(2 * pi * 8 * pi * 2.25).epsilon(1e-11));
}

TEST_CASE("of nested bodies the innermost wins, touching ones keep apart", "[mesher]")
{
  // Rod of 6 x 20 in a rod of 10 x 30; a collar in its end; a tube and a rod that touch it.
  Scene scene{{{"shell", Rod{10 * mm, 30 * mm}, "dust", 0.0, std::nullopt},
               scenes::rod(6, 20),
               {"collar", Tube{6 * mm, 9 * mm, 4 * mm}, "dust", 12 * mm, std::nullopt},
               {"sleeve", Tube{10 * mm, 12 * mm, 12 * mm}, "dust", 0.0, std::nullopt},
               {"cap", Rod{10 * mm, 2 * mm}, "core", 16 * mm, std::nullopt}},
              {}};
  const Layout l = layout(scene);
  const Mesh made = coarse_mesh(l);
  require_whole(made);
  const double core = pi * 9 * 20, collar = pi * (20.25 - 9) * 4;
  CHECK(volume_mm3(made, l, "core") == Approx(core).epsilon(1e-12));
  CHECK(volume_mm3(made, l, "collar") == Approx(collar).epsilon(1e-12));
  CHECK(volume_mm3(made, l, "shell") == Approx(pi * 25 * 30 - core - collar).epsilon(1e-12));
  CHECK(volume_mm3(made, l, "sleeve") == Approx(pi * (36 - 25) * 12).epsilon(1e-12));
  CHECK(volume_mm3(made, l, "cap") == Approx(pi * 25 * 2).epsilon(1e-12));
}

TEST_CASE("coated turns that touch each other keep their copper and their coating", "[mesher]")
{
  // Discs of wire 1 mm in coats of 0.5 mm, pitch 2 mm: copper pi/4, coat pi (1 - 1/4) about each
  // centre, whose radii are 5.5 and 7.5 mm in two layers of 3 and 2.
  const Layout l = layout({{}, {scenes::turns(Strand::fine, Coating{"dust", 0.5 * mm})}});
  const Mesh made = coarse_mesh(l);
  require_whole(made);
  REQUIRE(l.conductors.size() == 5);
  const double round = 2 * pi * (3 * 5.5 + 2 * 7.5);
  CHECK(volume_mm3(made, l, "turns.coating") == Approx(round * pi * 0.75).epsilon(1e-11));
  CHECK(volume_of(made, [](const Triangle& t) { return t.conductor >= 0; }) / (mm * mm * mm) ==
        Approx(round * pi * 0.25).epsilon(1e-11));
}

TEST_CASE("corners are marked where bodies turn and where they touch, and nowhere else", "[mesher]")
{
  const auto count = [](const Scene& scene, Corner kind)
  {
    const Mesh made = coarse_mesh(layout(scene));
    return std::count(made.corner.begin(), made.corner.end(), kind);
  };
  const Scene plain{{scenes::rod(6, 20)}, {scenes::block(8, 11, 12, 30)}};
  CHECK(count(plain, Corner::angle) == 6);
  CHECK(count(plain, Corner::touch) == 0);
  const Scene ring{{{"core", Ring{16 * mm, 4 * mm}, "core", 0.0, std::nullopt}}, {}};
  CHECK(count(ring, Corner::angle) == 0);
  CHECK(count(ring, Corner::touch) == 0);
  // 3 over 2 touching turns, shifted by half a pitch, layers stacked square: only within layers.
  CHECK(count({{}, {scenes::turns(Strand::fine)}}, Corner::touch) == 3);
  CHECK(count({{}, {scenes::turns(Strand::fine)}}, Corner::angle) == 0);
}

TEST_CASE("the triangulation holds every segment of the skeleton, uncut", "[mesher]")
{
  for (const scenes::Named& one : scenes::all())
  {
    CAPTURE(one.name);
    const Skeleton lines = skeleton(layout(one.scene), 20.0, {});
    const Triangulation made = triangulation(lines);
    EdgeMap<int> sides;
    for (const auto& t : made.triangles)
      for (int i = 0; i < 3; ++i)
        ++sides[edge(t[i], t[(i + 1) % 3])];
    int missing = 0;
    for (const auto* list : {&lines.kept, &lines.outline})
      for (const Segment& s : *list)
        missing += !sides.contains(edge(s.a, s.b));
    CHECK(missing == 0);
    for (std::size_t n = 0; n < lines.nodes.size(); ++n)
      CHECK((made.points[n].r == lines.nodes[n].r && made.points[n].z == lines.nodes[n].z));
  }
}

TEST_CASE("a layout without any curve cannot be meshed", "[mesher]")
{
  CHECK_THROWS_AS(coarse_mesh(layout(Scene{})), std::invalid_argument);
}
