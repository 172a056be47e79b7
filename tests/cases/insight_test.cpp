// Sentences say what the numbers support, and no more.
#include "cases/insight.hpp"

#include "cases/doublings.hpp"
#include "hand_filled.hpp"

#include <catch2/catch.hpp>

namespace
{

using Catch::Contains;

post::Result with_inductance(double value, double half)
{
  post::Result result = hand_filled::rod();
  result.windings[0].inductance = {value, value - half, value + half};
  return result;
}

post::Compared of_ratio(double value, double lower, double upper, double volume)
{
  return {post::Bounded{value, lower, upper}, 98.06, false, volume};
}

} // namespace

TEST_CASE("a rod in air is said to be limited by its shape, a powder by its permeability",
          "[insight]")
{
  CHECK(cases::limit_sentence(hand_filled::rod()) ==
        "97 % of the energy sits in the air around core: its permeability hardly matters (10 % "
        "more gives about 0.30 %), its shape and place do.");
  CHECK(cases::limit_sentence(hand_filled::powder_tube()) ==
        "75 % of the energy sits in core and 25 % in the air: the permeability decides more, but "
        "both count (10 % more permeability of core gives about 7.5 %).");
}

TEST_CASE("a body that adds next to nothing is not called limited by its shape", "[insight]")
{
  post::Result result = hand_filled::rod();
  result.windings[0].apparent_permeability = 1.03;
  CHECK_THAT(cases::limit_sentence(result), Contains("adds only 3.0 %"));
}

TEST_CASE("without anything magnetic only the winding counts", "[insight]")
{
  post::Result result = hand_filled::rod();
  result.regions[0].permeability = 1.0;
  CHECK(cases::limit_sentence(result) ==
        "Nothing here is magnetic: only the winding's own shape counts.");
}

TEST_CASE("copper and formers count as air in the ledger sentence", "[insight]")
{
  post::Result result = hand_filled::rod();
  result.windings[0].shares = {{"core", 0.05}, {"former", 0.15}, {"air", 0.80}};
  result.regions.insert(result.regions.begin() + 1, {"former", 1.0, 0.15, 1e-6, 0.001, false, {}});
  CHECK(cases::air_share(result) == Approx(0.95)); // round-off of one sum
}

TEST_CASE("a gain is told as the interval both brackets leave", "[insight]")
{
  // 450 +- 0.2 to 460 +- 0.2: 459.8 / 450.2 - 1 = 2.13 %, 460.2 / 449.8 - 1 = 2.31 %
  const std::vector<cases::Tried> tried = {{"twice the length", with_inductance(460e-6, 0.2e-6)}};
  CHECK(cases::gain_sentence(hand_filled::rod(), tried) ==
        "Solved again with one thing changed: twice the length adds 2.13 to 2.32 %.");
}

TEST_CASE("a gain smaller than the brackets is called undecided", "[insight]")
{
  const std::vector<cases::Tried> tried = {{"this", with_inductance(450.1e-6, 0.2e-6)}};
  // 450.3 / 449.8 - 1 = 0.11116 %, rounded up
  CHECK_THAT(cases::gain_sentence(hand_filled::rod(), tried),
             Contains("this changes less than 0.12 %, undecided by the brackets"));
}

TEST_CASE("no sentence says less than twice, however small the change", "[insight]")
{
  post::Result sharp = hand_filled::rod();
  sharp.windings[0].inductance = {450e-6, 450e-6 - 1e-9, 450e-6 + 1e-9};
  // (1e-9 + 1e-9 + 1e-10) / 450e-6 = 4.667e-6, rounded up
  const std::vector<cases::Tried> tried = {{"this", with_inductance(450e-6 + 1e-10, 1e-9)}};
  CHECK_THAT(cases::gain_sentence(sharp, tried), Contains("this changes less than 0.00047 %,"));
}

TEST_CASE("a material that adds next to nothing is told without an only", "[insight]")
{
  post::Result result = hand_filled::rod();
  result.windings[0].apparent_permeability = 1.00001;
  CHECK_THAT(cases::limit_sentence(result), Contains("material adds less than 0.01 % to"));
  result.windings[0].apparent_permeability = 1.004;
  CHECK_THAT(cases::limit_sentence(result), Contains("material adds only 0.40 % to"));
}

TEST_CASE("a loss is called a loss", "[insight]")
{
  // 225.1 / 449.8 - 1 = -49.9555 %, 224.9 / 450.2 - 1 = -50.0444 %
  const std::vector<cases::Tried> tried = {{"this", with_inductance(225e-6, 0.1e-6)}};
  CHECK_THAT(cases::gain_sentence(hand_filled::rod(), tried),
             Contains("this takes away 49.955 to 50.045 %"));
}

TEST_CASE("without a change there is no gain sentence", "[insight]")
{
  CHECK(cases::gain_sentence(hand_filled::rod(), {}).empty());
}

