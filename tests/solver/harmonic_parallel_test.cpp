// Turns in parallel: one voltage, currents as the field shares them.
#include "post/quantities.hpp"
#include "solver/harmonic.hpp"
#include "solver/solution.hpp"
#include "solver/solve.hpp"

#include "reference/loops.hpp"

#include <Eigen/LU>
#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

namespace
{

using Complex = std::complex<double>;
constexpr double pi = std::numbers::pi, mm = 1e-3;

mesh::RoundTurns solid(double wire, double inner, double pitch, int layers = 1)
{
  mesh::RoundTurns build{.wire_diameter = wire, .inner_diameter = inner, .layers = layers};
  build.pitch = pitch;
  build.strand = mesh::Strand::solid;
  return build;
}

solver::Problem joined(mesh::RoundTurns build, double turns, double accuracy)
{
  solver::Problem problem;
  build.parallel = true;
  problem.scene.windings.push_back({"coil", turns, build});
  problem.accuracy = accuracy;
  return problem;
}

/// The same turns as windings of one turn each.
solver::Problem apart(const solver::Problem& whole)
{
  solver::Problem problem = whole;
  const mesh::Winding winding = whole.scene.windings.front();
  mesh::RoundTurns build = std::get<mesh::RoundTurns>(winding.build);
  problem.scene.windings.clear();
  build.parallel = false;
  build.layers = 1;
  for (const mesh::Point& at : mesh::turn_centres(winding))
  {
    mesh::RoundTurns one = build;
    one.inner_diameter = 2.0 * at.r - mesh::full_diameter(build);
    problem.scene.windings.push_back(
        {"turn " + std::to_string(problem.scene.windings.size()), 1.0, one, at.z});
  }
  return problem;
}

/// Z of a network joined in parallel, and how far discs can move it.
std::pair<Complex, double> in_parallel(const solver::Harmonic& s)
{
  const Eigen::MatrixXcd Y = s.impedance.inverse();
  const Complex Z = 1.0 / Y.sum();
  // dZ = Z^2 1' Y dZm Y 1, the currents of one ampere in all on both sides.
  const Eigen::VectorXcd currents = Z * Y.rowwise().sum();
  double radius = 0.0;
  for (Eigen::Index i = 0; i < currents.size(); ++i)
    for (Eigen::Index j = 0; j < currents.size(); ++j)
      radius += std::abs(currents[i] * currents[j]) * s.disc(i, j);
  return {Z, radius};
}

} // namespace

TEST_CASE("two equal turns far apart have half of one in parallel, and half their mutual",
          "[harmonic]")
{
  // Solid rings at low frequency, density ~ 1/r [Maxwell 1873, 701 by quadrature].
  const double R = 10 * mm, a = 0.5 * mm, far = 60 * mm;
  const solver::Problem problem = joined(solid(2 * a, 2 * (R - a), far), 2.0, 1e-4);
  const solver::Solution s = solver::solve(problem);
  const post::Bounded found = post::result(s, s, {}).windings.front().inductance;
  // Circles in their place have the mean of r^2 over the current, as flux far away goes with it:
  // int r dA over int dA / r = a^2 R / (2 (R - sqrt(R^2 - a^2))). What is left is (a / far)^2.
  const double mean = a * std::sqrt(R / (2.0 * (R - std::sqrt(R * R - a * a))));
  const double mutual = reference::coaxial_circles(mean, mean, far), slack = 1e-4 * mutual;
  const double L = 0.5 * (reference::round_ring(R, a, reference::Spread::inverse) + mutual);
  CHECK(found.lower - slack <= L);
  CHECK(found.upper + slack >= L);
  CHECK(found.upper - found.lower < 3e-4 * L);
}

