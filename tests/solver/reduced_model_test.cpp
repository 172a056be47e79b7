// The reduced model against full solutions of the same problem: its bracket always meets theirs.
#include "solver/reduced_model.hpp"
#include "solver/solution.hpp"
#include "solver/solve.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

using Catch::Matchers::Message;

namespace
{

solver::Problem rod_and_sleeve()
{
  solver::Problem problem;
  problem.scene.parts = {{"core", mesh::Rod{6e-3, 40e-3}, "sintered"},
                         {"sleeve", mesh::Tube{11e-3, 15e-3, 30e-3}, "dust"}};
  problem.scene.windings = {{"inner", 80.0, mesh::Block{7e-3, 9e-3, 20e-3}},
                            {"outer", 30.0, mesh::Block{16e-3, 16e-3, 10e-3}, 4e-3}};
  problem.materials["sintered"].permeability = 500.0;
  problem.materials["dust"].permeability = 8.0;
  problem.accuracy = 1e-4;
  return problem;
}

/// Every winding's bracket at these permeabilities meets that of a full solution ten times closer.
void check_against_solution(const solver::Problem& given, const solver::ReducedModel& model,
                            const std::vector<double>& at)
{
  solver::Problem problem = given;
  for (std::size_t q = 0; q < at.size(); ++q)
    problem.materials[model.varied[q].material].permeability = at[q];
  problem.accuracy = 0.1 * given.accuracy;
  const solver::Solution full = solver::solve(problem);
  REQUIRE(full.accuracy_reached);
  for (std::size_t w = 0; w < model.windings.size(); ++w)
  {
    const auto j = static_cast<Eigen::Index>(w);
    const double lower = full.bracket.lower[j], upper = lower + full.bracket.gap(j, j);
    const solver::ReducedInductance L = solver::inductance(model.windings[w], at);
    INFO("winding " << w << " at " << at.front() << " and " << at.back());
    CHECK(L.lower <= upper);
    CHECK(L.upper >= lower);
    CHECK(L.upper >= L.lower);
    CHECK(0.5 * (L.upper - L.lower) <= given.accuracy * L.value());
    for (std::size_t q = 0; q < at.size(); ++q)
    {
      const double energy = full.bracket.region_energy(q + 1)(j, j);
      CHECK(std::abs(L.slope[q] - energy) <= 10.0 * given.accuracy * L.value());
    }
  }
}

} // namespace

TEST_CASE("a reduced model of one material brackets the inductance at any permeability",
          "[reduced_model]")
{
  const solver::Problem problem = rod_and_sleeve();
  const solver::ReducedModel model = solver::reduced_model(problem, {{"sintered", 1.0, 1e5}});
  REQUIRE(model.accuracy_reached);
  CHECK(model.snapshots <= 10);
  std::mt19937 random(7);
  for (int i = 0; i < 6; ++i)
  {
    const double u = static_cast<double>(random()) / 4294967296.0;
    check_against_solution(problem, model, {std::pow(1e5, u)});
  }
}

TEST_CASE("a reduced model of two materials brackets the inductance at any two permeabilities",
          "[reduced_model][long]")
{
  const solver::Problem problem = rod_and_sleeve();
  const solver::ReducedModel model =
      solver::reduced_model(problem, {{"sintered", 1.0, 2000.0}, {"dust", 1.0, 60.0}});
  REQUIRE(model.accuracy_reached);
  std::mt19937 random(11);
  for (int i = 0; i < 5; ++i)
  {
    const double u = static_cast<double>(random()) / 4294967296.0,
                 v = static_cast<double>(random()) / 4294967296.0;
    check_against_solution(problem, model, {std::pow(2000.0, u), std::pow(60.0, v)});
  }
}

TEST_CASE("outside its range a reduced model is wider but still a bracket", "[reduced_model]")
{
  solver::Problem problem = rod_and_sleeve();
  const solver::ReducedModel model = solver::reduced_model(problem, {{"sintered", 2.0, 20.0}});
  const std::vector<double> far = {3000.0};
  problem.materials["sintered"].permeability = far[0];
  problem.accuracy = 1e-5;
  const solver::Solution full = solver::solve(problem);
  const solver::ReducedInductance L = solver::inductance(model.windings[0], far);
  CHECK(L.lower <= full.bracket.lower[0] + full.bracket.gap(0, 0));
  CHECK(L.upper >= full.bracket.lower[0]);
  CHECK(L.upper - L.lower > 1e-4 * L.value());
}

TEST_CASE("the slope of a reduced inductance is its derivative by the logarithm of permeability",
          "[reduced_model]")
{
  const solver::ReducedModel model =
      solver::reduced_model(rod_and_sleeve(), {{"sintered", 1.0, 1e4}});
  for (const double mu : {2.0, 40.0, 900.0})
  {
    const double h = 1e-4;
    const double difference =
        (solver::inductance(model.windings[0], std::vector{mu * std::exp(h)}).value() -
         solver::inductance(model.windings[0], std::vector{mu * std::exp(-h)}).value()) /
        (2.0 * h);
    CHECK(solver::inductance(model.windings[0], std::vector{mu}).slope[0] ==
          Approx(difference).epsilon(1e-6));
  }
}

TEST_CASE("a reduced model refuses what it cannot vary", "[reduced_model]")
{
  solver::Problem problem = rod_and_sleeve();
  CHECK_THROWS_MATCHES(solver::reduced_model(problem, {}), std::invalid_argument,
                       Message("a reduced model needs a material to vary"));
  CHECK_THROWS_MATCHES(solver::reduced_model(problem, {{"gold", 1.0, 2.0}}), std::invalid_argument,
                       Message("there is no material \"gold\" to vary"));
  CHECK_THROWS_MATCHES(solver::reduced_model(problem, {{"dust", 2.0, 2.0}}), std::invalid_argument,
                       Message("the range of \"dust\" is empty"));
  const solver::ReducedModel model = solver::reduced_model(problem, {{"dust", 1.0, 20.0}});
  CHECK_THROWS_MATCHES(solver::inductance(model.windings[0], std::vector<double>{}),
                       std::invalid_argument,
                       Message("one permeability a varied material is needed"));
  problem.scene.windings.clear();
  CHECK_THROWS_MATCHES(solver::reduced_model(problem, {{"dust", 1.0, 2.0}}), std::invalid_argument,
                       Message("a reduced model needs a winding"));
}
