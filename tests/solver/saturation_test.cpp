// Saturating fields: a ball exactly, the limits, Newton's own rate, and what is guaranteed.
#include "solver/saturation.hpp"
#include "solver/solution.hpp"
#include "solver/solve.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace solver;

namespace
{

constexpr double pi = std::numbers::pi, mm = 1e-3;

std::shared_ptr<const Magnetisation> curve(MagneticLaw law)
{
  return std::make_shared<Magnetisation>(std::move(law));
}

void give(Problem& problem, const std::string& name, MagneticLaw law)
{
  Material& one = problem.materials[name];
  one.magnetisation = curve(std::move(law));
  one.permeability = one.magnetisation->initial_permeability();
}

/// A coil about a rod that saturates.
Problem rod_coil(double accuracy, const MagneticLaw& law = HyperbolicTangent{0.4, 700.0})
{
  Problem problem;
  problem.scene.parts = {{"core", mesh::Rod{10 * mm, 60 * mm}, "core"}};
  problem.scene.windings = {{"coil", 100, mesh::Block{12 * mm, 14 * mm, 40 * mm}}};
  problem.accuracy = accuracy;
  give(problem, "core", law);
  return problem;
}

Eigen::VectorXd amperes(double I)
{
  return Eigen::VectorXd::Constant(1, I);
}

/// Field in a ball in a uniform field H0, uniform: H + J(H) / (3 mu0) = H0.
double field_in_ball(const Magnetisation& law, double H0)
{
  double low = 0.0, high = H0;
  for (int i = 0; i < 200; ++i)
  {
    const double H = 0.5 * (low + high);
    (H + (law.at_field(H).B - mu0 * H) / (3.0 * mu0) < H0 ? low : high) = H;
  }
  return 0.5 * (low + high);
}

} // namespace

TEST_CASE("a saturating ball in a uniform field has the coenergy of its uniform field",
          "[saturation]")
{
  // H + N M(H) = H0, N = 1/3: uniform inside whatever the curve; the coenergy is the integral of
  // the moment over H0: V (int J dH + J^2 / (6 mu0)).
  const double R = 8 * mm, volume = 4.0 / 3.0 * pi * R * R * R;
  for (const double B0 : {0.02, 0.13, 0.4})
  {
    Problem problem;
    problem.scene.parts = {{"ball", mesh::Ring{0.0, 2.0 * R}, "core"}};
    problem.background = B0;
    problem.accuracy = 1e-6;
    give(problem, "core", HyperbolicTangent{0.4, 300.0});
    const Magnetisation& law = *problem.materials["core"].magnetisation;
    const double H = field_in_ball(law, B0 / mu0);
    const MagneticState at = law.at_field(H);
    const double J = at.B - mu0 * H;
    const double exact = volume * (at.coenergy - 0.5 * mu0 * H * H + J * J / (6.0 * mu0));
    const Saturated s = solve_saturated(problem, Eigen::VectorXd(0));
    CAPTURE(B0, s.lower, exact, s.upper, s.refinements, s.unknowns, s.iterations);
    CHECK(s.accuracy_reached);
    CHECK(s.lower <= exact);
    CHECK(exact <= s.upper);
    CHECK(s.upper - s.lower <= 2e-6 * exact);
  }
}

TEST_CASE("a weak current sees the permeability of weak fields", "[saturation]")
{
  const Problem problem = rod_coil(1e-5);
  const Solution linear = solve(problem);
  const double I = 1e-5, L = linear.bracket.lower[0], gap = linear.bracket.gap(0, 0);
  const Saturated s = solve_saturated(problem, amperes(I));
  CAPTURE(s.lower, s.upper, L, gap, s.unknowns);
  CHECK(2.0 * s.lower <= (L + gap) * I * I);
  CHECK(2.0 * s.upper >= L * I * I);
  CHECK(s.incremental(0, 0) == Approx(L).epsilon(3e-5));
  CHECK(s.linkage[0].value == Approx(L * I).epsilon(3e-5));
}

