// Reports fit the page, mark what their numbers are worth, and leave nothing out.
#include "cases/report.hpp"

#include "cases/fault.hpp"
#include "cases/request.hpp"
#include "cases/starters.hpp"
#include "cases/table.hpp"
#include "hand_filled.hpp"
#include "longest_line.hpp"

#include <catch2/catch.hpp>
#include <fstream>

namespace
{

using Catch::Contains;

cases::Case rod_case()
{
  cases::Case read;
  read.path = "some/rod.toml";
  read.title = "Rod";
  read.problem.materials["ferrite"].permeability = 700.0;
  read.problem.scene.parts = {{"core", mesh::Rod{6e-3, 60e-3}, "ferrite", 0.0, {}}};
  read.problem.scene.windings = {{"coil", 100, mesh::Block{8e-3, 9e-3, 40e-3}, 0.0}};
  return read;
}

cases::Case powder_case()
{
  cases::Case read = rod_case();
  read.path = "some/powder.toml";
  solver::Material& material = read.problem.materials["ferrite"];
  material.powder = solver::Powder{700.0, 0.6, solver::MixingRule::maxwell_garnett};
  material.permeability = solver::effective_permeability(*material.powder);
  return read;
}

} // namespace

TEST_CASE("the solve report gives value, bracket, ledger, formulas and accuracy", "[report]")
{
  const std::string text = cases::solve_text(rod_case(), hand_filled::rod(), {});
  CHECK_THAT(text,
             Contains("  winding  turns  inductance   lower   upper      mu_app  per turn^2\n"
                      "  coil       100      450 uH  449.80  450.20  uH    30.0     45.0 nH"));
  CHECK_THAT(text,
             Contains("  core    700         3.0 %  1.70 cm3            12.0 mT  mesh-dependent\n"
                      "  air       1          97 %         -            9.00 mT\n"));
  CHECK_THAT(text, Contains("Rod with a demagnetising factor  460.0 uH  2.2 % above"));
  CHECK_THAT(text, Contains("[bounded: ") && Contains("[estimated]"));
  CHECK_THAT(text, Contains("half-width 0.044 % of the value, asked 0.10 %"));
  CHECK_THAT(text, Contains("97 % of the energy sits in the air around core"));
  CHECK_THAT(text, Contains("no approval"));
  CHECK_THAT(text, !Contains("dust"));
  CHECK_THAT(text, !Contains("NOT REACHED"));
}

TEST_CASE("the accuracy paragraph tells one refinement and curved boundaries", "[report]")
{
  post::Result result = hand_filled::rod();
  CHECK_THAT(cases::solve_text(rod_case(), result, {}),
             Contains("9000 unknowns, 3 refinements,") &&
                 Contains("All boundaries are\n  straight"));
  result.mesh.refinements = 1;
  result.geometry_error = 1e-11;
  const std::string text = cases::solve_text(rod_case(), result, {});
  CHECK_THAT(text, Contains("9000 unknowns, 1 refinement,") && !Contains("straight"));
  CHECK_THAT(text, Contains("they shift the value by at most 1e-11 of"));
}

TEST_CASE("a hand formula that turns out below zero is called useless", "[report]")
{
  post::Result result = hand_filled::rod();
  result.formulas[0].value = -69e-6;
  result.formulas[0].deviation = -1.15;
  CHECK_THAT(cases::solve_text(rod_case(), result, {}),
             Contains("-69.00 uH  useless here: below zero"));
}

TEST_CASE("an unreached accuracy is told in capitals with its reason", "[report]")
{
  post::Result result = hand_filled::rod();
  result.accuracy_reached = false;
  result.limit = "round-off sets a floor";
  CHECK_THAT(cases::solve_text(rod_case(), result, {}),
             Contains("ACCURACY NOT REACHED: round-off sets a floor. The bracket still holds"));
}

