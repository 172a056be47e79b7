// Random bodies and turns, touching or apart: meshed without a fold, and refined.
#include "core_scenes.hpp"
#include "whole.hpp"

#include "mesh/refine.hpp"

#include <random>

using namespace mesh;

namespace
{

Marks random_marks(const Mesh& mesh, std::mt19937& random)
{
  Marks marks{std::vector<int>(mesh.triangles.size(), 0),
              std::vector<int>(mesh.vertices.size(), 0)};
  for (std::size_t k = 0; k < marks.halvings.size(); ++k)
    marks.halvings[k] = random() % 6 == 0 ? 1 + static_cast<int>(random() % 2) : 0;
  for (std::size_t v = 0; v < marks.layers.size(); ++v)
    if (mesh.corner[v] != Corner::none && random() % 2 == 0)
      marks.layers[v] = 1 + static_cast<int>(random() % 3);
  return marks;
}

} // namespace

TEST_CASE("touching turns of any size and number are meshed and refined", "[refine]")
{
  // Half of these found no mesh while only the folded triangle's own arc was cut, and while circles
  // that overlap by round-off counted as crossing.
  std::mt19937 random(5);
  for (const int layers : {1, 2})
    for (const double count : {2.0, 3.0, 5.0, 8.0})
      for (const double inner : {0.2, 2.0, 9.0, 100.0})
      {
        CAPTURE(layers, count, inner);
        Winding winding = scenes::turns(Strand::fine);
        std::get<RoundTurns>(winding.build).layers = layers;
        std::get<RoundTurns>(winding.build).inner_diameter = inner * scenes::mm;
        winding.turns = count;
        Mesh mesh = coarse_mesh(layout({{}, {winding}}));
        require_whole(mesh);
        mesh = refined(mesh, random_marks(mesh, random));
        require_whole(mesh);
        // Triangles a turn: enough for the cusps, not a flood.
        CHECK(static_cast<double>(mesh.triangles.size()) < 600.0 * count);
      }
}

TEST_CASE("random scenes are meshed and refined without a fold", "[refine]")
{
  std::mt19937 random(2024);
  const auto between = [&](double low, double high)
  { return low * std::pow(high / low, std::uniform_real_distribution<>(0, 1)(random)); };
  for (int trial = 0; trial < 20; ++trial)
  {
    const double r = between(1e-3, 2e-2), length = between(0.1, 20) * r;
    Scene scene;
    Part body{"core", Rod{2 * r, length}, "core", 0.0, std::nullopt};
    if (trial % 3 == 1)
      body.shape = Ring{2 * between(1.01, 5) * r, 2 * r};
    if (trial % 3 == 2)
      body.shape = Tube{2 * between(0.05, 0.9) * r, 2 * r, length};
    if (trial % 2 == 0)
      body.coating = Coating{"dust", between(1e-3, 0.9) * r};
    const double reach =
        2 * extent(outline(body)).high.r + (body.coating ? 2 * body.coating->thickness : 0.0);
    const RoundTurns wire{.wire_diameter = between(0.05, 0.5) * r,
                          .inner_diameter = reach + between(1e-3, 1.0) * r,
                          .layers = 1,
                          .pitch = 0.0,
                          .insulation = 0.0};
    Winding coil{"coil", 3, wire, 0.0};
    std::get<RoundTurns>(coil.build).pitch = wire.wire_diameter * (trial % 2 ? 1.0 : 1.3);
    scene = {{body}, {coil}};
    CAPTURE(trial, r, length);
    Mesh mesh = coarse_mesh(layout(scene));
    require_whole(mesh);
    require_whole(refined(mesh, random_marks(mesh, random)));
  }
}
