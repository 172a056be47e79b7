// Saturating fields against answers from outside, and the promise of the bracket on random scenes.
#include "random_scenes.hpp"

#include "mesh/clashes.hpp"
#include "reference/magnetic_bodies.hpp"
#include "solver/saturation.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <random>

using namespace solver;

namespace
{

constexpr double pi = std::numbers::pi, mm = 1e-3;

void give(Problem& problem, const std::string& name, MagneticLaw law)
{
  Material& one = problem.materials[name];
  one.magnetisation = std::make_shared<Magnetisation>(std::move(law));
  one.permeability = one.magnetisation->initial_permeability();
}

/// Coenergy of an ellipsoid of volume V and axial factor N in a uniform field H0, its uniform
/// inside solving H + N J(H) / mu0 = H0: V (int J dH + N J^2 / (2 mu0)).
double ellipsoid_coenergy(const Magnetisation& law, double volume, double N, double H0)
{
  double low = 0.0, high = H0;
  for (int i = 0; i < 200; ++i)
  {
    const double H = 0.5 * (low + high);
    (H + N * (law.at_field(H).B / mu0 - H) < H0 ? low : high) = H;
  }
  const MagneticState at = law.at_field(0.5 * (low + high));
  const double J = at.B - mu0 * at.H;
  return volume * (at.coenergy - 0.5 * mu0 * at.H * at.H + 0.5 * N * J * J / mu0);
}

/// A spheroid as a polygon through its points, or about it, so that it lies between the two.
mesh::Profile polygon(double radius, double half_length, bool about)
{
  constexpr int points = 40;
  // Chords of the circle the spheroid is an image of; moved outwards they become tangents.
  const double outward = about ? 1.0 / std::cos(0.5 * pi / points) : 1.0;
  mesh::Profile profile;
  for (int i = 0; i <= points; ++i)
  {
    const double angle = pi * i / points;
    profile.points.push_back({i == 0 || i == points ? 0.0 : outward * radius * std::sin(angle),
                              -outward * half_length * std::cos(angle)});
  }
  return profile;
}

} // namespace

TEST_CASE("a saturating spheroid lies between polygons within and about it",
          "[saturation][outside]")
{
  // [Osborn 1945] has the factor; a greater body has the greater coenergy.
  const double a = 4 * mm, c = 12 * mm, volume = 4.0 / 3.0 * pi * a * a * c;
  const double N = reference::spheroid_factor(c / a);
  for (const double B0 : {0.02, 0.1})
  {
    double bound[2];
    Problem problem;
    problem.background = B0;
    problem.accuracy = 1e-3;
    give(problem, "core", FroehlichKennelly{0.4, 300.0});
    for (const bool about : {false, true})
    {
      problem.scene.parts = {{"core", polygon(a, c, about), "core"}};
      const Saturated s = solve_saturated(problem, Eigen::VectorXd(0));
      CAPTURE(s.accuracy_met, s.limit);
      CHECK(s.accuracy_reached);
      bound[about] = about ? s.upper : s.lower;
    }
    const double exact =
        ellipsoid_coenergy(*problem.materials["core"].magnetisation, volume, N, B0 / mu0);
    CAPTURE(B0, bound[0], exact, bound[1]);
    CHECK(bound[0] <= exact);
    CHECK(exact <= bound[1]);
    CHECK(bound[1] - bound[0] <= 0.02 * exact); // 40 sides and twice 1e-3
  }
}

