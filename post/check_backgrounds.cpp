// Grids of bodies in a uniform axial field: rods, tubes, a ball in a shell.
#include "post/check_axes.hpp"

namespace post
{
namespace
{

constexpr double D = 10e-3;

solver::Problem in_field(const mesh::Shape& shape, double permeability)
{
  solver::Problem problem;
  problem.background = 1e-3;
  add_body(problem, "core", shape, permeability);
  return problem;
}

solver::Problem shell(double ratio, double permeability, double core)
{
  solver::Problem problem = in_field(mesh::Ring{0.0, ratio * D}, core);
  problem.materials["shell"] = {.permeability = permeability};
  problem.scene.parts.front().coating = mesh::Coating{"shell", (1.0 - ratio) * D / 2.0};
  return problem;
}

} // namespace

std::vector<CheckFamily> background_families(bool fine)
{
  return {{.name = "rod-in-field",
           .title = "rod in a uniform field",
           .x = logarithmic("length / diameter", 0.15, 90.0, 12, fine),
           .y = logarithmic("permeability", 1.1, 10000.0, 8, fine),
           .third = listed("", {0.0}),
           .problem =
               [](double x, double y, double) {
                 return in_field(mesh::Rod{D, x * D}, y);
               },
           .about = {"rod"},
           .accuracy = 1e-6},
          {.name = "tube-in-field",
           .title = "tube in a uniform field",
           .x = even("bore / diameter", 0.1, 0.96, 6, fine),
           .y = logarithmic("permeability", 2.0, 5000.0, 5, fine),
           .third = listed("length / diameter", {2, 10}),
           .problem =
               [](double x, double y, double aspect) {
                 return in_field(mesh::Tube{x * D, D, aspect * D}, y);
               },
           .about = {"tube"}},
          {.name = "shell",
           .title = "ball in a shell in a uniform field",
           .x = even("inner / outer diameter", 0.5, 0.95, 4, fine),
           .y = logarithmic("permeability", 2.0, 2000.0, 4, fine),
           .third = listed("permeability of the ball", {1, 10}),
           .problem = shell,
           .about = {"ball"},
           .accuracy = 1e-7}};
}

} // namespace post
