// Self-capacitance of turns against the integral equation of charged rings, and what it says
// where there is none.
#include "post/capacitance.hpp"

#include "reference/charged_rings.hpp"

#include <catch2/catch.hpp>

#include <Eigen/LU>

#include <cmath>
#include <numbers>
#include <utility>

namespace
{

/// Five turns in two layers, bare wires well apart: insulation of air.
solver::Problem spaced_coil()
{
  mesh::RoundTurns build;
  build.wire_diameter = 0.6e-3;
  build.inner_diameter = 8e-3;
  build.layers = 2;
  build.insulation = 0.2e-3;
  build.pitch = 1.3e-3;
  solver::Problem problem;
  problem.scene.windings.push_back({"coil", 5.0, build});
  problem.electrostatics = solver::Electrostatics{};
  return problem;
}

constexpr double inner = 4e-3 + 0.5e-3, outer = inner + 1e-3, pitch = 1.3e-3, wire = 0.3e-3;

/// Along the wire: three turns up the inner layer, two back down the outer one.
std::vector<reference::ChargedRing> rings_along_the_wire()
{
  return {{inner, wire, -pitch},
          {inner, wire, 0.0},
          {inner, wire, pitch},
          {outer, wire, 0.5 * pitch},
          {outer, wire, -0.5 * pitch}};
}

/// Twice the energy at 1 V with the floating groups free of charge.
double relaxed(const Eigen::MatrixXd& C, const Eigen::VectorXd& held, const Eigen::MatrixXd& groups)
{
  const Eigen::VectorXd free =
      groups.cols() == 0
          ? held
          : Eigen::VectorXd(held - groups * (groups.transpose() * C * groups)
                                                .partialPivLu()
                                                .solve(groups.transpose() * C * held));
  return free.dot(C * free);
}

post::Result result_of(const solver::Problem& problem)
{
  post::Result result;
  for (const mesh::Winding& winding : problem.scene.windings)
  {
    post::WindingResult one;
    one.name = winding.name;
    one.turns = winding.turns;
    one.inductance = {1e-6, 1e-6, 1e-6};
    result.windings.push_back(std::move(one));
  }
  post::add_capacitances(problem, result);
  return result;
}

void check_holds(const post::Bounded& bounds, double exact)
{
  CAPTURE(1e12 * bounds.lower, 1e12 * bounds.upper, 1e12 * exact);
  CHECK(bounds.lower <= exact);
  CHECK(bounds.upper >= exact);
  CHECK(bounds.upper - bounds.lower < 2.0001e-2 * bounds.value); // half-width 1 %, as asked
}

} // namespace

TEST_CASE("a coil of spaced turns has the capacitance of its charged rings", "[capacitance]")
{
  const post::Result result = result_of(spaced_coil());
  REQUIRE(result.windings[0].capacitance);
  const Eigen::MatrixXd C =
      solver::epsilon0 * reference::ring_capacitances(rings_along_the_wire(), 48);
  Eigen::VectorXd rising(5);
  rising << -0.4, -0.2, 0.0, 0.2, 0.4; // (k - 1/2) / N - 1/2
  const Eigen::VectorXd ones = Eigen::VectorXd::Ones(5);
  check_holds(result.windings[0].capacitance->floating, relaxed(C, rising, ones));
  check_holds(result.windings[0].capacitance->earthed,
              relaxed(C, rising + 0.5 * ones, Eigen::MatrixXd(5, 0)));
  // f = 1 / (2 pi sqrt(L C)), L = 1 uH.
  const double f = result.windings[0].capacitance->floating_resonance;
  CHECK(std::pow(2.0 * std::numbers::pi * f, 2.0) * 1e-6 *
            result.windings[0].capacitance->floating.value ==
        Approx(1.0));
}

TEST_CASE("turn by turn, charges per volt are those of charged rings", "[capacitance]")
{
  const post::Result result = result_of(spaced_coil());
  REQUIRE(result.capacitances);
  const post::CapacitanceMatrix& found = *result.capacitances;
  // Drawn by layers from low z up; the outer layer is wound back.
  CHECK(found.electrodes ==
        std::vector<std::string>{"coil 1", "coil 2", "coil 3", "coil 5", "coil 4"});
  const Eigen::MatrixXd C =
      solver::epsilon0 * reference::ring_capacitances(rings_along_the_wire(), 48);
  const auto turn = [&](std::size_t i) { return found.electrodes[i].back() - '1'; };
  for (std::size_t i = 0; i < 5; ++i)
    for (std::size_t j = 0; j < 5; ++j)
    {
      CAPTURE(i, j, 1e12 * found.values[i][j], 1e12 * C(turn(i), turn(j)));
      CHECK(std::abs(found.values[i][j] - C(turn(i), turn(j))) <= found.radii[i][j]);
      CHECK(found.radii[i][j] < 0.02 * std::sqrt(found.values[i][i] * found.values[j][j]));
      CHECK(found.values[i][j] == found.values[j][i]);
    }
  const std::string table = post::capacitance_table(found);
  CHECK(table.starts_with("charge per volt [F],coil 1,coil 2,coil 3,coil 5,coil 4\ncoil 1,"));
  CHECK(table.find("\ntrue within, coil 4,") == std::string::npos); // a cell with a comma is quoted
  CHECK(table.find("\n\"true within, coil 4\",") != std::string::npos);
}

