// Half a mirrored scene solved is the whole of it.
#include "mesh/clashes.hpp"
#include "solver/field.hpp"
#include "solver/random_scenes.hpp"
#include "solver/solution.hpp"
#include "solver/solve.hpp"

#include <catch2/catch.hpp>

using namespace solver;

namespace
{

constexpr double mm = 1e-3;

/// A rod in a coil about z = 7 mm, the coil out of its place by `shift` [m].
Problem rod_in_coil(double shift, double accuracy)
{
  Problem problem;
  problem.materials["m"] = {.permeability = 200.0};
  problem.scene.parts.push_back({"rod", mesh::Rod{10 * mm, 60 * mm}, "m", 7 * mm});
  problem.scene.windings.push_back(
      {"coil", 100.0, mesh::Block{12 * mm, 14 * mm, 30 * mm}, 7 * mm + shift});
  problem.accuracy = accuracy;
  return problem;
}

void check_overlap(const Bracket& a, const Bracket& b, Eigen::Index j, double allowance)
{
  CHECK(a.lower[j] <= (b.lower[j] + b.gap(j, j)) * (1.0 + allowance));
  CHECK(b.lower[j] <= (a.lower[j] + a.gap(j, j)) * (1.0 + allowance));
}

} // namespace

TEST_CASE("brackets of mirrored scenes hold what the whole of them gives", "[mirror][random]")
{
  // Out of its place by 1e-9 of the size the coil makes a scene no mirror image, and L changes with
  // the square of that.
  int halved = 0;
  for (unsigned seed = 0; halved < 40; ++seed)
  {
    Problem problem = random_scenes::problem(seed);
    for (mesh::Part& part : problem.scene.parts)
      part.centre = 0.0;
    problem.scene.windings[0].centre = 0.0;
    if (!mesh::clashes(problem.scene).empty())
      continue;
    CAPTURE(seed);
    const Solution half = solve(problem);
    if (!half.space.mesh.box.halved || problem.scene.parts.empty())
      continue;
    ++halved;
    problem.scene.windings[0].centre = 1e-9 * half.space.mesh.box.radius;
    const Solution full = solve(problem);
    REQUIRE_FALSE(full.space.mesh.box.halved);
    check_overlap(half.bracket, full.bracket, 0, 1e-9);
  }
}

TEST_CASE("the field below the mirror is that above it, its radial part turned", "[mirror]")
{
  const Solution half = solve(rod_in_coil(0.0, 1e-7)), full = solve(rod_in_coil(1e-9, 1e-7));
  REQUIRE(half.space.mesh.box.halved);
  REQUIRE_FALSE(full.space.mesh.box.halved);
  check_overlap(half.bracket, full.bracket, 0, 1e-9);
  const DrivenField of_half = driven_field(half, drive(half)),
                    of_full = driven_field(full, drive(full));
  const double typical = std::abs(field_at(full, of_full, {0.0, 7 * mm}).B_z);
  for (const mesh::Point above : {mesh::Point{0.0, 12 * mm},
                                  {3 * mm, 30 * mm},
                                  {4 * mm, 8 * mm},
                                  {9 * mm, 44 * mm},
                                  {40 * mm, 60 * mm},
                                  {300 * mm, 9 * mm}})
  {
    CAPTURE(above.r, above.z);
    const mesh::Point below{above.r, 14 * mm - above.z};
    const FieldPoint up = field_at(half, of_half, above), down = field_at(half, of_half, below);
    CHECK(down.B_z == Approx(up.B_z).epsilon(1e-12));
    CHECK(down.B_r == Approx(-up.B_r).epsilon(1e-12));
    CHECK(down.H_r == Approx(-up.H_r).epsilon(1e-12));
    CHECK(down.flux == Approx(up.flux).epsilon(1e-12));
    // Energy to 1e-7 is a field to 3e-4 in the mean.
    const FieldPoint whole = field_at(full, of_full, below);
    CHECK(down.B_z == Approx(whole.B_z).epsilon(1e-3).margin(1e-5 * typical));
    CHECK(down.B_r == Approx(whole.B_r).epsilon(1e-3).margin(1e-5 * typical));
    CHECK(down.flux == Approx(whole.flux).epsilon(1e-3));
  }
}

TEST_CASE("a background field is solved on the whole of a mirrored scene", "[mirror]")
{
  Problem problem = rod_in_coil(0.0, 1e-3);
  problem.background = 2e-5;
  CHECK_FALSE(solve(problem).space.mesh.box.halved);
}

TEST_CASE("half a scene counts its energies and volumes twice", "[mirror]")
{
  const Solution half = solve(rod_in_coil(0.0, 1e-4)), full = solve(rod_in_coil(1e-9, 1e-4));
  REQUIRE(half.layout.regions.size() == full.layout.regions.size());
  for (std::size_t g = 0; g < half.layout.regions.size(); ++g)
    CHECK(half.bracket.region_flux[g](0, 0) ==
          Approx(full.bracket.region_flux[g](0, 0)).epsilon(1e-3));
  CHECK(half.unknowns < 0.7 * full.unknowns);
}
