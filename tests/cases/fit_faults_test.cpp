// Readings against a case: every fault in one line, place first, cure last.
//
// Source of the expected texts: ferrule's own words have no other.
#include "fit_cases.hpp"

#include <catch2/catch.hpp>

namespace
{

using namespace fit_tests;

/// What a person is told, without the folder.
std::string told(const std::string& case_text, const std::string& reading_text)
{
  const Bench bench(case_text, reading_text);
  try
  {
    bench.asked();
    return "no fault found";
  }
  catch (const cases::CaseError& error)
  {
    std::string lines;
    for (cases::Fault fault : error.faults())
    {
      fault.where.file = std::filesystem::path(fault.where.file).filename().string();
      lines += (lines.empty() ? "" : "\n") + cases::line(fault);
    }
    return lines;
  }
}

} // namespace

TEST_CASE("a fit's key that is not in the case is told with what is there", "[fit]")
{
  CHECK(told(tube, readings("materials.power.permeability")) ==
        "reading.toml:2:7: error: the case has no material \"power\"; did you mean \"powder\"?");
  CHECK(told(tube, readings("parts.fill.lenght")) ==
        "reading.toml:2:7: error: the case does not give parts.fill.lenght; did you mean "
        "\"length\"?");
  CHECK(told(tube, readings("parts.full.length")) ==
        "reading.toml:2:7: error: the case has no part \"full\"; did you mean \"fill\"?");
  CHECK(told(tube, readings("materials.powder.powder.packing")) ==
        "reading.toml:2:7: error: the case does not give materials.powder.powder.packing; write it "
        "into the case first, or name a key that is there");
  CHECK(told(tube, readings("parts.fill.shape")) ==
        "reading.toml:2:7: error: parts.fill.shape is \"tube\" in the case, no number or length; "
        "name a key that holds one, e.g. parts.core.diameter");
}

TEST_CASE("a fit's unknown must be able to change what is read", "[fit]")
{
  CHECK(told(tube, readings("materials.spare.permeability")) ==
        "reading.toml:2:7: error: no body is made of spare; name the material of the sample");
  CHECK(told(tube, readings("parts.fill.centre")) ==
        "reading.toml:2:7: error: the case does not give parts.fill.centre; write it into the case "
        "first, or name a key that is there");
  CHECK(told(tube + "centre = \"0 mm\"\n", readings("windings.coil.centre")) ==
        "reading.toml:2:7: error: windings.coil.centre is not positive in the case; write a first "
        "guess into the case; the fit looks from a sixteenth to sixteen times of it");
}

TEST_CASE("a reading of a winding the case has not is told with what was meant", "[fit]")
{
  const std::string text = readings("materials.powder.permeability");
  std::string astray = text;
  astray.replace(astray.find("coil"), 4, "cool");
  CHECK(told(tube, astray) ==
        "reading.toml:5:14: error: the case has no winding \"cool\"; did you mean \"coil\"?");
}

TEST_CASE("a fit's tolerances belong to the case and not to the unknown", "[fit]")
{
  const std::string key = "materials.powder.permeability";
  CHECK(told(tube, readings(key, tolerance(key, "\"1 %\""))) ==
        "reading.toml:9:7: error: tolerances[0].key \"materials.powder.permeability\" is what is "
        "sought; leave this tolerance out");
  CHECK(told(tube, readings(key, tolerance("parts.fill.length", "0.5"))) ==
        "reading.toml:9:7: error: parts.fill.length is a length, its tolerance is a plain number; "
        "give both in the same kind of unit, or the tolerance in %");
  CHECK(told(tube, readings(key, tolerance("windings.coil.turns", "\"0.5 mm\""))) ==
        "reading.toml:9:7: error: windings.coil.turns is a plain number, its tolerance is a "
        "length; give both in the same kind of unit, or the tolerance in %");
  CHECK(told(tube, readings(key, tolerance("parts.fill.bore", "\"0.5 mm\""))) ==
        "reading.toml:9:7: error: the case does not give parts.fill.bore; write it into the case "
        "first, or name a key that is there");
}

TEST_CASE("all faults of readings against a case come in one go", "[fit]")
{
  std::string text =
      readings("materials.powr.permeability", tolerance("parts.fill.bore", "\"0.5 mm\""));
  text.replace(text.find("coil"), 4, "cool");
  CHECK(told(tube, text) ==
        "reading.toml:2:7: error: the case has no material \"powr\"; it has powder and spare\n"
        "reading.toml:5:14: error: the case has no winding \"cool\"; did you mean \"coil\"?\n"
        "reading.toml:9:7: error: the case does not give parts.fill.bore; write it into the case "
        "first, or name a key that is there");
}