TEST_CASE("two cases differ by their winding in air and by what the material multiplies",
          "[insight]")
{
  const std::string words = cases::difference_sentences(
      "powder", hand_filled::rod(), hand_filled::powder_tube(), of_ratio(1, 1, 1, 1.7e-6),
      of_ratio(1.04, 1.0391, 1.0409, 1.7e-5));
  CHECK(words == "powder: 10.0 times the magnetic volume, 1.040 (1.0391 to 1.0409) times the "
                 "inductance, because the empty winding alone has 6.24 times the yardstick's "
                 "inductance, but the magnetic material multiplies it by 5.00 instead of 30.0. "
                 "98.06 turns instead of 100 in the same section would match the yardstick.");
}

TEST_CASE("windings that are equal in air leave the difference to the material", "[insight]")
{
  post::Result coated = hand_filled::rod();
  coated.windings[0].apparent_permeability = 31.2;
  CHECK_THAT(cases::difference_sentences("b", hand_filled::rod(), coated, of_ratio(1, 1, 1, 0),
                                         of_ratio(1.04, 1.039, 1.041, 0)),
             Contains("because the empty windings are equal within their brackets, and the "
                      "magnetic material multiplies the one by 31.2, the yardstick's by 30.0"));
}

TEST_CASE("overlapping brackets leave undecided which case has more", "[insight]")
{
  const std::string words =
      cases::difference_sentences("b", hand_filled::rod(), hand_filled::rod(), of_ratio(1, 1, 1, 0),
                                  of_ratio(1.0002, 0.9993, 1.0011, 0));
  CHECK_THAT(words, Contains("undecided at this accuracy") && !Contains("because"));
}

TEST_CASE("turns of a winding drawn turn by turn are an estimate and said to be one", "[insight]")
{
  post::Compared compared = of_ratio(1.04, 1.0391, 1.0409, 1.7e-5);
  compared.turns_estimated = true;
  CHECK_THAT(cases::difference_sentences("b", hand_filled::rod(), hand_filled::powder_tube(),
                                         of_ratio(1, 1, 1, 1.7e-6), compared),
             Contains("About 98.06 turns") && Contains("estimate"));
}

TEST_CASE("in a background field the demagnetising factor tells what decides", "[insight]")
{
  post::Result result = hand_filled::rod();
  result.windings.clear();
  result.regions[0].permeability = 1000.0;
  result.regions[0].demagnetisation = {61.9, 0.0151721, std::nullopt};
  // (1 - N) / (1 + 999 N) = 0.0610: ten per cent more mu gives 0.61 %
  CHECK_THAT(cases::limit_sentence(result),
             Contains("61.9 times") && Contains("about 0.61 %, so the shape decides"));
}

TEST_CASE("the case with permeability, length or diameter doubled leaves out what overlaps",
          "[insight]")
{
  solver::Problem problem;
  problem.materials["ferrite"].permeability = 700.0;
  problem.scene.parts = {{"core", mesh::Rod{6e-3, 60e-3}, "ferrite", 0.0, {}}};
  problem.scene.windings = {{"coil", 100, mesh::Block{8e-3, 9e-3, 40e-3}, 0.0}};
  problem.accuracy = 1e-5;
  const std::vector<cases::Change> changes = cases::doublings(problem, hand_filled::rod());
  REQUIRE(changes.size() == 2); // a core of 12 mm would swallow the winding
  CHECK(changes[0].what == "twice the permeability of core (1400)");
  CHECK(changes[0].problem.materials.at("ferrite").permeability == 1400.0);
  CHECK(changes[1].what == "twice the length of core (120 mm)");
  CHECK(std::get<mesh::Rod>(changes[1].problem.scene.parts[0].shape).length == 120e-3);
  CHECK(changes[1].problem.accuracy == 1e-3);
  CHECK(problem.materials.at("ferrite").permeability == 700.0);
}

TEST_CASE("a wide enough winding lets the diameter be doubled too", "[insight]")
{
  solver::Problem problem;
  problem.materials["ferrite"].permeability = 700.0;
  problem.scene.parts = {{"core", mesh::Rod{6e-3, 60e-3}, "ferrite", 0.0, {}}};
  problem.scene.windings = {{"coil", 100, mesh::Block{13e-3, 14e-3, 40e-3}, 0.0}};
  const std::vector<cases::Change> changes = cases::doublings(problem, hand_filled::rod());
  REQUIRE(changes.size() == 3);
  CHECK(changes[2].what == "twice the diameter of core (12 mm)");
}

TEST_CASE("a doubled core whose coating would reach into the winding is left out", "[insight]")
{
  solver::Problem problem;
  problem.materials["ferrite"].permeability = 700.0;
  problem.materials["paste"].permeability = 4.0;
  problem.scene.parts = {
      {"core", mesh::Rod{6e-3, 60e-3}, "ferrite", 0.0, mesh::Coating{"paste", 1e-3}}};
  problem.scene.windings = {{"coil", 100, mesh::Block{13e-3, 14e-3, 40e-3}, 0.0}};
  for (const cases::Change& change : cases::doublings(problem, hand_filled::rod()))
  {
    CHECK_THAT(change.what, !Contains("diameter")); // 6 mm + 1 mm of coating > 6.5 mm
  }
}
