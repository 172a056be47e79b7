// Curves over frequency, most points joined from a few solutions: what holds of every point.
#include "solver/harmonic_mesh.hpp"
#include "solver/harmonic_model.hpp"
#include "solver/harmonic_scenes.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using harmonic_scenes::loss;
using solver::Harmonic;
using solver::Problem;

namespace
{

constexpr double mm = 1e-3;

/// A rod that conducts and whose permeability falls over frequency, a plain section with strands
/// and solid turns about it.
Problem problem_of(double accuracy, int count)
{
  Problem problem;
  problem.materials["core"] = {.permeability = 60,
                               .imaginary = 20,
                               .conductivity = 1e4,
                               .table = {{1e2, 80, 1}, {1e4, 60, 8}, {1e6, 12, 20}}};
  problem.scene.parts.push_back({"rod", mesh::Rod{7 * mm, 25 * mm}, "core"});
  mesh::Block block{9 * mm, 11 * mm, 8 * mm};
  block.strand_diameter = 0.1 * mm;
  problem.scene.windings.push_back({"block", 40.0, block, -6 * mm});
  mesh::RoundTurns build{.wire_diameter = 0.8 * mm, .inner_diameter = 8 * mm, .pitch = 1 * mm};
  build.strand = mesh::Strand::solid;
  problem.scene.windings.push_back({"turns", 3.0, build, 6 * mm});
  for (int i = 0; i < count; ++i)
    problem.frequencies.push_back(1e2 * std::pow(1e4, i / (count - 1.0)));
  problem.accuracy = accuracy;
  return problem;
}

std::vector<Harmonic> curve(const Problem& problem, int threads)
{
  std::vector<Harmonic> list(problem.frequencies.size());
  solver::solve_curve(problem, threads,
                      [&](std::size_t i, const Harmonic& solved) { list[i] = solved; });
  return list;
}

} // namespace

TEST_CASE("a mesh is ordered once for all frequencies solved on it, and no number depends on that",
          "[harmonic][curve]")
{
  const Problem problem = problem_of(1e-2, 7);
  const Harmonic base = solver::solve_harmonic(problem, problem.frequencies[3]);
  solver::HarmonicModel model(base);
  model.add(std::vector{problem.frequencies[0], problem.frequencies[2], problem.frequencies[4]}, 1);
  model.add(std::vector{problem.frequencies[5], problem.frequencies[6]}, 1);
  CHECK(model.factors().orderings() == 2); // of the flux function and of the potential
  const Harmonic later =
                     solver::solve_harmonic(problem, problem.frequencies[1], base, model.factors()),
                 alone = solver::solve_harmonic(problem, problem.frequencies[1], &base);
  CHECK(later.impedance == alone.impedance);
  CHECK(later.error_energy == alone.error_energy);
  CHECK(model.factors().orderings() == 2);
}

TEST_CASE("every point of a curve reaches what is asked, and its discs meet those of a finer mesh",
          "[harmonic][curve][long]")
{
  const Problem problem = problem_of(1e-3, 25);
  const std::vector<Harmonic> all = curve(problem, 2);
  for (std::size_t i = 0; i < all.size(); ++i)
  {
    const Harmonic& s = all[i];
    CAPTURE(i, s.frequency, s.accuracy_met, s.limit);
    REQUIRE(s.frequency == problem.frequencies[i]);
    CHECK(s.accuracy_reached);
    CHECK(s.accuracy_met <= 1e-3);
    for (Eigen::Index w = 0; w < 2; ++w) // real and imaginary parts span apart: power balances
      CHECK(loss(s, w) == Approx(0.5 * s.impedance(w, w).real()).epsilon(1e-7));
    CHECK(std::abs(s.impedance(0, 1) - s.impedance(1, 0)) < 1e-12 * std::abs(s.impedance(0, 1)));
    if (i % 6 != 1)
      continue;
    Problem finer = problem;
    finer.accuracy = 1e-5;
    const Harmonic f = solver::solve_harmonic(finer, s.frequency);
    for (Eigen::Index w = 0; w < 2; ++w)
      for (Eigen::Index v = 0; v < 2; ++v)
      {
        CAPTURE(w, v, s.impedance(w, v), f.impedance(w, v), s.disc(w, v));
        CHECK(std::abs(s.impedance(w, v) - f.impedance(w, v)) <= s.disc(w, v) + f.disc(w, v));
      }
    for (std::size_t region = 0; region < f.region_loss.size(); ++region)
      CHECK(s.region_loss[region][0] ==
            Approx(f.region_loss[region][0]).epsilon(0.01).margin(1e-3 * loss(f, 0)));
    CHECK(s.strand_field[0](0, 0).real() == Approx(f.strand_field[0](0, 0).real()).epsilon(0.01));
    const mesh::Point inside{1 * mm, 5 * mm};
    const Eigen::Vector2d currents(1.0, 0.5);
    CHECK(std::abs(solver::field_at(s, currents, inside).B_z -
                   solver::field_at(f, currents, inside).B_z) <
          0.01 * std::abs(solver::field_at(f, currents, inside).B_z));
  }
}

TEST_CASE("a curve is the same on one thread and on two, to the last bit",
          "[harmonic][curve][long]")
{
  const Problem problem = problem_of(1e-2, 9);
  const std::vector<Harmonic> one = curve(problem, 1), two = curve(problem, 2);
  for (std::size_t i = 0; i < one.size(); ++i)
  {
    CHECK(one[i].impedance == two[i].impedance);
    CHECK(one[i].error_energy == two[i].error_energy);
    CHECK(one[i].region_loss == two[i].region_loss);
  }
}

TEST_CASE("a joined point's disc widens with the distance to what was solved, and holds the solved",
          "[harmonic][curve]")
{
  const Problem problem = problem_of(1e-4, 9);
  const Harmonic base = solver::solve_harmonic(problem, 1e5);
  solver::HarmonicModel model(base);
  CHECK_THROWS_AS(model.at(1e5), std::logic_error);
  model.add(std::vector<double>{1e5}, 1);
  // At a snapshot the model is that snapshot; its field has the least sum of both residuals'
  // squares, which is not quite the least disc.
  CHECK(model.numbers_at(1e5).accuracy_met <= 1.01 * base.accuracy_met);
  CHECK(std::abs(model.numbers_at(1e5).impedance(0, 0) - base.impedance(0, 0)) <
        1e-9 * std::abs(base.impedance(0, 0)));
  CHECK(model.numbers_at(8e4).accuracy_met < model.numbers_at(3e4).accuracy_met);
  CHECK(model.numbers_at(3e4).accuracy_met < model.numbers_at(3e3).accuracy_met);
  const Harmonic far = model.numbers_at(3e3), there = solver::solve_harmonic(problem, 3e3, &base);
  CHECK(far.disc(0, 0) > 10.0 * there.disc(0, 0));
  CHECK(std::abs(far.impedance(0, 0) - there.impedance(0, 0)) <= far.disc(0, 0) + there.disc(0, 0));
  const double before = far.disc(0, 0);
  model.add(std::vector<double>{1e3}, 1);
  CHECK(model.numbers_at(3e3).disc(0, 0) < 0.5 * before);
}
