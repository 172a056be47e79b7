// The guarantee itself: the identity behind the gap, any admissible pair as a bracket, mutuals.
#include "core_scenes.hpp"

#include "reference/thick_coils.hpp"
#include "solver/solution.hpp"
#include "solver/solve.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace solver;
using scenes::mm;

namespace
{

/// Random admissible change, of some ten per cent of the solution: zero on the axis for the flux.
Eigen::MatrixXd shaken(const scenes::Discrete& d, const Eigen::MatrixXd& x, bool flux)
{
  Eigen::MatrixXd change = Eigen::MatrixXd::Random(x.rows(), x.cols());
  for (int i = 0; i < d.space.count; ++i)
    if (flux && d.space.on_axis[i])
      change.row(i).setZero();
  return x + 0.1 * x.cwiseAbs().maxCoeff() * change;
}

/// gap_ij - (upper_ij - lower_ij) of all pairs of windings, over the largest term.
double identity_error(const scenes::Discrete& d)
{
  const Bracket b = d.bracket();
  const Eigen::MatrixXd work = d.flux_loads.transpose() * d.flux; // l_i(psi_j)
  const Eigen::MatrixXd told = b.field_energy + b.flux_energy - work - work.transpose();
  const double scale = b.field_energy.cwiseAbs().maxCoeff() + b.flux_energy.cwiseAbs().maxCoeff() +
                       work.cwiseAbs().maxCoeff();
  const Eigen::VectorXd lower = 2.0 * work.diagonal() - b.flux_energy.diagonal();
  return std::max((b.gap - told).cwiseAbs().maxCoeff(), (b.lower - lower).cwiseAbs().maxCoeff()) /
         scale;
}

/// The moment's upper bound for 1 T, by the potential alone:
/// int (mu - mu0) H0^2 + 2 (mu - mu0) H0 . h + mu h^2 over the bodies and beyond.
double upper_moment(const scenes::Discrete& d, const Bracket& b)
{
  const Eigen::Index j = d.potential.cols() - 1;
  const double H0 = 1.0 / mu0;
  double sum = b.field_energy(j, j);
  for (int k = 0; k < static_cast<int>(d.space.mesh.triangles.size()); ++k)
  {
    const double contrast = mu0 * (d.permeability[d.space.mesh.triangles[k].region] - 1.0);
    if (contrast == 0.0)
      continue;
    const ElementTable table = triangle_table(d.space, k, Care::bracketing);
    const Gather g = triangle_gather(d.space, k);
    Eigen::MatrixXd local(g.index.size(), 1);
    for (std::size_t i = 0; i < g.index.size(); ++i)
      local(i, 0) = g.sign[i] * d.potential(g.index[i], j);
    const ElementTable::Gradients phi = table.gradients(local);
    for (std::size_t q = 0; q < table.points.size(); ++q)
      sum += scenes::pi * table.points[q].weight * contrast *
             (H0 * H0 - 2.0 * H0 * phi.d_z(0, static_cast<Eigen::Index>(q)));
  }
  return sum;
}

double inductance(const mesh::Scene& scene, double accuracy)
{
  Problem problem;
  problem.scene = scene;
  problem.materials = {{"core", {.permeability = 80.0}}, {"dust", {.permeability = 6.0}}};
  problem.accuracy = accuracy;
  const Solution s = solve(problem);
  return s.bracket.lower[0];
}

mesh::Scene scaled(mesh::Scene scene, double factor)
{
  auto& rod = std::get<mesh::Rod>(scene.parts[0].shape);
  auto& block = std::get<mesh::Block>(scene.windings[0].build);
  for (double* length :
       {&rod.diameter, &rod.length, &block.inner_diameter, &block.outer_diameter, &block.length})
    *length *= factor;
  return scene;
}

} // namespace

TEST_CASE("the gap is the difference of the bounds for solutions and for any admissible pair",
          "[bracket]")
{
  // int |H - nu B|^2 = int mu H^2 - 2 l(psi) + int nu B^2 needs curl H = J exactly and quadrature
  // to round-off; nothing else makes a shaken pair obey it.
  std::srand(1);
  for (const scenes::Named& one : scenes::all())
    for (const int order : {2, 4})
    {
      CAPTURE(one.name, order);
      scenes::Discrete d = scenes::discrete(one.scene, order);
      CHECK(identity_error(d) < 1e-12);
      d.flux = shaken(d, d.flux, true);
      d.potential = shaken(d, d.potential, false);
      CHECK(identity_error(d) < 1e-12);
    }
}

