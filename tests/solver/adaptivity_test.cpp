// How a solution begins: layers at corners without a solution spent on finding them.
#include "solver/adaptivity.hpp"

#include "mesh/mesher.hpp"
#include "mesh/refine.hpp"
#include "solver/form.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

namespace
{

constexpr double mm = 1e-3;

mesh::Layout wound_rod()
{
  mesh::Scene scene;
  scene.parts.push_back({"rod", mesh::Rod{10 * mm, 40 * mm}, "core"});
  scene.windings.push_back({"coil", 100.0, mesh::Block{14 * mm, 18 * mm, 20 * mm}});
  return mesh::layout(scene);
}

/// The least distance along the axis of another vertex at the same radius [m]; the distance along
/// r would be another, edges are cut at their ratio in r^2.
double nearest(const mesh::Mesh& mesh, mesh::Point corner)
{
  double least = 1.0;
  for (const mesh::Vertex& v : mesh.vertices)
    if (std::abs(v.r() - corner.r) < 1e-9 && std::abs(v.z - corner.z) > 1e-9)
      least = std::min(least, std::abs(v.z - corner.z));
  return least;
}

/// The meshes solve() is called with; the first `folding` of them fold.
std::vector<mesh::Mesh> solved(const mesh::Mesh& coarse, double accuracy, int folding = 0)
{
  std::vector<mesh::Mesh> meshes;
  const std::vector<double> contrast{1.0, 500.0};
  solver::solved_graded(coarse, contrast, accuracy,
                        [&](const mesh::Mesh& mesh)
                        {
                          meshes.push_back(mesh);
                          if (static_cast<int>(meshes.size()) <= folding)
                            throw solver::FoldedElement();
                        });
  return meshes;
}

} // namespace

TEST_CASE("corners get a layer at 1e-4 and two at 1e-6, a section's corners one less",
          "[adaptivity]")
{
  // Half of it, so that no edge joins two corners.
  const mesh::Mesh coarse = mesh::coarse_mesh(wound_rod(), mesh::Portion::half_if_mirrored);
  const mesh::Point rod{5 * mm, 20 * mm}, coil{9 * mm, 10 * mm};
  const double at_rod = nearest(coarse, rod), at_coil = nearest(coarse, coil);
  struct Row
  {
    double accuracy;
    int rod, coil;
  };
  for (const Row& row : {Row{1e-2, 0, 0}, Row{1e-3, 0, 0}, Row{1e-4, 1, 0}, Row{1e-6, 2, 1}})
  {
    const std::vector<mesh::Mesh> meshes = solved(coarse, row.accuracy);
    REQUIRE(meshes.size() == 1);
    CAPTURE(row.accuracy);
    CHECK(nearest(meshes[0], rod) ==
          Approx(at_rod * std::pow(mesh::corner_ratio, row.rod)).epsilon(1e-9));
    CHECK(nearest(meshes[0], coil) ==
          Approx(at_coil * std::pow(mesh::corner_ratio, row.coil)).epsilon(1e-9));
  }
}

TEST_CASE("where the layers fold, the coarse mesh is solved", "[adaptivity]")
{
  const mesh::Mesh coarse = mesh::coarse_mesh(wound_rod());
  const std::vector<mesh::Mesh> meshes = solved(coarse, 1e-6, 1);
  REQUIRE(meshes.size() == 2);
  CHECK(meshes[0].triangles.size() > coarse.triangles.size());
  CHECK(meshes[1].triangles.size() == coarse.triangles.size());
  CHECK_THROWS_AS(solved(coarse, 1e-6, 2), solver::FoldedElement);
  CHECK_THROWS_AS(solved(coarse, 1e-3, 1), solver::FoldedElement); // no layers: tried once
}
