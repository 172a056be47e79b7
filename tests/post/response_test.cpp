// Responses against direct solutions of the moved cases, and dimensions that cannot move freely.
//
// What is compared is bracketed on both sides, so the tolerance is the sum of both half-widths.
#include "post/response.hpp"

#include "post/quantities.hpp"
#include "solver/solution.hpp"
#include "solver/solve.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <stdexcept>

namespace
{

using post::Spread;

constexpr double mm = 1e-3, accuracy = 1e-4;

/// A short rod of 6 mm in a coil of 9 mm bore, beside a second coil.
solver::Problem rod(double diameter, double permeability, double turns)
{
  solver::Problem problem;
  problem.materials["core"].permeability = permeability;
  problem.scene.parts = {{"rod", mesh::Rod{diameter, 24 * mm}, "core", 0.0, {}}};
  problem.scene.windings = {{"coil", turns, mesh::Block{9 * mm, 10 * mm, 12 * mm}, 0.0},
                            {"pick-up", 30.0, mesh::Block{9 * mm, 10 * mm, 3 * mm}, 10 * mm}};
  problem.accuracy = accuracy;
  return problem;
}

/// Diameter uniform, turns normal; the unknown is the permeability or the rod's diameter.
post::FitQuestion question(bool material)
{
  post::FitQuestion made;
  made.key = material ? "permeability" : "diameter";
  if (material)
    made.material = post::MaterialUnknown{"core", [](double u) { return u; }};
  made.dimensions = {{"coil.turns", 80.0, Spread::normal, 0.5}};
  if (material)
    made.dimensions.push_back({"rod.diameter", 6 * mm, Spread::uniform, 0.1 * mm});
  made.nodes = material ? std::vector<double>{1.0, 4.0, 30.0, 200.0, 1e4}
                        : std::vector<double>{3 * mm, 4 * mm, 5 * mm, 6 * mm, 7 * mm};
  made.problem = [material](const post::Moved& moved)
  {
    double diameter = 6 * mm, turns = 80.0;
    if (moved.unknown && !material)
      diameter = *moved.unknown;
    if (moved.dimension)
      (*moved.dimension == 0 ? turns : diameter) = moved.value;
    return rod(diameter, 30.0, turns);
  };
  return made;
}

struct Direct
{
  double log = 0.0, half_width = 0.0;
};

Direct direct(const solver::Problem& problem, Eigen::Index winding)
{
  const solver::Solution solution = solver::solve(problem);
  const double lower = solution.bracket.lower[winding],
               gap = solution.bracket.gap(winding, winding);
  return {std::log(lower + 0.5 * gap), 0.5 * gap / (lower + 0.5 * gap)};
}

void check_same(double response, double half_width, const Direct& other)
{
  CHECK(std::abs(response - other.log) <= half_width + other.half_width);
  CHECK(other.half_width <= accuracy);
}

} // namespace

TEST_CASE("a material's response is that of solving the case, moved or not", "[fit][long]")
{
  const auto all = post::responses(question(true), true, 1);
  REQUIRE(all.size() == 2);
  CHECK(all[0].winding == "coil");
  CHECK(all[1].winding == "pick-up");
  for (const std::size_t i : {0u, 2u, 4u})
    for (const std::size_t w : {0u, 1u})
    {
      const post::Response& one = all[w];
      const auto j = static_cast<Eigen::Index>(w);
      const double u = one.unknown[i], y = one.log_inductance[i], half = one.half_width[i];
      CAPTURE(u, w);
      CHECK(half <= accuracy);
      check_same(y, half, direct(rod(6 * mm, u, 80.0), j));
      // Turns: a normal dimension moves by two of its standard uncertainties.
      check_same(y + one.linear[0][i] + one.quadratic[0][i], half, direct(rod(6 * mm, u, 81.0), j));
      check_same(y + one.linear[1][i] + one.quadratic[1][i], half,
                 direct(rod(6.1 * mm, u, 80.0), j));
      check_same(y - one.linear[1][i] + one.quadratic[1][i], half,
                 direct(rod(5.9 * mm, u, 80.0), j));
    }
  // L goes with N^2: ln(81 / 80)^2 and ln(79 / 80)^2, to brackets that cancel but for round-off.
  CHECK(all[0].linear[0][2] == Approx(std::log(81.0 / 79.0)).epsilon(1e-9));
  CHECK(all[0].quadratic[0][2] == Approx(std::log(81.0 * 79.0 / 6400.0)).epsilon(1e-6));
  CHECK(all[1].linear[0][2] == Approx(0.0).margin(1e-12)); // the other's turns
  // The empty coils.
  for (const std::size_t w : {0u, 1u})
    check_same(all[w].log_air, accuracy,
               direct(rod(6 * mm, 1.0, 80.0), static_cast<Eigen::Index>(w)));
  CHECK(all[0].air_linear.at(0) == Approx(std::log(81.0 / 79.0)).epsilon(1e-9));
  CHECK(all[0].air_linear.at(1) == Approx(0.0).margin(2 * accuracy)); // no rod in air
}

TEST_CASE("a dimension's response goes through the solved cases, and between them", "[fit][long]")
{
  const auto all = post::responses(question(false), false, 1);
  const post::Response& one = all.at(0);
  REQUIRE(one.unknown.size() == 241);
  CHECK(one.unknown.front() == 3 * mm);
  CHECK(one.unknown.back() == 7 * mm);
  check_same(one.log_inductance.front(), one.half_width.front(), direct(rod(3 * mm, 30, 80), 0));
  check_same(one.log_inductance.back(), one.half_width.back(), direct(rod(7 * mm, 30, 80), 0));
  // Between nodes a monotone cubic of a smooth curve: off by less than a thousandth here.
  const std::size_t middle = 160;
  const Direct between = direct(rod(one.unknown[middle], 30, 80), 0);
  CHECK(one.log_inductance[middle] == Approx(between.log).margin(1e-3));
  CHECK(one.linear.at(0)[middle] == Approx(std::log(81.0 / 79.0)).epsilon(1e-9));
  CHECK(one.air_linear.empty());
}

