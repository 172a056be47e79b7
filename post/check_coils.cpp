// Grids of coils without a core: sections of any length and depth, square ones, pairs.
#include "post/check_axes.hpp"

#include <cmath>

namespace post
{
namespace
{

constexpr double D = 20e-3; // mean diameter; inductance only scales with it

solver::Problem section(double length, double thickness)
{
  return wound(mesh::Block{D - thickness, D + thickness, length}, 100);
}

/// Two square sections whose side is `side` times the distance of their middles.
solver::Problem pair(double height, double side, double diameter)
{
  const double other = diameter * D;
  const double z = height * D / 2.0;
  const double s = side * std::hypot((D - other) / 2.0, z);
  solver::Problem problem = wound(mesh::Block{D - s, D + s, s}, 100);
  problem.scene.windings.push_back({"other", 10, mesh::Block{other - s, other + s, s}, z});
  return problem;
}

} // namespace

std::vector<CheckFamily> coil_families(bool fine)
{
  return {{.name = "air-coil",
           .title = "coil without a core",
           .x = logarithmic("length / diameter", 0.02, 20.0, 19, fine),
           .y = listed("thickness / diameter",
                       {0, 0.001, 0.003, 0.01, 0.03, 0.06, 0.1, 0.15, 0.2, 0.3, 0.5, 0.9}),
           .third = listed("", {0.0}),
           .problem = [](double x, double y, double) { return section(x * D, y * D); },
           .accuracy = 1e-4},
          {.name = "square-coil",
           .title = "coil of nearly square section",
           .x = even("thickness / diameter", 0.1, 0.9, 13, fine),
           .y = listed("length / thickness", {0.992, 1.0, 1.008}),
           .third = listed("", {0.0}),
           .problem = [](double x, double y, double) { return section(x * y * D, x * D); },
           .about = {"air coil, square", "air coil, Brooks", "air coil, thick"},
           .accuracy = 1e-4},
          {.name = "pair",
           .title = "two coils of square section",
           .x = logarithmic("height / radius", 0.1, 1.5, 7, fine),
           .y = even("side / distance", 0.1, 0.7, 5, fine),
           .third = listed("second diameter / first", {1.0, 0.6}),
           .problem = pair,
           .about = {"mutual"},
           .accuracy = 1e-3}};
}

} // namespace post
