// `--set KEY=VALUE` before the checks, with faults at the place of the option.
#include "cases/case_text.hpp"

#include <catch2/catch.hpp>

using case_tests::case_of;
using case_tests::changed;
using case_tests::sound_case;
using case_tests::told;
using Sets = std::vector<cases::Override>;

namespace
{

const std::string powder_case = changed(sound_case, "permeability = 700",
                                        "powder = { particle_permeability = 700, packing = 0.5 }");

double length_of_rod(const cases::Case& read)
{
  return std::get<mesh::Rod>(read.problem.scene.parts.at(0).shape).length;
}

} // namespace

TEST_CASE("a key of a body named by its name is overridden", "[overrides]")
{
  CHECK(length_of_rod(case_of(sound_case, {{"parts.core.length", "20mm"}})) == Approx(20e-3));
  CHECK(length_of_rod(case_of(sound_case, {{"parts.core.length", "\"20 mm\""}})) == Approx(20e-3));
  // The last one counts.
  CHECK(length_of_rod(case_of(sound_case, {{"parts.core.length", "20mm"},
                                           {"parts.core.length", "2 cm"},
                                           {"parts.core.length", "3 cm"}})) == Approx(30e-3));
  CHECK(case_of(sound_case, {{"windings.coil.turns", "7.5"}}).problem.scene.windings[0].turns ==
        7.5);
}

TEST_CASE("tables of materials, drive and accuracy are overridden", "[overrides]")
{
  const Sets sets = {{"materials.core.permeability", "2e3"},
                     {"drive.current", "2 mA"},
                     {"accuracy.inductance", "1e-6"},
                     {"title", "12"}};
  const cases::Case read = case_of(sound_case, sets);
  CHECK(read.problem.materials.at("core").permeability == 2000.0);
  CHECK(read.problem.currents == std::vector<double>{2e-3});
  CHECK(read.problem.accuracy == 1e-6);
  CHECK(read.title == "12");
  CHECK(case_of(changed(sound_case, "title = \"Float coil\"", ""), {{"title", "12"}}).title ==
        "12");
}

TEST_CASE("inner tables are overridden and added", "[overrides]")
{
  const cases::Case packed = case_of(powder_case, {{"materials.core.powder.packing", "0.6"}});
  CHECK(packed.problem.materials.at("core").powder->packing == 0.6);

  const cases::Case coated = case_of(sound_case, {{"parts.core.coating.thickness", "0.5mm"},
                                                  {"parts.core.coating.material", "copper"}});
  REQUIRE(coated.problem.scene.parts[0].coating.has_value());
  CHECK(coated.problem.scene.parts[0].coating->thickness == Approx(0.5e-3));
  const cases::Case at_once = case_of(
      sound_case, {{"parts.core.coating", "{ material = \"copper\", thickness = \"0.5 mm\" }"}});
  CHECK(at_once.problem.scene.parts[0].coating->thickness == Approx(0.5e-3));
}

TEST_CASE("faults of overrides stand at the option", "[overrides]")
{
  CHECK(
      told(sound_case, {{"parts.core.length", "-3 mm"}}) ==
      "--set parts.core.length: error: parts.core.length must be positive, got \"-3 mm\"; lengths "
      "run from 0.1 um to 10 km");
  CHECK(told(sound_case, {{"parts.core.length", "3"}}) ==
        "--set parts.core.length: error: parts.core.length needs a unit, got \"3\"; write e.g. "
        "\"3 mm\"");
  CHECK(told(sound_case, {{"parts.core.lenght", "3 mm"}}) ==
        "--set parts.core.lenght: error: parts.core.lenght is no key of a rod; did you mean "
        "\"length\"?");
  CHECK(told(sound_case, {{"parts.core.coating.thickness", "1 mm"}}) ==
        "--set parts.core.coating.thickness: error: parts.core.coating needs material; write e.g. "
        "material = \"core\"");
  CHECK(told(powder_case, {{"materials.core.permeability", "5"}}) ==
        ":3:10: error: materials.core.powder makes 2 magnetic laws of one material; keep one of "
        "permeability and powder");
  CHECK(
      told(sound_case, {{"parts.core.diameter", "8.5 mm"}}) ==
      ":10:1: error: windings.coil overlaps parts.core; bodies may touch or lie wholly one inside "
      "another; change a diameter, a length or a centre");
  CHECK(told(sound_case, {{"drive.current", "1 A\"\nbackground = \"1 mT"}}) ==
        "--set drive.current: error: drive.current must be one number and one unit, got \"1 "
        "A\"\\nbackground = \"1 mT\"; write e.g. \"0.25 A\"");
}

TEST_CASE("keys that lead nowhere are faults, not lost", "[overrides]")
{
  CHECK(told(sound_case, {{"parts.cor.length", "3 mm"}}) ==
        "--set parts.cor.length: error: the case has no part \"cor\"; did you mean \"core\"?");
  CHECK(told(sound_case, {{"probes.axis.count", "3"}}) ==
        "--set probes.axis.count: error: the case has no probe \"axis\"; it has no probes");
  CHECK(told(sound_case, {{"materials.cor.permeability", "3"}}) ==
        "--set materials.cor.permeability: error: the case has no material \"cor\"; did you mean "
        "\"core\"?");
  CHECK(told(sound_case, {{"parts.core.length.x", "3"}}) ==
        "--set parts.core.length.x: error: \"length\" has no keys; set it as a whole");
  CHECK(told(sound_case, {{"parts.core", "3"}}) ==
        "--set parts.core: error: \"parts.core\" names no single value; write parts.NAME.KEY");
  CHECK(
      told(sound_case, {{"permeability", "3"}}) ==
      "--set permeability: error: \"permeability\" names no single value; write e.g. drive.current "
      "or parts.core.length");
  CHECK(told(sound_case, {{"parts..length", "3"}}) ==
        "--set parts..length: error: \"parts..length\" is no key; write e.g. parts.core.length");
  CHECK(told(sound_case, {{"drives.current", "3 A"}}) ==
        "--set drives.current: error: drives is no key of a case; did you mean \"drive\"?");
}

TEST_CASE("faults of the file and of the options are told together, the file's first",
          "[overrides]")
{
  CHECK(
      told(changed(sound_case, "\"6 mm\"", "\"0 mm\""), {{"accuracy.inductance", "2"}}) ==
      ":8:12: error: parts.core.diameter must be positive, got \"0 mm\"; lengths run from 0.1 um "
      "to "
      "10 km\n--set accuracy.inductance: error: accuracy.inductance is too large, got 2; it is the "
      "relative half-width of the bracket, from 1e-9 to 0.5");
}
