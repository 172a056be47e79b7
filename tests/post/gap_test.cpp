// Fringing of gaps: what the field must show whatever the rule, and where the rules stand.
#include "post/core_forms.hpp"
#include "post/gap.hpp"
#include "solver/solution.hpp"
#include "solver/solve.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

namespace
{

constexpr double pi = std::numbers::pi;

/// A can of 30 x 22 mm with a post of 12 mm and 50 turns; its gap holds `filled` from the bottom.
solver::Problem pot(double gap, double permeability, double filled = 0.0, double mu_filling = 5.0)
{
  const double g = 0.5 * gap;
  solver::Problem made;
  made.scene.parts.push_back({"core",
                              mesh::Profile{{{0.0, -11e-3},
                                             {15e-3, -11e-3},
                                             {15e-3, 11e-3},
                                             {0.0, 11e-3},
                                             {0.0, g},
                                             {6e-3, g},
                                             {6e-3, 8e-3},
                                             {12e-3, 8e-3},
                                             {12e-3, -8e-3},
                                             {6e-3, -8e-3},
                                             {6e-3, -g},
                                             {0.0, -g}}},
                              "ferrite", 0.0, std::nullopt});
  if (filled > 0.0)
    made.scene.parts.push_back(
        {"filling", mesh::Rod{12e-3, filled}, "dust", -g + 0.5 * filled, std::nullopt});
  made.scene.windings.push_back({"choke", 50.0, mesh::Block{14e-3, 22e-3, 14e-3}, 0.0});
  made.materials["ferrite"].permeability = permeability;
  made.materials["dust"].permeability = mu_filling;
  made.currents = {2.0};
  made.accuracy = 1e-4;
  return made;
}

const post::FringingRule& rule(const post::GapResult& gap, const std::string& name)
{
  for (const post::FringingRule& one : gap.rules)
    if (one.name == name)
      return one;
  throw std::runtime_error("no rule " + name);
}

} // namespace

TEST_CASE("a gap of a highly permeable core takes all ampere-turns and the winding's flux", "[gap]")
{
  const double g = 1e-3;
  const solver::Solution solution = solver::solve(pot(g, 1e5));
  const std::vector<post::GapResult> gaps = post::gaps(solution);
  REQUIRE(gaps.size() == 1);
  const post::GapResult& gap = gaps.front();
  CHECK(gap.between == "core");
  CHECK(gap.filled == "air");
  CHECK(gap.length == Approx(g).epsilon(1e-12));
  CHECK(gap.radius == Approx(6e-3).epsilon(1e-12));
  CHECK(gap.equivalent == Approx(g).epsilon(1e-12));
  // Ampere's law: of 100 A the core keeps its path over mu A, some 1e-4 of the gap's.
  CHECK(std::abs(gap.potential) == Approx(100.0).epsilon(5e-4));
  // The winding links the flux of the post but for what crosses its own section, a few per cent.
  const double L = solution.bracket.lower[0], linked = L * 2.0 / 50.0;
  CHECK(std::abs(gap.flux) > linked);
  CHECK(std::abs(gap.flux) < 1.1 * linked);
  const double A = pi * 36e-6;
  CHECK(gap.fringing == Approx(gap.flux / gap.potential * g / (solver::mu0 * A)).epsilon(1e-12));
  // Rules of flux beside a gap of D/12 in a wide window: within a tenth of each other and of it.
  for (const post::FringingRule& one : gap.rules)
  {
    CAPTURE(one.name, one.value, gap.fringing);
    CHECK(one.holds);
  }
  CHECK(rule(gap, "plane corner").value == Approx(gap.fringing).epsilon(0.1));
}

TEST_CASE("fringing goes with the gap, and a filler leaves less of it", "[gap]")
{
  const auto factor = [](const solver::Problem& problem)
  { return post::gaps(solver::solve(problem)).front(); };
  const post::GapResult narrow = factor(pot(0.1e-3, 1e5)), wide = factor(pot(2e-3, 1e5)),
                        full = factor(pot(2e-3, 1e5, 2e-3)), half = factor(pot(2e-3, 1e5, 1e-3));
  CAPTURE(narrow.fringing, wide.fringing, full.fringing, half.fringing);
  CHECK(narrow.fringing > 1.0);
  CHECK(narrow.fringing < 1.1);
  CHECK(wide.fringing > 1.3);
  // What goes round a filler of mu 5 is air's still: F - 1 falls to about a fifth.
  CHECK(full.filled == "filling");
  CHECK(full.equivalent == Approx(2e-3 / 5.0).epsilon(1e-12));
  CHECK(full.fringing - 1.0 == Approx((wide.fringing - 1.0) / 5.0).epsilon(0.2));
  CHECK_FALSE(rule(full, "plane corner").holds);
  CHECK(half.filled == "filling and air");
  CHECK(half.equivalent == Approx(1e-3 / 5.0 + 1e-3).epsilon(1e-12));
  CHECK(half.fringing > full.fringing);
  CHECK(half.fringing < wide.fringing);
}

TEST_CASE("no gap is told where there is none, and the published rules have their values", "[gap]")
{
  solver::Problem rod = pot(1e-3, 1e3);
  rod.scene.parts = {{"rod", mesh::Rod{10e-3, 40e-3}, "ferrite", 0.0, std::nullopt}};
  CHECK(post::gaps(solver::solve(rod)).empty());
  // A gap filled with what is not ten times less permeable is no gap.
  CHECK(post::gaps(solver::solve(pot(1e-3, 40.0, 1e-3))).empty());
  // By hand: g 1, D 12, h 7.5: 1 + (4/12)(0.26 + ln(16)/pi).
  CHECK(post::roters_fringing(1.0, 12.0, 7.5) == Approx(1.3808475).epsilon(1e-6));
}
