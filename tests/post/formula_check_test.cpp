// The catalogue set against field solutions: grids, deviations, tallies and claims.
#include "post/formula_check.hpp"

#include "post/closed_forms.hpp"
#include "reference/loops.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>

namespace
{

/// @brief The family of that name with other grids.
post::CheckFamily family(const std::string& name, std::vector<double> x, std::vector<double> y,
                         std::vector<double> third)
{
  const auto all = post::check_families(false);
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const auto& one) { return one.name == name; });
  REQUIRE(found != all.end());
  post::CheckFamily cut = *found;
  cut.x.values = std::move(x);
  cut.y.values = std::move(y);
  cut.third.values = std::move(third);
  return cut;
}

std::vector<post::CheckPoint> points(const post::CheckFamily& one, int threads = 2)
{
  return post::check_points({&one, 1}, threads, [](std::size_t) {});
}

double deviation(const post::CheckPoint& point, const std::string& name)
{
  for (const post::FormulaResult& one : point.formulas)
  {
    if (one.name == name)
    {
      REQUIRE(one.deviation);
      return *one.deviation;
    }
  }
  FAIL("no formula " << name);
  return 0.0;
}

post::FormulaScore score(const std::vector<post::CheckPoint>& all, const std::string& name)
{
  const auto list = post::formula_scores(all);
  const auto found =
      std::find_if(list.begin(), list.end(), [&](const auto& one) { return one.name == name; });
  REQUIRE(found != list.end());
  return *found;
}

/// @brief A point with one formula, made by hand.
post::CheckPoint made(std::size_t x, double deviation, bool holds, const std::string& why)
{
  post::CheckPoint point{.family = 0, .x = x, .formulas = {}, .bracket = 1e-3, .reached = true};
  post::FormulaResult formula;
  formula.name = "hand";
  formula.deviation = deviation;
  formula.holds = holds;
  formula.why = why;
  point.formulas.push_back(formula);
  return point;
}

} // namespace

TEST_CASE("a short grid finds the deviations computed apart", "[check]")
{
  // Wheeler's 0.45 D at l/D = 5, 2, 1, 0.4, against Lorenz: -0.29, -0.22, +0.18, -0.27 %.
  auto sheets = family("air-coil", {0.4, 1.0, 2.0, 5.0}, {0.0}, {0.0});
  sheets.accuracy = 1e-5;
  const auto solved = points(sheets);
  REQUIRE(solved.size() == 4);
  const double expected[] = {-0.0027, 0.0018, -0.0022, -0.0029};
  for (const post::CheckPoint& one : solved)
  {
    CAPTURE(one.x);
    CHECK(one.reached);
    CHECK(one.bracket <= 1e-5);
    CHECK(deviation(one, "air coil, end correction 0.45 D") ==
          Approx(expected[one.x]).margin(0.00006)); // half a digit, and the bracket
    CHECK(deviation(one, "air coil, sheet, exact") == 0.0);
  }
  const post::FormulaScore wheeler = score(solved, "air coil, end correction 0.45 D");
  CHECK(wheeler.inside.points == 4);
  CHECK(wheeler.inside.within[0] == 4);
  CHECK(wheeler.worst == Approx(-0.0029).margin(0.00006));
  CHECK(wheeler.at[0] == 3);
  CHECK(wheeler.broken == 0);
}

TEST_CASE("a rod in a field is judged by the integral equation's factors", "[check]")
{
  // l/D = 10, mu = 100: Nm 0.0210664, Nf 0.0141261, computed apart.
  const auto solved = points(family("rod-in-field", {10.0}, {100.0}, {0.0}));
  REQUIRE(solved.size() == 1);
  CHECK(deviation(solved[0], "rod, spheroid factor") ==
        Approx(post::spheroid_factor(10) / 0.0210664 - 1).margin(2e-5));
  CHECK(deviation(solved[0], "rod, fitted factor") ==
        Approx(post::burhans_factor(10) / 0.0141261 - 1).margin(2e-3)); // no bracket
}

TEST_CASE("the coil on a rod of the reference table deviates as its inductance says", "[check]")
{
  // Coil of half the rod, l/D = 10, mu = 100: 543.86444 uH for D = 10 mm, coil radius 5.5 mm.
  auto one = family("short-coil", {0.5}, {0.0}, {100.0});
  one.accuracy = 1e-5;
  const auto solved = points(one);
  REQUIRE(solved.size() == 1);
  double value = 0.0;
  for (const post::FormulaResult& formula : solved[0].formulas)
  {
    value = formula.name == "rod, short coil" ? formula.value : value;
  }
  const double scale = 10.0 / 8.0; // the grid's rod is 8 mm thick
  CHECK(deviation(solved[0], "rod, short coil") ==
        Approx(value * scale / 543.86444e-6 - 1).margin(3e-5)); // within a bracket's width
}

