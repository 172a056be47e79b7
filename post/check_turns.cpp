// Grids of separate turns of round wire: layers, rings, and turns in magnetic coatings.
#include "post/check_axes.hpp"

namespace post
{
namespace
{

constexpr double D = 40e-3; // of the middle of the wire

solver::Problem single_layer(double spread, double turns, double wide)
{
  const double pitch = D / wide;
  const double wire = pitch / spread;
  return wound({.wire_diameter = wire, .inner_diameter = D - wire, .pitch = pitch}, turns);
}

solver::Problem layered(double spread, double layers, double stretch)
{
  const double high = D / 16.0; // a layer
  const double wire = high / spread;
  const int count = static_cast<int>(layers);
  return wound({.wire_diameter = wire,
                .inner_diameter = D - layers * high,
                .layers = count,
                .pitch = stretch * high,
                .insulation = (high - wire) / 2.0},
               4 * count);
}

solver::Problem ring(double ratio, double solid)
{
  const double wire = ratio * D;
  return wound({.wire_diameter = wire,
                .inner_diameter = D - wire,
                .strand = solid > 0.0 ? mesh::Strand::solid : mesh::Strand::fine},
               1);
}

/// Turns in a coating whose outer radius is `size` of the loop's and `depth` that of the wire.
solver::Problem coated(double depth, double size, double permeability, double turns, double apart)
{
  const double outer = size * D; // diameter
  const double wire = outer / depth;
  mesh::RoundTurns round{.wire_diameter = wire, .inner_diameter = D - outer};
  round.inner_diameter = D - outer;
  round.pitch = turns > 1.0 ? apart * outer : 0.0;
  round.coating = mesh::Coating{"dust", (outer - wire) / 2.0};
  solver::Problem problem = wound(round, turns);
  problem.materials["dust"] = {.permeability = permeability};
  return problem;
}

} // namespace

std::vector<CheckFamily> turn_families(bool fine)
{
  return {
      {.name = "round-turns",
       .title = "one layer of round wire",
       .x = logarithmic("pitch / wire", 1.05, 4.0, 5, fine),
       .y = listed("turns", {2, 5, 10, 20}),
       .third = listed("diameter / pitch", {4, 20}),
       .problem = single_layer,
       .about = {"air coil, round", "air coil, end correction", "air coil, sheet, exact"}},
      {.name = "layers",
       .title = "layers of round wire, four turns high",
       .x = logarithmic("layer / wire", 1.05, 3.0, 4, fine),
       .y = listed("layers", {2, 3, 5}),
       .third = listed("pitch / layer", {1.0, 1.2}),
       .problem = layered,
       .about = {"air coil, layers", "air coil, thick, by length", "air coil, thick, exact"}},
      {.name = "ring",
       .title = "single turn of round wire",
       .x = logarithmic("wire / loop diameter", 0.01, 0.8, 12, fine),
       .y = named("current", {"even", "solid"}),
       .third = listed("", {0.0}),
       .problem = [](double x, double y, double) { return ring(x, y); },
       .accuracy = 1e-5},
      {.name = "coated-ring",
       .title = "single turn in a magnetic coating",
       .x = logarithmic("coating / wire diameter", 1.2, 10.0, 6, fine),
       .y = logarithmic("coating / loop diameter", 0.02, 0.5, 6, fine),
       .third = listed("permeability", {5, 50}),
       .problem = [](double x, double y, double mu) { return coated(x, y, mu, 1.0, 0.0); }},
      {.name = "coated-turns",
       .title = "three turns in coatings 1/20 of the loop",
       .x = logarithmic("pitch / coating diameter", 1.02, 6.0, 6, fine),
       .y = logarithmic("permeability", 2.0, 200.0, 4, fine),
       .third = listed("coating / wire diameter", {2.0}),
       .problem = [](double x, double y, double depth) { return coated(depth, 0.05, y, 3.0, x); }}};
}

} // namespace post