TEST_CASE("every admissible pair brackets the same energy", "[bracket][long]")
{
  // All lower bounds lie below all upper bounds; solutions of order 5 give the narrowest.
  std::srand(2);
  for (const scenes::Named& one : scenes::all())
  {
    CAPTURE(one.name);
    const Bracket fine = scenes::discrete(one.scene, 5).bracket();
    scenes::Discrete d = scenes::discrete(one.scene, 2);
    const Bracket plain = d.bracket();
    for (int trial = 0; trial < 3; ++trial)
    {
      const Bracket b = d.bracket();
      for (Eigen::Index j = 0; j < b.lower.size(); ++j)
      {
        CHECK(b.lower[j] <= fine.lower[j] + fine.gap(j, j));
        CHECK(b.lower[j] + b.gap(j, j) >= fine.lower[j]);
        CHECK(b.lower[j] <= plain.lower[j] * (1.0 + 1e-10));
        CHECK(b.lower[j] + b.gap(j, j) >=
              (plain.lower[j] + plain.gap(j, j)) * (1.0 - 1e-10)); // solutions are the best pair
      }
      d.flux = shaken(d, d.flux, true);
      d.potential = shaken(d, d.potential, false);
    }
  }
}

TEST_CASE("the moment in a background field is bracketed by the same identity", "[bracket]")
{
  std::srand(3);
  for (const int scene : {0, 5, 6, 7})
  {
    CAPTURE(scenes::all()[scene].name);
    mesh::Scene bodies = scenes::all()[scene].scene;
    bodies.windings.clear();
    scenes::Discrete d = scenes::discrete(bodies, 3, true);
    for (int trial = 0; trial < 2; ++trial)
    {
      const Bracket b = d.bracket();
      const double upper = upper_moment(d, b);
      CHECK(b.lower[0] + b.gap(0, 0) == Approx(upper).epsilon(1e-11));
      CHECK((trial > 0 || b.lower[0] > 0.0)); // a shaken pair may say anything
      d.flux = shaken(d, d.flux, true);
      d.potential = shaken(d, d.potential, false);
    }
  }
}

TEST_CASE("gaps of elements and energies of regions add up to the whole", "[bracket]")
{
  for (const int scene : {1, 5, 8})
  {
    CAPTURE(scenes::all()[scene].name);
    const Bracket b = scenes::discrete(scenes::all()[scene].scene, 3).bracket();
    for (Eigen::Index j = 0; j < b.lower.size(); ++j)
    {
      CHECK(b.triangle_gap.col(j).sum() + b.exterior_gap.col(j).sum() ==
            Approx(b.gap(j, j)).epsilon(1e-12));
      CHECK(b.triangle_gap.col(j).minCoeff() >= 0.0);
    }
    Eigen::MatrixXd sum = Eigen::MatrixXd::Zero(b.gap.rows(), b.gap.cols());
    for (std::size_t r = 0; r < b.region_flux.size(); ++r)
      sum += b.region_energy(r);
    CHECK((sum - 0.5 * (b.flux_energy + b.field_energy)).cwiseAbs().maxCoeff() <
          1e-13 * sum.cwiseAbs().maxCoeff());
  }
}

TEST_CASE("the mutual inductance of two coils lies in its bracket", "[bracket]")
{
  // |M - (flux + field)/2| <= sqrt(gap_1 gap_2) / 2 against the Bessel integral [Conway 2007].
  const mesh::Scene scene{{},
                          {scenes::block(20, 24, 30, 60),
                           {"outer", 40, mesh::Block{28 * mm, 36 * mm, 14 * mm}, 2 * mm}}};
  const double M = reference::thick_mutual({10 * mm, 12 * mm, -15 * mm, 15 * mm, 60},
                                           {14 * mm, 18 * mm, -5 * mm, 9 * mm, 40});
  double widest = 1.0;
  for (const int order : {2, 3, 5})
  {
    const Bracket b = scenes::discrete(scene, order).bracket();
    const double middle = 0.5 * (b.flux_energy(0, 1) + b.field_energy(0, 1));
    const double half = 0.5 * std::sqrt(b.gap(0, 0) * b.gap(1, 1));
    CAPTURE(order, M, middle, half);
    CHECK(std::abs(middle - M) <= half);
    CHECK(half < widest);
    widest = half;
  }
  Problem problem;
  problem.scene = scene;
  problem.accuracy = 1e-4;
  const Bracket b = solve(problem).bracket;
  const double middle = 0.5 * (b.flux_energy(0, 1) + b.field_energy(0, 1));
  const double half = 0.5 * std::sqrt(b.gap(0, 0) * b.gap(1, 1));
  CHECK(std::abs(middle - M) <= half);
  CHECK(half <= 1.0001e-4 * std::sqrt((b.lower[0] + b.gap(0, 0)) * (b.lower[1] + b.gap(1, 1))));
}

TEST_CASE("inductance goes with the size and the square of the turns", "[bracket]")
{
  // A factor of two shifts every exponent alike, so all that differs is mu0 times a length.
  const mesh::Scene scene = scenes::all()[0].scene;
  const double L = inductance(scene, 1e-3);
  CHECK(inductance(scaled(scene, 2.0), 1e-3) == Approx(2.0 * L).epsilon(1e-12));
  CHECK(inductance(scaled(scene, 1.0 / 64.0), 1e-3) == Approx(L / 64.0).epsilon(1e-12));
  mesh::Scene more = scene;
  more.windings[0].turns *= 3.0;
  CHECK(inductance(more, 1e-3) == Approx(9.0 * L).epsilon(1e-12));
}