TEST_CASE("a powder is told with its rule, its bounds, a caution and the dust", "[report]")
{
  // Hashin-Shtrikman lower = Maxwell Garnett: 1 + 0.6 / (1/699 + 0.4/3) = 5.452 [Hashin-Shtrikman
  // 1962]; Wiener: 1 / (0.6/700 + 0.4) = 2.49 and 420.4 [Wiener 1912].
  const cases::Case read = powder_case();
  const std::string text = cases::solve_text(read, hand_filled::powder_tube(), {});
  CHECK_THAT(text, Contains("particles of permeability 700 filling 60 % of the space, taken as"));
  CHECK_THAT(text, Contains("5.452 by the rule maxwell-garnett"));
  CHECK_THAT(text, Contains("Wiener 2.49 to 420"));
  CHECK_THAT(text, Contains("no guaranteed minimum"));
  CHECK_THAT(text, Contains("dust harms lungs"));
}

TEST_CASE("coupled windings show mutual inductance and coupling", "[report]")
{
  post::Result result = hand_filled::rod();
  result.windings.push_back(result.windings[0]);
  result.windings[1].name = "pickup";
  const post::Bounded L{450e-6, 449.8e-6, 450.2e-6}, M{225e-6, 224.9e-6, 225.1e-6};
  result.mutual = {{L, M}, {M, L}};
  const std::string text = cases::solve_text(rod_case(), result, {});
  CHECK_THAT(text, Contains("coil - pickup  225.0 uH  224.90  225.10  uH    0.5000"));
  CHECK_THAT(text, Contains("With coil driven alone: 97 %"));
}

TEST_CASE("a background field shows demagnetising factors and no ledger", "[report]")
{
  cases::Case read = rod_case();
  read.problem.scene.windings.clear();
  read.problem.background = 1e-3;
  post::Result result = hand_filled::rod();
  result.windings.clear();
  result.regions[0].demagnetisation = {61.89, 0.0151721,
                                       post::Bounded{0.02027, 0.020262, 0.020281}};
  const std::string text = cases::solve_text(read, result, {});
  CHECK_THAT(text, Contains("  core  700          61.89      0.01517         0.020262  0.020281"));
  CHECK_THAT(text, Contains("1.00 mT far away"));
  CHECK_THAT(text, !Contains("energy share"));
  CHECK_THAT(text, Contains("half-width 0.044 % of the magnetic moment, asked 0.10 %"));
}

TEST_CASE("many probes are cut short and the report says where the rest is", "[report]")
{
  post::Result result = hand_filled::rod();
  result.probes.assign(45, {"line", 0.0, 0.03, 1e-18, 2e-3, 0, 1600, 3e-26, "air"});
  const std::string text = cases::solve_text(rod_case(), result, {});
  CHECK_THAT(text, Contains("and 5 more in result.json"));
  CHECK_THAT(text, Contains("line   0 mm  30 mm  0 T  2.00 mT            0 Wb  air"));
}

TEST_CASE("the compare report names yardstick, ratio, turns and the reason", "[report]")
{
  const std::vector<cases::Case> read = {rod_case(), powder_case()};
  const std::vector<post::Result> results = {hand_filled::rod(), hand_filled::powder_tube()};
  const std::vector<solver::Problem> problems = {read[0].problem, read[1].problem};
  const std::string text = cases::compare_text(read, results, post::compared(results, problems));
  CHECK_THAT(text, Contains("Against the yardstick (rod)"));
  CHECK_THAT(text, Contains("  rod         1                             100\n"
                            "  powder  1.040  1.0390  1.0410           98.06\n"));
  CHECK_THAT(text, Contains("10.0 times the magnetic volume"));
  CHECK_THAT(text, Contains("Limit of powder: 75 % of the energy sits in core"));
  CHECK_THAT(text, Contains("Hand formulas beside powder"));
  CHECK(longest_line(text) <= cases::page_width);
}

TEST_CASE("cases of the same file name are numbered apart", "[report]")
{
  const std::vector<cases::Case> read = {rod_case(), rod_case()};
  const std::vector<post::Result> results = {hand_filled::rod(), hand_filled::rod()};
  const std::vector<solver::Problem> problems = {read[0].problem, read[1].problem};
  const std::string text = cases::compare_text(read, results, post::compared(results, problems));
  CHECK_THAT(text, Contains("rod (1)") && Contains("rod (2)"));
}

TEST_CASE("every report fits 80 columns whatever the names", "[report]")
{
  cases::Case read = powder_case();
  read.title = std::string(70, 't') + " " + std::string(70, 'u');
  post::Result result = hand_filled::powder_tube();
  result.windings[0].name = std::string(60, 'w');
  result.regions[0].name = std::string(60, 'r');
  result.formulas[0].name = std::string(90, 'f');
  CHECK(longest_line(cases::solve_text(read, result, {})) <= cases::page_width);
}

