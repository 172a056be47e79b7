// How a case decides which hand formulas hold, and how they are set against the field.
#include "post/closed_forms.hpp"

#include "post/formula_scenes.hpp"

#include <cmath>
#include <set>

using namespace formula_tests;

TEST_CASE("a second magnetic part stops the formulas that count one", "[formulas]")
{
  solver::Problem problem = block_coil(11 * mm, 11 * mm, 95 * mm, 100);
  add_part(problem, "core", mesh::Rod{10 * mm, 100 * mm}, 700.0);
  CHECK(named(post::formulas(problem), "rod, spheroid factor").holds);
  add_part(problem, "sleeve", mesh::Tube{14 * mm, 16 * mm, 100 * mm}, 700.0);
  for (const char* name : {"rod, spheroid factor", "rod, short coil", "sleeve, magnetised evenly"})
  {
    const auto formula = named(post::formulas(problem), name);
    CHECK_FALSE(formula.holds);
    CHECK(formula.why == "counts one bare magnetic part; here: core, sleeve");
  }
  problem.materials["sleeve"].permeability = 1.0; // brass, say
  CHECK(named(post::formulas(problem), "rod, spheroid factor").holds);
  problem.scene.parts[0].coating = mesh::Coating{"core", 1 * mm};
  CHECK(named(post::formulas(problem), "rod, spheroid factor").why ==
        "counts one bare magnetic part; here: core, core.coating");
}

TEST_CASE("which formulas are listed follows what is in the scene", "[formulas]")
{
  solver::Problem problem = block_coil(12 * mm, 14 * mm, 50 * mm, 100);
  CHECK_FALSE(lists(problem, "rod, spheroid factor"));
  CHECK_FALSE(lists(problem, "sleeve, magnetised evenly"));
  solver::Problem tube = problem;
  add_part(tube, "tube", mesh::Tube{6 * mm, 12 * mm, 50 * mm}, 5.0);
  CHECK(lists(tube, "tube core, spheroid factor"));
  CHECK_FALSE(lists(tube, "sleeve, magnetised evenly"));
  solver::Problem sleeve = problem;
  add_part(sleeve, "tube", mesh::Tube{14 * mm, 16 * mm, 50 * mm}, 5.0);
  CHECK(lists(sleeve, "sleeve, magnetised evenly"));
  CHECK_FALSE(lists(sleeve, "tube core, spheroid factor"));
  CHECK(post::formulas(solver::Problem{}).empty());
}

TEST_CASE("deviation is nothing inside the bracket, else from its nearer end", "[formulas]")
{
  solver::Problem problem = block_coil(11 * mm, 11 * mm, 95 * mm, 100);
  add_part(problem, "core", mesh::Rod{10 * mm, 100 * mm}, 700.0);
  const double rod = value(problem, "rod, spheroid factor");
  const double air = value(problem, "air coil, sheet, exact");
  post::Result result;
  result.windings.resize(1);
  result.windings[0].inductance = {rod / 2, rod / 2.1, rod / 1.9};
  result.windings[0].air_inductance = {air, air * 0.999, air * 1.001};
  const auto judged = post::judged(post::formulas(problem), result);
  CHECK(*named(judged, "rod, spheroid factor").deviation == Approx(0.9)); // 1.9 - 1
  CHECK(*named(judged, "air coil, sheet, exact").deviation == 0.0);
  result.windings[0].inductance = {rod * 2, rod * 1.6, rod * 2.4};
  CHECK(*named(post::judged(judged, result), "rod, spheroid factor").deviation ==
        Approx(1 / 1.6 - 1));
}

TEST_CASE("each formula is judged against what it estimates", "[formulas]")
{
  solver::Problem pair = block_coil(99 * mm, 101 * mm, 1 * mm, 7);
  pair.scene.windings.push_back({"other", 3, mesh::Block{79 * mm, 81 * mm, 1 * mm}, 30 * mm});
  const double M = value(pair, "mutual with other, circles");
  post::Result result;
  result.windings.resize(2);
  result.windings[1].name = "other";
  result.mutual = {{{9, 9, 9}, {M, M / 2, M / 1.25}}, {{}, {}}};
  CHECK(
      *named(post::judged(post::formulas(pair), result), "mutual with other, circles").deviation ==
      Approx(0.25));

  solver::Problem receiver;
  receiver.background = 1e-3;
  add_part(receiver, "core", mesh::Rod{10 * mm, 100 * mm}, 700.0);
  post::Result field;
  field.regions.resize(1);
  field.regions[0].name = "core";
  field.regions[0].demagnetisation =
      post::Demagnetisation{50.0, 0.015, post::Bounded{0.0203, 0.0202, 0.0204}};
  const auto list = post::judged(post::formulas(receiver), field);
  CHECK(*named(list, "rod, spheroid factor").deviation == 0.0);
  CHECK(*named(list, "rod, fitted factor").deviation ==
        Approx(post::burhans_factor(10) / 0.015 - 1));
  CHECK(*named(list, "rod middle, fitted factor").deviation ==
        Approx(post::apparent_permeability(700, post::burhans_factor(10)) / 50 - 1));
  // A field without a magnetometric factor leaves the comparison empty.
  field.regions[0].demagnetisation->magnetometric.reset();
  CHECK_FALSE(
      named(post::judged(post::formulas(receiver), field), "rod, spheroid factor").deviation);
}

TEST_CASE("names fit their column, and each formula has a range and a source", "[formulas]")
{
  solver::Problem everything = block_coil(12 * mm, 14 * mm, 50 * mm, 100);
  everything.background = 1e-3;
  everything.scene.windings.push_back({"pickup", 3, mesh::Block{30 * mm, 31 * mm, 1 * mm}, 0.0});
  add_part(everything, "core", mesh::Rod{10 * mm, 60 * mm}, 700.0);
  add_part(everything, "sleeve", mesh::Tube{20 * mm, 22 * mm, 60 * mm}, 700.0);
  std::set<std::string> names;
  for (const post::FormulaResult& one : post::formulas(everything))
  {
    CAPTURE(one.name);
    CHECK(one.name.size() <= 34);
    CHECK(one.why.size() > 0);
    CHECK(one.source.size() > 0);
    CHECK(std::isfinite(one.value));
    names.insert(one.name + one.subject + one.unit);
  }
  CHECK(names.size() == post::formulas(everything).size());
  CHECK(names.size() >= 15);
}
