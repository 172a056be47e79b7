// A ripple about a bias: without bias the harmonic field, without eddy currents the tangent's
// slope.
#include "solver/harmonic.hpp"
#include "solver/saturation.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace solver;

namespace
{

constexpr double pi = std::numbers::pi, mm = 1e-3;

/// A coil, and a solid turn beside it, about a conducting rod that saturates.
Problem rod_coil(double accuracy, double conductivity)
{
  Problem problem;
  problem.scene.parts = {{"core", mesh::Rod{10 * mm, 60 * mm}, "core"}};
  problem.scene.windings = {{"coil", 100, mesh::Block{12 * mm, 14 * mm, 40 * mm}}};
  mesh::RoundTurns build{.wire_diameter = 1 * mm, .inner_diameter = 16 * mm};
  build.strand = mesh::Strand::solid;
  problem.scene.windings.push_back({"turn", 1.0, build});
  problem.accuracy = accuracy;
  Material& core = problem.materials["core"];
  core.magnetisation = std::make_shared<Magnetisation>(HyperbolicTangent{0.4, 700.0});
  core.permeability = core.magnetisation->initial_permeability();
  core.conductivity = conductivity;
  return problem;
}

Saturated biased(const Problem& problem, double current, const mesh::Mesh& mesh)
{
  return saturation_curve(problem, {Eigen::Vector2d(current, 0.0)}, 1, &mesh).front();
}

} // namespace

TEST_CASE("a ripple about no bias meets the impedance of weak fields, within its disc",
          "[saturation][harmonic]")
{
  const Problem problem = rod_coil(1e-3, 50.0);
  for (const double frequency : {1e2, 1e5})
  {
    const Harmonic weak = solve_harmonic(problem, frequency);
    const Eigen::MatrixXcd Z = small_signal(biased(problem, 1e-6, weak.space.mesh), frequency);
    for (Eigen::Index i = 0; i < 2; ++i)
      for (Eigen::Index j = 0; j < 2; ++j)
      {
        CAPTURE(frequency, i, j, Z(i, j), weak.impedance(i, j));
        CHECK(std::abs(Z(i, j) - weak.impedance(i, j)) <= 2.0 * weak.disc(i, j));
      }
    CHECK(std::abs(Z(0, 1) - Z(1, 0)) < 1e-10 * std::abs(Z(0, 1)));
  }
}

TEST_CASE("where nothing conducts, a ripple meets the incremental inductance at any frequency",
          "[saturation][harmonic]")
{
  Problem problem = rod_coil(1e-4, 0.0);
  problem.scene.windings.pop_back();
  const Saturated s = solve_saturated(problem, Eigen::VectorXd::Constant(1, 6.0));
  REQUIRE(s.incremental(0, 0) < 0.7 * s.linkage[0].value / 6.0); // well into saturation
  const Stage& on = *s.stage;
  const std::vector<double> ones(on.laws.size(), 1.0);
  const double response =
      flux_load(on.space, on.layout, on.sources[0], ones).dot(s.flux_response.col(0));
  for (const double frequency : {1.0, 1e6})
  {
    const std::complex<double> Z = small_signal(s, frequency)(0, 0);
    const double L = Z.imag() / (2.0 * pi * frequency);
    CAPTURE(L, s.incremental(0, 0), s.incremental_spread(0, 0));
    // Newton's last tangent is that of one step before. The sums of `incremental` are at other
    // points.
    CHECK(L == Approx(response).epsilon(1e-5));
    CHECK(std::abs(L - s.incremental(0, 0)) <= 1.1 * s.incremental_spread(0, 0));
    CHECK(std::abs(Z.real()) < 1e-9 * std::abs(Z));
  }
  CHECK_THROWS_AS(small_signal(s, 0.0), std::invalid_argument);
}

TEST_CASE("a biased core loses less to a ripple and holds less of it", "[saturation][harmonic]")
{
  const Problem problem = rod_coil(1e-3, 50.0);
  const Harmonic weak = solve_harmonic(problem, 1e5);
  const Eigen::MatrixXcd rest = small_signal(biased(problem, 1e-6, weak.space.mesh), 1e5),
                         driven = small_signal(biased(problem, 6.0, weak.space.mesh), 1e5);
  CHECK(driven(0, 0).imag() < 0.7 * rest(0, 0).imag());
  CHECK(driven(0, 0).real() < 0.7 * rest(0, 0).real());
  CHECK(driven(0, 0).real() > 0.0);
  // The solid turn's copper is beside the core: what it loses by itself stays.
  CHECK(driven(1, 1).real() > 0.5 * rest(1, 1).real());
}