TEST_CASE("conducting parts float, or stand at zero", "[capacitance]")
{
  solver::Problem problem = spaced_coil();
  problem.scene.parts.push_back({"guard", mesh::Ring{15e-3, 1e-3}, "copper", 1e-3});
  std::vector<reference::ChargedRing> rings = rings_along_the_wire();
  rings.push_back({7.5e-3, 0.5e-3, 1e-3});
  const Eigen::MatrixXd C = solver::epsilon0 * reference::ring_capacitances(rings, 48);
  Eigen::VectorXd rising(6);
  rising << 0.1, 0.3, 0.5, 0.7, 0.9, 0.0;
  const Eigen::MatrixXd guard = Eigen::VectorXd::Unit(6, 5);
  const double floating = relaxed(C, rising, guard);
  check_holds(result_of(problem).windings[0].capacitance->earthed, floating);
  problem.electrostatics->earthed = {"guard"};
  const double earthed = relaxed(C, rising, Eigen::MatrixXd(6, 0));
  check_holds(result_of(problem).windings[0].capacitance->earthed, earthed);
  CHECK(earthed > 1.02 * floating); // so that the bounds tell them apart
}

TEST_CASE("insulation of a material raises the capacitance", "[capacitance]")
{
  solver::Problem problem = spaced_coil();
  const post::Bounded air = result_of(problem).windings[0].capacitance->floating;
  std::get<mesh::RoundTurns>(problem.scene.windings[0].build).insulation_material = "enamel";
  problem.materials["enamel"].permittivity = 3.5;
  const post::Bounded enamelled = result_of(problem).windings[0].capacitance->floating;
  // Monotone in the permittivity, and at most as if it filled all space.
  CHECK(enamelled.lower > air.upper);
  CHECK(enamelled.upper < 3.5 * air.lower);
}

TEST_CASE("bodies that conduct and touch are one", "[capacitance]")
{
  solver::Problem problem = spaced_coil();
  problem.scene.parts.push_back({"low", mesh::Rod{6e-3, 5e-3}, "copper", -2.5e-3});
  problem.scene.parts.push_back({"high", mesh::Rod{6e-3, 5e-3}, "copper", 2.5e-3});
  solver::Problem whole = spaced_coil();
  whole.scene.parts.push_back({"all", mesh::Rod{6e-3, 10e-3}, "copper", 0.0});
  const post::Bounded two = result_of(problem).windings[0].capacitance->earthed,
                      one = result_of(whole).windings[0].capacitance->earthed;
  CHECK(two.lower <= one.upper);
  CHECK(one.lower <= two.upper);
}

TEST_CASE("a winding without a capacitance says why", "[capacitance]")
{
  solver::Problem problem = spaced_coil();
  auto& build = std::get<mesh::RoundTurns>(problem.scene.windings[0].build);
  build.insulation = 0.0;
  build.pitch = 0.0;
  problem.scene.windings.push_back({"block", 10.0, mesh::Block{20e-3, 22e-3, 5e-3}});
  const post::Result bare = result_of(problem);
  CHECK(bare.windings[0].no_capacitance == "turns of coil touch bare");
  CHECK(bare.windings[1].no_capacitance == "its turns are not drawn one by one");
  CHECK_FALSE(bare.windings[0].capacitance);
  problem = spaced_coil();
  problem.scene.windings[0].turns = 1.0;
  std::get<mesh::RoundTurns>(problem.scene.windings[0].build).layers = 1;
  CHECK(result_of(problem).windings[0].no_capacitance == "it has one turn only");
  problem = spaced_coil();
  std::get<mesh::RoundTurns>(problem.scene.windings[0].build).parallel = true;
  CHECK(result_of(problem).windings[0].no_capacitance == "its turns are in parallel");
  problem.electrostatics.reset();
  CHECK(result_of(problem).windings[0].no_capacitance.empty());
}