TEST_CASE("dimensions are moved near the readings only, where that is asked", "[fit]")
{
  post::FitQuestion asked = question(false);
  asked.near = {5 * mm, 6 * mm};
  std::vector<double> moved_at;
  asked.problem = [&, whole = asked.problem](const post::Moved& moved)
  {
    if (moved.dimension && moved.unknown)
      moved_at.push_back(*moved.unknown);
    return whole(moved);
  };
  const auto all = post::responses(asked, false, 1);
  CHECK(moved_at == std::vector<double>{5 * mm, 6 * mm, 5 * mm, 6 * mm});
  CHECK(all[0].linear[0].size() == all[0].unknown.size());
}

TEST_CASE("one and two threads give the same bits", "[fit][long]")
{
  for (const bool material : {true, false})
  {
    const auto one = post::responses(question(material), true, 1);
    const auto two = post::responses(question(material), true, 2);
    for (std::size_t w = 0; w < one.size(); ++w)
    {
      CHECK(one[w].log_inductance == two[w].log_inductance);
      CHECK(one[w].half_width == two[w].half_width);
      CHECK(one[w].linear == two[w].linear);
      CHECK(one[w].quadratic == two[w].quadratic);
      CHECK(one[w].log_air == two[w].log_air);
      CHECK(one[w].air_linear == two[w].air_linear);
    }
  }
}

TEST_CASE("a dimension that can move one way only is moved that way", "[fit][long]")
{
  post::FitQuestion asked = question(true);
  const auto free = post::responses(asked, true, 1);
  asked.problem = [whole = asked.problem](const post::Moved& moved)
  {
    if (moved.dimension == 1 && moved.value > 6 * mm)
      throw std::runtime_error("rod touches coil");
    return whole(moved);
  };
  const auto bound = post::responses(asked, true, 1);
  // ln L itself where the dimension is below: what is left above is the straight line.
  for (std::size_t i = 0; i < asked.nodes.size(); ++i)
  {
    CHECK(bound[0].linear[1][i] ==
          Approx(free[0].linear[1][i] - free[0].quadratic[1][i]).margin(1e-12));
    CHECK(bound[0].quadratic[1][i] == 0.0);
  }
  CHECK(bound[0].air_quadratic[1] == 0.0);
  CHECK(bound[0].quadratic[0] == free[0].quadratic[0]);

  asked.problem = [whole = question(true).problem](const post::Moved& moved)
  {
    if (moved.dimension == 1 && moved.value < 6 * mm)
      throw std::runtime_error("rod loose");
    return whole(moved);
  };
  const auto above = post::responses(asked, false, 1);
  CHECK(above[0].linear[1][2] ==
        Approx(free[0].linear[1][2] + free[0].quadratic[1][2]).margin(1e-12));
}

TEST_CASE("a dimension that can move neither way is told with its reason", "[fit]")
{
  post::FitQuestion asked = question(true);
  asked.problem = [whole = asked.problem](const post::Moved& moved)
  {
    if (moved.dimension == 1)
      throw std::runtime_error("rod touches coil");
    return whole(moved);
  };
  CHECK_THROWS_WITH(post::responses(asked, false, 1),
                    "rod.diameter can be moved neither way by its tolerance: rod touches coil");
}

TEST_CASE("what is no response is refused", "[fit]")
{
  post::FitQuestion asked = question(true);
  asked.nodes = {1.0, 2.0, 3.0};
  CHECK_THROWS_AS(post::responses(asked, false, 1), std::invalid_argument);
  asked = question(true);
  asked.problem = [](const post::Moved&) -> solver::Problem
  { throw std::runtime_error("no case"); };
  CHECK_THROWS_WITH(post::responses(asked, false, 1), "no case");
  asked.problem = [](const post::Moved&)
  {
    solver::Problem bare = rod(6 * mm, 30.0, 80.0);
    bare.scene.windings.clear();
    return bare;
  };
  CHECK_THROWS_AS(post::responses(asked, false, 1), std::invalid_argument);
}

TEST_CASE("a step is a half-width, or twice a standard uncertainty", "[fit]")
{
  CHECK(post::step({"a", 1.0, Spread::uniform, 0.1}) == 0.1);
  CHECK(post::step({"a", 1.0, Spread::normal, 0.1}) == 0.2);
}

TEST_CASE("a dimension of whole numbers is solved a whole step away and scaled to its own", "[fit]")
{
  post::FitQuestion asked = question(false);
  asked.dimensions = {{"coil.turns", 80.0, Spread::uniform, 0.5}};
  asked.whole = {true};
  const auto problem = asked.problem;
  asked.problem = [problem](const post::Moved& moved)
  {
    if (moved.dimension && moved.value != std::floor(moved.value))
      throw std::invalid_argument("half a turn cannot be drawn");
    return problem(moved);
  };
  const post::Response coil = post::responses(asked, false, 2).front();
  // A block's inductance goes as N^2: half a turn more adds 2 ln(80.5 / 80), but for a third power
  // of 1/80 and the brackets of both sides.
  const std::size_t middle = coil.unknown.size() / 2;
  CHECK(coil.linear[0][middle] + coil.quadratic[0][middle] ==
        Approx(2.0 * std::log(80.5 / 80.0)).margin(2e-6 + 1e-9));
}
