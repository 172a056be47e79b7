// Which layouts are their own mirror image, and the half that is meshed of them.
#include "core_scenes.hpp"
#include "whole.hpp"

#include "mesh/mesher.hpp"
#include "mesh/mirror.hpp"
#include "mesh/refine.hpp"

using namespace mesh;
using scenes::mm;

namespace
{

Scene rod_in_coil(double shift)
{
  return {{{"rod", Rod{10 * mm, 100 * mm}, "m", 7 * mm + shift}},
          {{"coil", 100.0, Block{12 * mm, 14 * mm, 60 * mm}, 7 * mm}}};
}

Mesh half_of(const Scene& scene)
{
  return coarse_mesh(layout(scene), Portion::half_if_mirrored);
}

double volume(const Mesh& mesh)
{
  return volume_of(mesh, [](const Triangle&) { return true; });
}

} // namespace

TEST_CASE("a scene is mirrored where every body and winding is, to 1e-12 of its size", "[mirror]")
{
  CHECK(half_of(rod_in_coil(0.0)).box.halved);
  CHECK(half_of(rod_in_coil(1e-14)).box.halved);
  CHECK_FALSE(half_of(rod_in_coil(1e-9)).box.halved);
  CHECK_FALSE(half_of(rod_in_coil(5 * mm)).box.halved);
  CHECK_FALSE(coarse_mesh(layout(rod_in_coil(0.0))).box.halved); // whole unless asked
  // Two windings that are each other's image are not each their own.
  Scene pair{{},
             {{"up", 10.0, Block{12 * mm, 14 * mm, 5 * mm}, 10 * mm},
              {"down", 10.0, Block{12 * mm, 14 * mm, 5 * mm}, -10 * mm}}};
  CHECK_FALSE(half_of(pair).box.halved);
  // Nor are two bodies, although they may be of one material.
  Scene bodies{
      {{"up", Rod{5 * mm, 5 * mm}, "m", 10 * mm}, {"down", Rod{5 * mm, 5 * mm}, "m", -10 * mm}},
      {{"coil", 10.0, Block{12 * mm, 14 * mm, 5 * mm}}}};
  CHECK_FALSE(half_of(bodies).box.halved);
}

TEST_CASE("turns drawn one by one are mirrored where their layers are", "[mirror]")
{
  Winding coil{"coil", 6.0, RoundTurns{}, 3 * mm};
  auto& turns = std::get<RoundTurns>(coil.build);
  turns.inner_diameter = 20 * mm;
  turns.wire_diameter = 1 * mm;
  turns.insulation = 0.1 * mm;
  turns.pitch = 1.5 * mm;
  turns.layers = 2;
  turns.coating = Coating{"m", 0.1 * mm};
  CHECK(half_of({{}, {coil}}).box.halved);
  coil.turns = 5.0; // three and two: the outer layer is centred on the inner one
  CHECK(half_of({{}, {coil}}).box.halved);
}

TEST_CASE("half a mesh is sound and holds half of every volume, coarse and refined", "[mirror]")
{
  int halved = 0;
  for (const auto& one : scenes::all())
  {
    CAPTURE(one.name);
    const Layout l = layout(one.scene);
    Mesh half = coarse_mesh(l, Portion::half_if_mirrored);
    if (!half.box.halved)
      continue;
    ++halved;
    const Mesh full = coarse_mesh(l);
    for (int round = 0; round < 2; ++round)
    {
      require_whole(whole(half));
      CHECK(outer_length(half) == Approx(0.5 * outer_length(full)).epsilon(1e-12));
      CHECK(volume(half) == Approx(0.5 * volume(full)).epsilon(1e-12));
      for (int g = 1; g < static_cast<int>(l.regions.size()); ++g)
      {
        CHECK(volume_of_region(half, g) == Approx(0.5 * volume_of_region(full, g)).epsilon(1e-10));
        CHECK(volume_of_region(whole(half), g) == Approx(volume_of_region(full, g)).epsilon(1e-10));
      }
      for (const Vertex& v : half.vertices)
        CHECK(v.z >= half.box.middle);
      Marks marks{std::vector<int>(half.triangles.size(), 1),
                  std::vector<int>(half.vertices.size(), 0)};
      half = refined(half, marks);
    }
  }
  CHECK(halved >= 4);
}

TEST_CASE("a surface that crosses the mirror straight leaves no corner there", "[mirror]")
{
  const Mesh half = half_of(rod_in_coil(0.0));
  int on_plane = 0, corners = 0;
  for (std::size_t v = 0; v < half.vertices.size(); ++v)
    if (on_mirror(half.box, half.vertices[v]))
    {
      ++on_plane;
      corners += half.corner[v] != Corner::none;
    }
  CHECK(on_plane >= 5); // axis, rod, both sides of the coil, box
  CHECK(corners == 0);
}