TEST_CASE("at rest turns in parallel share as direct current does", "[harmonic]")
{
  const solver::Problem whole = joined(solid(1 * mm, 6 * mm, 1.5 * mm, 2), 4.0, 1e-4);
  const solver::Solution one = solver::solve(whole), each = solver::solve(apart(whole));
  const post::Bounded found = post::result(one, one, {}).windings.front().inductance;
  const auto matrix = post::result(each, each, {}).mutual;
  // Conductance of a solid turn over sigma: int 1/(2 pi r) dA = R - sqrt(R^2 - a^2).
  Eigen::VectorXd share(4);
  const std::vector<mesh::Point> centres = mesh::turn_centres(whole.scene.windings.front());
  for (Eigen::Index i = 0; i < 4; ++i)
  {
    const double R = centres[static_cast<std::size_t>(i)].r, a = 0.5 * mm;
    share[i] = R - std::sqrt(R * R - a * a);
  }
  share /= share.sum();
  double low = 0.0, high = 0.0;
  for (Eigen::Index i = 0; i < 4; ++i)
    for (Eigen::Index j = 0; j < 4; ++j)
    {
      const post::Bounded& M = matrix[static_cast<std::size_t>(i)][static_cast<std::size_t>(j)];
      low += share[i] * share[j] * M.lower;
      high += share[i] * share[j] * M.upper;
    }
  CHECK(found.lower <= high);
  CHECK(found.upper >= low);
  CHECK(high - low < 1e-3 * low);
}

TEST_CASE("turns in parallel are the network of the turns one by one", "[harmonic][long]")
{
  // Six turns in two layers: at 1 MHz skin and proximity decide who carries the current.
  const solver::Problem whole = joined(solid(1 * mm, 6 * mm, 1.4 * mm, 2), 6.0, 1e-3);
  for (const double frequency : {100.0, 20e3, 1e6})
  {
    const solver::Harmonic one = solver::solve_harmonic(whole, frequency),
                           each = solver::solve_harmonic(apart(whole), frequency);
    const auto [Z, radius] = in_parallel(each);
    CAPTURE(frequency, one.impedance(0, 0), Z, one.disc(0, 0), radius);
    CHECK(std::abs(one.impedance(0, 0) - Z) <= one.disc(0, 0) + radius);
    CHECK(radius < 1e-2 * std::abs(Z));
    // All loss is in the winding, half of Re Z at 1 A.
    CHECK(2.0 * one.winding_loss(0, 0) ==
          Approx(one.impedance(0, 0).real()).margin(1e-3 * one.disc(0, 0)));
  }
}

TEST_CASE("two windings in parallel turns keep their own constants", "[harmonic]")
{
  solver::Problem problem = joined(solid(1 * mm, 6 * mm, 1.4 * mm), 2.0, 1e-3);
  mesh::RoundTurns other = solid(1 * mm, 10 * mm, 1.4 * mm);
  other.parallel = true;
  problem.scene.windings.push_back({"other", 3.0, other});
  const solver::Harmonic both = solver::solve_harmonic(problem, 50e3);
  const solver::Harmonic each = solver::solve_harmonic(
      [&]
      {
        solver::Problem turns = apart(joined(solid(1 * mm, 6 * mm, 1.4 * mm), 2.0, 1e-3));
        const solver::Problem more = apart(joined(solid(1 * mm, 10 * mm, 1.4 * mm), 3.0, 1e-3));
        for (mesh::Winding one : more.scene.windings)
        {
          one.name += " of other";
          turns.scene.windings.push_back(one);
        }
        return turns;
      }(),
      50e3);
  // Currents into each group: Y of groups is the sum over their turns.
  const Eigen::MatrixXcd Y = each.impedance.inverse();
  Eigen::Matrix2cd grouped;
  grouped << Y.topLeftCorner(2, 2).sum(), Y.topRightCorner(2, 3).sum(),
      Y.bottomLeftCorner(3, 2).sum(), Y.bottomRightCorner(3, 3).sum();
  const Eigen::Matrix2cd Z = grouped.inverse();
  for (Eigen::Index i = 0; i < 2; ++i)
    for (Eigen::Index j = 0; j < 2; ++j)
      CHECK(std::abs(both.impedance(i, j) - Z(i, j)) <=
            2e-3 * std::sqrt(std::abs(Z(i, i) * Z(j, j))));
}