TEST_CASE("the formulas report gives range and source of each", "[report]")
{
  const post::Result result = hand_filled::rod();
  const std::string text = cases::formulas_text(rod_case(), result.formulas);
  CHECK_THAT(text, Contains("Rod with a demagnetising factor: 460.00 uH\n"
                            "  Holds here: for 2 < l/d\n"
                            "  Source: [Test 1]\n"));
  CHECK_THAT(cases::formulas_text(rod_case(), {}), Contains("No hand formula in stock"));
}

TEST_CASE("the command line's faults are one line with a cure", "[command-line]")
{
  cases::Typed typed;
  typed.accuracy = "fine";
  CHECK_THROWS_WITH(
      cases::options(typed),
      "ferrule: error: --accuracy is \"fine\"; it must lie between 0 and 1; e.g. 1e-3 "
      "for bounds within a thousandth");
  for (const char* wrong : {"0", "-1e-3", "1", "nan", "1e-3x"})
  {
    typed.accuracy = wrong;
    CHECK_THROWS_AS(cases::options(typed), cases::CaseError);
  }
  typed.accuracy = "1e-4";
  CHECK(cases::options(typed).accuracy == 1e-4);

  typed.sets = {"parts.core.length"};
  CHECK_THROWS_WITH(cases::options(typed),
                    "ferrule: error: --set \"parts.core.length\" has no KEY=VALUE; e.g. --set "
                    "parts.core.length=80mm");
  typed.sets = {"title=a=b"};
  CHECK(cases::options(typed).sets[0].key == "title");
  CHECK(cases::options(typed).sets[0].value == "a=b");

  typed.written = "some";
  CHECK_THROWS_WITH(cases::options(typed),
                    "ferrule: error: --files is \"some\"; write --files none or --files all");
  typed.written = "none";
  CHECK_FALSE(cases::options(typed).files);

  for (const char* wrong : {"0", "1.5", "many", "nan"})
  {
    typed.threads = wrong;
    CHECK_THROWS_AS(cases::options(typed), cases::CaseError);
  }
  typed.threads = "3";
  CHECK(cases::options(typed).threads == 3);
}

TEST_CASE("a command without its case file says what to write", "[command-line]")
{
  CHECK_THROWS_WITH(cases::run("solve", {}),
                    "ferrule: error: solve needs a case file; write ferrule solve CASE.toml; "
                    "ferrule new lists starter cases");
  cases::Typed typed;
  typed.files = {"a.toml"};
  CHECK_THROWS_WITH(cases::run("compare", typed),
                    "ferrule: error: compare needs at least two case files; write ferrule compare "
                    "A.toml B.toml, or one with --vary KEY=VALUES");
  typed.files = {"a.toml", "b.toml"};
  CHECK_THROWS_WITH(
      cases::run("solve", typed),
      "ferrule: error: solve takes one case file, got 2; ferrule compare takes several");
}

TEST_CASE("an unknown starter names the kinds there are", "[command-line]")
{
  CHECK_THROWS_WITH(
      cases::starter("rood"),
      "ferrule: error: there is no starter case \"rood\"; the kinds are background, "
      "coated-turns, pot-core, powder-tube, ring, rod-in-sleeve, rod, sleeve, two-coils");
}

TEST_CASE("formulas outside their range come last and say what the case breaks", "[report]")
{
  post::Result result = hand_filled::rod();
  const post::FormulaResult holding = result.formulas[0];
  post::FormulaResult outside = holding;
  outside.name = "Endless rod";
  outside.value = 4.5e-3;
  outside.deviation = 9.0;
  outside.holds = false;
  outside.why = "for rods without ends";
  result.formulas = {outside, holding};
  CHECK_THAT(cases::solve_text(rod_case(), result, {}),
             Contains("Hand formulas beside the bracket\n"
                      "  Rod with a demagnetising factor  460.0 uH  2.2 % above\n"
                      "  Endless rod                      4.500 mH  10 times\n"
                      "      outside its range: for rods without ends\n"));
}
