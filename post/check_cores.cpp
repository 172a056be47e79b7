// Grids of wound cores: rods, short coils on them, tubes inside and outside the coil, gapped rods.
#include "post/check_axes.hpp"

namespace post
{
namespace
{

constexpr double D = 8e-3; // of the core

mesh::Block sheet(double diameter, double length)
{
  return {diameter, diameter, length};
}

/// Coil and rod nearly touch, or are apart, or a fifth of the rod is bare.
solver::Problem covered_rod(double aspect, double permeability, double kind)
{
  const double wide = kind == 1.0 ? 1.5 : 1.1;
  const double share = kind == 2.0 ? 0.8 : 0.95;
  solver::Problem problem = wound(sheet(wide * D, share * aspect * D), 100);
  add_body(problem, "core", mesh::Rod{D, aspect * D}, permeability);
  return problem;
}

solver::Problem short_coil(double share, double offset, double permeability)
{
  constexpr double length = 10.0 * D;
  solver::Problem problem = wound(sheet(1.1 * D, share * length), 100, offset * length);
  add_body(problem, "core", mesh::Rod{D, length}, permeability);
  return problem;
}

solver::Problem covered_tube(double bore, double permeability, double aspect)
{
  solver::Problem problem = wound(sheet(1.1 * D, 0.95 * aspect * D), 100);
  add_body(problem, "core", mesh::Tube{bore * D, D, aspect * D}, permeability);
  return problem;
}

/// Walls of 3 or 9 % of the outer diameter; flush with the coil, or half as long again.
solver::Problem sleeved(double aspect, double permeability, double kind)
{
  const double wall = kind == 2.0 ? 0.09 : 0.03;
  const double length = kind == 1.0 ? 1.5 : 1.0;
  const double bore = 1.05 * D;
  solver::Problem problem = wound(sheet(D, aspect * D), 100);
  add_body(problem, "sleeve", mesh::Tube{bore, bore / (1.0 - 2.0 * wall), length * aspect * D},
           permeability);
  return problem;
}

solver::Problem gapped(double gap, double permeability, double aspect)
{
  const double half = (aspect - gap) * D / 2.0;
  solver::Problem problem = wound(sheet(1.1 * D, 0.95 * aspect * D), 100);
  add_body(problem, "lower", mesh::Rod{D, half}, permeability, -(gap * D + half) / 2.0);
  add_body(problem, "upper", mesh::Rod{D, half}, permeability, (gap * D + half) / 2.0);
  return problem;
}

} // namespace

std::vector<CheckFamily> core_families(bool fine)
{
  return {{.name = "rod",
           .title = "coil over a whole rod",
           .x = logarithmic("length / diameter", 2.0, 50.0, 11, fine),
           .y = logarithmic("permeability", 1.5, 10000.0, 8, fine),
           .third = named("", {"coil 1.1 D wide over 95 %", "coil 1.5 D wide over 95 %",
                               "coil 1.1 D wide over 80 %"}),
           .problem = covered_rod,
           .about = {"rod"}},
          {.name = "short-coil",
           .title = "coil on a rod of l/D 10",
           .x = logarithmic("coil / rod length", 0.03, 1.0, 9, fine),
           .y = even("offset / rod length", 0.0, 0.45, 7, fine),
           .third = listed("permeability", {10, 100, 1000}),
           .problem = short_coil,
           .about = {"rod, short coil", "rod, spheroid", "rod, table"}},
          {.name = "tube-core",
           .title = "coil over a whole tube",
           .x = even("bore / diameter", 0.1, 0.96, 6, fine),
           .y = logarithmic("permeability", 2.0, 5000.0, 6, fine),
           .third = listed("length / diameter", {5, 15}),
           .problem = covered_tube,
           .about = {"tube core"}},
          {.name = "sleeve",
           .title = "tube around a coil",
           .x = logarithmic("coil length / diameter", 1.0, 20.0, 6, fine),
           .y = logarithmic("permeability", 2.0, 5000.0, 6, fine),
           .third = named(
               "", {"wall 0.03 D, flush", "wall 0.03 D, 1.5 times as long", "wall 0.09 D, flush"}),
           .problem = sleeved,
           .about = {"sleeve"}},
          {.name = "gapped-rod",
           .title = "coil over two rods with a gap",
           .x = logarithmic("gap / diameter", 0.01, 0.5, 9, fine),
           .y = logarithmic("permeability", 5.0, 5000.0, 6, fine),
           .third = listed("length / diameter", {6, 15}),
           .problem = gapped,
           .about = {"gapped rod"}}};
}

} // namespace post
