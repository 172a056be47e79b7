// Conducting coatings of turns: part of the wire where they touch it, without current where not.
#include "solver/harmonic.hpp"

#include <catch2/catch.hpp>

#include <cmath>

namespace
{

constexpr double mm = 1e-3;

/// Three solid turns of full diameter 1 mm about 8 mm.
solver::Problem turns(double wire, double insulation, double coating)
{
  solver::Problem problem;
  problem.materials["plating"] = {.permeability = 1.0, .conductivity = 58e6};
  mesh::RoundTurns build{.wire_diameter = wire, .inner_diameter = 8 * mm, .pitch = 1.2 * mm};
  build.insulation = insulation;
  build.strand = mesh::Strand::solid;
  if (coating > 0.0)
    build.coating = mesh::Coating{"plating", coating};
  problem.scene.windings.push_back({"coil", 3.0, build});
  problem.accuracy = 1e-3;
  return problem;
}

} // namespace

TEST_CASE("a coating of the wire's own metal in contact makes a thicker wire", "[harmonic][long]")
{
  for (const double frequency : {10.0, 20e3, 200e3})
  {
    const solver::Harmonic thick = solver::solve_harmonic(turns(1 * mm, 0, 0), frequency),
                           plated = solver::solve_harmonic(turns(0.6 * mm, 0, 0.2 * mm), frequency);
    CAPTURE(frequency, thick.impedance(0, 0), plated.impedance(0, 0));
    CHECK(std::abs(thick.impedance(0, 0) - plated.impedance(0, 0)) <=
          thick.disc(0, 0) + plated.disc(0, 0));
    // What flows in the plating is the coating's loss, not the winding's.
    const double loss = plated.winding_loss(0, 0) + plated.region_loss[1][0];
    CHECK(std::abs(2.0 * loss - plated.impedance(0, 0).real()) <= 1e-3 * plated.disc(0, 0));
    CHECK(plated.region_loss[1][0] > 0.1 * loss);
  }
}

TEST_CASE("an insulated coating carries no current along the wire", "[harmonic]")
{
  // At rest it is not there; shorted rings of it would take two thirds of L at 20 kHz.
  const solver::Harmonic bare = solver::solve_harmonic(turns(0.6 * mm, 0.2 * mm, 0), 10.0),
                         coated = solver::solve_harmonic(turns(0.6 * mm, 0.1 * mm, 0.1 * mm), 10.0);
  CHECK(std::abs(bare.impedance(0, 0) - coated.impedance(0, 0)) <=
        bare.disc(0, 0) + coated.disc(0, 0));
  const solver::Harmonic high_bare = solver::solve_harmonic(turns(0.6 * mm, 0.2 * mm, 0), 20e3),
                         high = solver::solve_harmonic(turns(0.6 * mm, 0.1 * mm, 0.1 * mm), 20e3);
  CHECK(high.region_loss[1][0] > 0.0);
  CHECK(high.impedance(0, 0).imag() < high_bare.impedance(0, 0).imag());
  CHECK(high.impedance(0, 0).imag() > 0.97 * high_bare.impedance(0, 0).imag());
}