TEST_CASE("far up a rod adds its saturation to the coil's own field", "[saturation]")
{
  // Incremental inductance returns to that of the coil in air; common knowledge, no source.
  Problem problem = rod_coil(1e-4);
  const Saturated s = solve_saturated(problem, amperes(3e4));
  problem.materials["core"] = {};
  const Solution air = solve(problem);
  CHECK(s.incremental(0, 0) == Approx(air.bracket.lower[0]).epsilon(3e-3));
  CHECK(s.linkage[0].value > 3e4 * air.bracket.lower[0]);
}

TEST_CASE("Newton's method squares its error near the end", "[saturation]")
{
  const Saturated s = solve_saturated(rod_coil(1e-3), amperes(3.0));
  std::vector<double> relative;
  for (const double decrement : s.decrements)
    relative.push_back(decrement / s.upper);
  CAPTURE(relative, s.steps);
  REQUIRE(relative.size() >= 3);
  CHECK(s.steps.back() == 1.0);
  // The decrement is the square of the error's norm: squared errors make it fall to its square.
  const double last = relative.back(), before = relative[relative.size() - 2];
  CHECK(before < 0.1);
  CHECK(last < 30.0 * before * before);
}

TEST_CASE("coenergy and energy make up linkage times current", "[saturation][long]")
{
  const Saturated s = solve_saturated(rod_coil(1e-6), amperes(4.0));
  double energy = 0.0, coenergy = 0.0;
  for (const double part : s.region_energy)
    energy += part;
  for (const double part : s.region_coenergy)
    coenergy += part;
  CHECK(energy + coenergy == Approx(4.0 * s.linkage[0].value).epsilon(1e-5));
  CHECK(coenergy == Approx(s.upper).epsilon(1e-9));
  CHECK(s.lower <= coenergy);
}

TEST_CASE("a linkage lies within its bounds and is the slope of the coenergy", "[saturation][long]")
{
  const Problem coarse = rod_coil(1e-3);
  const Problem fine = rod_coil(1e-6);
  for (const double I : {0.5, 2.0, 8.0})
  {
    const Saturated rough = solve_saturated(coarse, amperes(I));
    const Saturated sharp = solve_saturated(fine, amperes(I));
    const Saturated above = solve_saturated(fine, amperes(1.001 * I), &sharp);
    const Saturated below = solve_saturated(fine, amperes(0.999 * I), &sharp);
    CAPTURE(I, rough.linkage[0].lower, rough.linkage[0].value, rough.linkage[0].upper,
            sharp.linkage[0].lower, sharp.linkage[0].value, sharp.linkage[0].upper);
    CHECK(sharp.linkage[0].lower < sharp.linkage[0].value);
    CHECK(sharp.linkage[0].value < sharp.linkage[0].upper);
    CHECK(rough.linkage[0].lower < sharp.linkage[0].value);
    CHECK(sharp.linkage[0].value < rough.linkage[0].upper);
    CHECK((rough.linkage[0].upper - rough.linkage[0].lower) < 0.2 * rough.linkage[0].value);
    CHECK((above.upper - below.upper) / (0.002 * I) ==
          Approx(sharp.linkage[0].value).epsilon(1e-4));
    CHECK((above.linkage[0].value - below.linkage[0].value) / (0.002 * I) ==
          Approx(sharp.incremental(0, 0)).epsilon(1e-3));
  }
}

TEST_CASE("a list of currents is the currents one by one, whatever the threads",
          "[saturation][long]")
{
  const Problem problem = rod_coil(1e-4);
  std::vector<Eigen::VectorXd> list;
  for (const double I : {4.0, 0.5, 1.0, 8.0, 2.0})
    list.push_back(amperes(I));
  const std::vector<Saturated> one = saturation_curve(problem, list, 1),
                               two = saturation_curve(problem, list, 2);
  for (std::size_t i = 0; i < list.size(); ++i)
  {
    const Saturated alone = solve_saturated(problem, list[i]);
    CAPTURE(list[i][0], one[i].iterations, alone.iterations);
    CHECK(one[i].lower == two[i].lower);
    CHECK(one[i].accuracy_reached);
    CHECK(one[i].lower <= alone.upper);
    CHECK(alone.lower <= one[i].upper);
  }
}
