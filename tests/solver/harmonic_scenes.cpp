// Six kinds of scenes from one seed each.
#include "solver/harmonic_scenes.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

namespace harmonic_scenes
{

namespace
{

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

solver::Material material(Dice& dice)
{
  solver::Material made;
  made.permeability = dice.logarithmic(1.0, 1e3);
  const double angle = dice.even(0.0, 80.0) * std::numbers::pi / 180.0;
  made.imaginary = dice.below(4) == 0 ? 0.0 : made.permeability * std::tan(angle);
  const double conductivity = dice.logarithmic(1e-2, 6e7);
  made.conductivity = dice.below(4) == 0 ? 0.0 : conductivity;
  return made;
}

/// Two solid turns or more about a diameter.
void wind_turns(mesh::Scene& scene, Dice& dice, double diameter)
{
  mesh::RoundTurns build;
  build.wire_diameter = dice.logarithmic(0.02, 0.2) * diameter;
  build.inner_diameter = diameter;
  build.insulation = dice.logarithmic(0.01, 0.3) * build.wire_diameter;
  build.strand = mesh::Strand::solid;
  scene.windings.push_back({"turns", 2.0 + dice.below(3), build});
}

void wind_block(mesh::Scene& scene, Dice& dice, double diameter, double length)
{
  const double thickness = dice.below(4) == 0 ? 0.0 : dice.logarithmic(0.02, 0.3) * diameter;
  scene.windings.push_back({"coil", 10.0, mesh::Block{diameter, diameter + 2.0 * thickness, length},
                            dice.even(-0.3, 0.3) * length});
}

/// Skin depth [m], endless without conductivity.
double skin(const solver::Material& of, double frequency)
{
  const double mu = std::hypot(of.permeability, of.imaginary) * solver::mu0;
  return 1.0 / std::sqrt(std::numbers::pi * frequency * mu * of.conductivity);
}

} // namespace

solver::Problem problem(unsigned seed)
{
  Dice dice(seed);
  solver::Problem made;
  made.materials["m"] = material(dice);
  made.materials["n"] = material(dice);
  made.frequencies = {dice.logarithmic(1e2, 1e6)};
  const int kind = dice.below(6);
  // A mesh of even triangles spends its unknowns on skins: none thinner than 1/300 of the diameter.
  const double f = made.frequencies[0],
               thinnest = std::min(skin(made.materials["m"], f), skin(made.materials["n"], f));
  const double D = std::min(dice.logarithmic(1e-3, 5e-2), 300.0 * thinnest),
               L = D * dice.logarithmic(0.3, 10.0);
  const double gap = dice.logarithmic(0.02, 0.5) * D, wall = dice.logarithmic(0.02, 0.4) * D;
  mesh::Scene& scene = made.scene;
  if (kind == 0 || kind == 5)
    scene.parts.push_back({"rod", mesh::Rod{D, L}, "m"});
  if (kind == 1)
    scene.parts.push_back({"tube", mesh::Tube{D - wall, D, L}, "m"});
  if (kind == 2)
    scene.parts.push_back({"shield", mesh::Tube{2.0 * D, 2.0 * (D + wall), L}, "m"});
  if (kind == 3)
    scene.parts.push_back({"rod", mesh::Rod{D - wall, L}, "m", 0.0, mesh::Coating{"n", wall / 2}});
  if (kind >= 4)
    wind_turns(scene, dice, D + gap);
  else
    wind_block(scene, dice, kind == 2 ? D : D + gap, L * dice.even(0.1, 1.0));
  return made;
}

double loss(const solver::Harmonic& solved, Eigen::Index driven)
{
  double sum = solved.winding_loss.col(driven).sum();
  for (const Eigen::VectorXd& region : solved.region_loss)
    sum += region[driven];
  return sum;
}

} // namespace harmonic_scenes
