// Nine kinds of scenes from one seed each.
#include "solver/random_scenes.hpp"

#include "mesh/layout.hpp"

#include <algorithm>
#include <cmath>
#include <random>

namespace random_scenes
{

namespace
{

using namespace mesh;

/// What every kind starts from; lengths in metres.
struct Dice
{
  explicit Dice(unsigned seed) : generator(seed) {}
  std::mt19937_64 generator;
  double even(double low, double high)
  {
    // Not std::uniform_real_distribution: its sequence is not the same everywhere.
    return low + (high - low) * static_cast<double>(generator() >> 11U) * 0x1p-53;
  }
  double logarithmic(double low, double high)
  {
    return std::exp(even(std::log(low), std::log(high)));
  }
  int below(int n) { return static_cast<int>(even(0.0, n)); }
};

struct Sizes
{
  double D, L, clearance, coil_thickness, coil_length, coil_centre;
};

Sizes sizes(Dice& dice)
{
  Sizes s{};
  s.D = dice.logarithmic(1e-3, 1e-1);
  s.L = s.D * dice.logarithmic(0.05, 200.0);
  const double size = std::max(s.D, s.L);
  s.clearance = std::min(std::max(1e-3, dice.logarithmic(1e-3, 0.3)) * size, 2.0 * s.D);
  s.coil_thickness = dice.logarithmic(0.01, 0.3) * s.D;
  s.coil_length = s.L * dice.even(0.05, 1.5);
  s.coil_centre = s.L * dice.even(-0.5, 0.5);
  return s;
}

void wind(Scene& scene, Dice& dice, const Sizes& s, double inner_diameter)
{
  const bool sheet = dice.below(4) == 0;
  const double outer = inner_diameter + (sheet ? 0.0 : 2.0 * s.coil_thickness);
  scene.windings.push_back(
      {"coil", 10.0, Block{inner_diameter, outer, s.coil_length}, s.coil_centre});
}

void sleeve(Scene& scene, Dice& dice, const Sizes& s)
{
  wind(scene, dice, s, s.D);
  const double inner = std::get<Block>(scene.windings[0].build).outer_diameter + 2.0 * s.clearance;
  scene.parts.push_back(
      {"a", Tube{inner, inner + 2.0 * dice.logarithmic(0.01, 1.0) * s.D, s.L}, "m"});
}

void coated_turns(Scene& scene, Dice& dice, const Sizes& s)
{
  RoundTurns turns;
  turns.wire_diameter = dice.logarithmic(0.01, 0.2) * s.D;
  turns.inner_diameter = s.D;
  turns.layers = 1 + dice.below(2);
  const int count = turns.layers + dice.below(6);
  if (dice.below(2) == 1)
    turns.insulation = turns.wire_diameter * dice.logarithmic(0.01, 0.3);
  turns.coating = Coating{"m", turns.wire_diameter * dice.logarithmic(0.02, 1.0)};
  turns.strand = dice.below(2) == 1 ? Strand::fine : Strand::solid;
  if (dice.below(2) == 1)
    turns.pitch = full_diameter(turns) * dice.even(1.0, 2.0);
  scene.windings.push_back({"coil", static_cast<double>(count), turns});
}

void nested_tube(Scene& scene, Dice& dice, const Sizes& s)
{
  const double inner = s.D * dice.even(0.2, 0.95);
  scene.parts.push_back({"a", Tube{s.D, 2.0 * s.D, s.L}, "m"});
  scene.parts.push_back({"b", Rod{inner, s.L * dice.even(0.2, 1.5)}, "n", 0.3 * s.L});
  wind(scene, dice, s, 2.0 * s.D + 2.0 * s.clearance);
}

void body_and_coil(Scene& scene, Dice& dice, const Sizes& s, int kind)
{
  if (kind == 0 || kind == 1)
  {
    scene.parts.push_back({"a", Rod{s.D, s.L}, "m"});
    wind(scene, dice, s, s.D + (kind == 0 ? 2.0 * s.clearance : 0.0));
  }
  else if (kind == 2)
  {
    const double outer = s.D + 2.0 * dice.logarithmic(0.01, 1.0) * s.D;
    scene.parts.push_back({"a", Tube{s.D, outer, s.L}, "m"});
    wind(scene, dice, s, outer + 2.0 * s.clearance);
  }
  else if (kind == 3)
  {
    const double section = dice.logarithmic(0.02, 0.45) * s.D;
    scene.parts.push_back({"a", Ring{s.D, section}, "m"});
    wind(scene, dice, s, s.D + section + 2.0 * s.clearance);
  }
  else if (kind == 4)
  {
    const double thickness = dice.logarithmic(0.003, 0.3) * s.D;
    scene.parts.push_back({"a", Rod{s.D, s.L}, "m", 0.0, Coating{"n", thickness}});
    wind(scene, dice, s, s.D + 2.0 * thickness + 2.0 * s.clearance);
  }
  else
  {
    scene.parts.push_back({"in", Rod{0.5 * s.D, 0.5 * s.L}, "m", 0.1 * s.L});
    scene.parts.push_back({"out", Rod{s.D, s.L}, "n"});
    wind(scene, dice, s, s.D + 2.0 * s.clearance);
  }
}

} // namespace

solver::Problem problem(unsigned seed)
{
  Dice dice(seed);
  solver::Problem made;
  const int kind = dice.below(9);
  const Sizes s = sizes(dice);
  made.materials["m"] = {.permeability = dice.logarithmic(1.0, 1e5)};
  made.materials["n"] = {.permeability = dice.logarithmic(1.0, 1e5)};
  if (kind == 6)
    sleeve(made.scene, dice, s);
  else if (kind == 7)
    coated_turns(made.scene, dice, s);
  else if (kind == 8)
    nested_tube(made.scene, dice, s);
  else
    body_and_coil(made.scene, dice, s, kind);
  return made;
}

} // namespace random_scenes