TEST_CASE("grids run the same on any number of threads, in their own order", "[check]")
{
  const auto one = family("ring", {0.05, 0.2, 0.5}, {0.0, 1.0}, {0.0});
  const auto alone = points(one, 1);
  const auto many = points(one, 3);
  REQUIRE(alone.size() == 6);
  for (std::size_t i = 0; i < 6; ++i)
  {
    CHECK(alone[i].x == i % 3);
    CHECK(alone[i].y == i / 3);
    CHECK(alone[i].bracket == many[i].bracket);
    CHECK(deviation(alone[i], "ring, thin wire") == deviation(many[i], "ring, thin wire"));
  }
}

TEST_CASE("a shape that cannot be solved is told and leaves the rest", "[check][long]")
{
  auto one = family("ring", {0.1, 1.2}, {0.0}, {0.0}); // wire wider than its loop
  const auto solved = points(one);
  CHECK(solved[0].trouble.empty());
  CHECK_FALSE(solved[0].formulas.empty());
  CHECK_FALSE(solved[1].trouble.empty());
  CHECK(solved[1].formulas.empty());
  CHECK_FALSE(solved[1].reached);
  one.accuracy = 1e-15;
  CHECK_FALSE(points(one)[0].reached);
}

TEST_CASE("tallies count inside and outside of a range, and broken claims", "[check]")
{
  const std::string range = "5 % for made-up shapes";
  const std::vector<post::CheckPoint> all = {
      made(0, 0.005, true, range), made(1, -0.03, true, range), made(2, -0.06, true, range),
      made(3, 0.01, true, range),  made(4, 0.19, false, "not"), made(5, -0.21, false, "not"),
      made(6, 0.0, false, "not")};
  const post::FormulaScore hand = score(all, "hand");
  CHECK(*hand.claim == 0.05);
  CHECK(hand.range == range);
  CHECK(hand.inside.points == 4);
  CHECK(hand.inside.within == std::array{2, 3, 4});
  CHECK(hand.broken == 1);
  CHECK(hand.worst == -0.06);
  CHECK(hand.at[0] == 2);
  CHECK(hand.outside.points == 3);
  CHECK(hand.outside.within == std::array{1, 1, 2});
}

TEST_CASE("a range text tells what it claims", "[check]")
{
  CHECK(*post::claimed("exact for a current sheet") == 0.0);
  CHECK(*post::claimed("3 ppm for a current sheet") == Approx(3e-6));
  CHECK(*post::claimed("0.3 % for thin wire") == Approx(0.003));
  CHECK(*post::claimed("2e-4 for thin wire") == Approx(2e-4));
  CHECK_FALSE(post::claimed("a ceiling for long coils"));
  CHECK_FALSE(post::claimed(""));
}

TEST_CASE("every family's grid holds, covers and misses its formulas' ranges", "[check]")
{
  for (const bool fine : {false, true})
  {
    for (const post::CheckFamily& one : post::check_families(fine))
    {
      CAPTURE(one.name);
      CHECK(one.x.values.size() >= 3);
      CHECK(one.y.values.size() >= 2);
      CHECK(std::is_sorted(one.x.values.begin(), one.x.values.end(), std::less_equal<>()));
      CHECK(std::is_sorted(one.y.values.begin(), one.y.values.end(), std::less_equal<>()));
      CHECK((one.y.names.empty() || one.y.names.size() == one.y.values.size()));
      CHECK(one.third.names.size() == one.third.values.size());
    }
  }
  CHECK(post::check_families(true)[0].x.values.size() ==
        2 * post::check_families(false)[0].x.values.size() - 1);
}

TEST_CASE("no formula of the catalogue breaks its claim on its grid", "[check][long]")
{
  auto families = post::check_families(false);
  for (post::CheckFamily& one : families) // every third value: half a minute is too long here
  {
    for (auto* axis : {&one.x, &one.y})
    {
      std::vector<double> fewer;
      for (std::size_t i = 0; i < axis->values.size(); i += 3)
      {
        fewer.push_back(axis->values[i]);
      }
      axis->values = fewer;
    }
  }
  const auto solved = post::check_points(families, 2, [](std::size_t) {});
  int claims = 0;
  for (const post::FormulaScore& one : post::formula_scores(solved))
  {
    CAPTURE(families[one.family].name, one.name, one.range, one.worst, one.at);
    CHECK(one.broken == 0);
    claims += one.claim ? 1 : 0;
  }
  CHECK(claims > 30);
}