TEST_CASE("a closed core with a thin gap is its gap's reluctance", "[saturation][outside]")
{
  // Reluctance: L = mu0 N^2 A / g times a fringing factor that is 1 in the limit of a thin gap;
  // the core's own share is 2 g_core / g below 1 per cent here. Common practice, no source.
  Problem problem;
  const double g = 0.02;
  problem.scene.parts = {{"core",
                          mesh::Profile{{{0, -11 * mm},
                                         {15 * mm, -11 * mm},
                                         {15 * mm, 11 * mm},
                                         {0, 11 * mm},
                                         {0, 0.5 * g * mm},
                                         {6 * mm, 0.5 * g * mm},
                                         {6 * mm, 8 * mm},
                                         {12 * mm, 8 * mm},
                                         {12 * mm, -8 * mm},
                                         {6 * mm, -8 * mm},
                                         {6 * mm, -0.5 * g * mm},
                                         {0, -0.5 * g * mm}}},
                          "core"}};
  problem.scene.windings = {{"coil", 50, mesh::Block{14 * mm, 22 * mm, 14 * mm}}};
  problem.accuracy = 1e-4;
  give(problem, "core", HyperbolicTangent{0.45, 1e6});
  const double A = pi * 36 * mm * mm, reluctance = g * mm / (mu0 * A);
  const Saturated weak = solve_saturated(problem, Eigen::VectorXd::Constant(1, 1e-3));
  CHECK(weak.incremental(0, 0) == Approx(2500.0 / reluctance).epsilon(0.02));
  // Past saturation of the post the linkage has at least all of J_s and little more.
  const Saturated strong = solve_saturated(problem, Eigen::VectorXd::Constant(1, 3.0));
  CHECK(strong.linkage[0].value > 50.0 * 0.45 * A);
  CHECK(strong.linkage[0].value < 1.1 * 50.0 * 0.45 * A);
}

TEST_CASE("coenergy brackets of random saturating scenes overlap at two accuracies and grow with "
          "the curve",
          "[saturation][random]")
{
  std::mt19937 draws(7);
  std::uniform_real_distribution<double> even(0.0, 1.0);
  int checked = 0;
  for (unsigned seed = 1; checked < 9; ++seed)
  {
    Problem problem = random_scenes::problem(seed);
    if (!mesh::clashes(problem.scene).empty() || problem.scene.windings.empty())
      continue;
    const double J_s = 0.2 + even(draws), mu = 5.0 * std::pow(600.0, even(draws));
    const double I = std::pow(10.0, 4.0 * even(draws) - 1.0);
    const auto law = [&](double stronger) -> MagneticLaw
    {
      if (checked % 3 == 0)
        return FroehlichKennelly{stronger * J_s, 1.0 + stronger * (mu - 1.0)};
      if (checked % 3 == 1)
        return ArcTangent{stronger * J_s, 1.0 + stronger * (mu - 1.0)};
      CurveRows rows = {{0.0, 0.0}};
      for (const double x : {0.1, 0.3, 0.7, 1.2, 2.0, 4.0, 9.0})
      {
        const double H = x * J_s / (mu0 * mu);
        rows.push_back({H, mu0 * H + stronger * J_s * std::tanh(x)});
      }
      return rows;
    };
    give(problem, "m", law(1.0));
    const Eigen::VectorXd current = Eigen::VectorXd::Constant(1, I);
    problem.accuracy = 3e-3;
    const Saturated wide = solve_saturated(problem, current);
    problem.accuracy = 3e-4;
    const Saturated narrow = solve_saturated(problem, current);
    give(problem, "m", law(1.2));
    const Saturated stronger = solve_saturated(problem, current);
    ++checked;
    CAPTURE(seed, checked, I, wide.lower, wide.upper, narrow.lower, narrow.upper, narrow.limit);
    CHECK(wide.accuracy_reached);
    CHECK(narrow.accuracy_reached);
    CHECK(wide.lower <= narrow.upper);
    CHECK(narrow.lower <= wide.upper);
    CHECK(stronger.upper >= narrow.lower);
    // Both energies by their own sums: int w* is the upper bound, a table's kinks left to
    // quadrature.
    double coenergy = 0.0;
    for (const double part : narrow.region_coenergy)
      coenergy += part;
    CHECK(coenergy == Approx(narrow.upper).epsilon(checked % 3 == 0 ? 1e-5 : 1e-7));
  }
}
