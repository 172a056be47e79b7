// What --vary and [sweep] say: values, their texts, and what is refused, character for character.
#include "cases/case_text.hpp"
#include "cases/fault.hpp"
#include "cases/sweep_plan.hpp"

#include <catch2/catch.hpp>

namespace
{

using cases::varied;
using Texts = std::vector<std::string>;

Texts texts(const cases::Varied& made)
{
  Texts list;
  for (const cases::VariedValue& one : made.values)
  {
    list.push_back(one.text);
  }
  return list;
}

std::string refusal(const std::string& typed)
{
  try
  {
    varied(typed);
  }
  catch (const cases::CaseError& error)
  {
    return error.what();
  }
  return "not refused";
}

} // namespace

TEST_CASE("a range holds both ends and even steps in the unit of its start", "[sweep]")
{
  const cases::Varied length = varied("parts.core.length=20mm:0.1m:5");
  CHECK(texts(length) == Texts{"20 mm", "40 mm", "60 mm", "80 mm", "100 mm"});
  CHECK(length.unit == "mm");
  CHECK(length.kind == cases::Kind::length);
  CHECK(length.values[1].si == 0.04);
  CHECK(length.values[1].shown == 40.0);
  // Sums like 0.1 + 0.2 are typed as people would.
  CHECK(texts(varied("windings.coil.turns = 0.1 : 0.4 : 4")) == Texts{"0.1", "0.2", "0.3", "0.4"});
  CHECK(texts(varied("drive.current=3 A:1 A:3")) == Texts{"3 A", "2 A", "1 A"});
}

TEST_CASE("a logarithmic range goes by equal factors and meets its end exactly", "[sweep]")
{
  const cases::Varied mu = varied("materials.core.permeability=1:1e5:6:log");
  CHECK(texts(mu) == Texts{"1", "10", "100", "1000", "10000", "100000"});
  CHECK(mu.logarithmic);
  const cases::Varied thirds = varied("materials.core.permeability=2:16:4:log");
  CHECK(thirds.values[1].si == Approx(4.0).epsilon(1e-12));
  CHECK(thirds.values[3].si == 16.0);
}

TEST_CASE("a list keeps its texts, numbers or words", "[sweep]")
{
  const cases::Varied length = varied("parts.a.length,parts.b.length=20mm, 1in,\"3 cm\"");
  CHECK(length.keys == Texts{"parts.a.length", "parts.b.length"});
  CHECK(texts(length) == Texts{"20mm", "1in", "\"3 cm\""});
  CHECK(length.values[1].si == 0.0254);
  CHECK(length.values[1].shown == Approx(25.4).epsilon(1e-15));
  CHECK(length.values[2].shown == Approx(30.0).epsilon(1e-15));
  const cases::Varied wire = varied("windings.coil.wire=24 AWG,30 AWG");
  CHECK(wire.numeric);
  CHECK(wire.unit == "mm");
  const cases::Varied words = varied("parts.core.material=ferrite,dust");
  CHECK_FALSE(words.numeric);
  const cases::Varied tables =
      varied(R"(parts.core.centre={ above = "b", gap = "1 mm" },{ above = "b", gap = "2 mm" })");
  CHECK(tables.values.size() == 2);
}

TEST_CASE("a --vary that says nothing sound is refused in one line", "[sweep]")
{
  CHECK(refusal("parts.core.length") ==
        "ferrule: error: --vary \"parts.core.length\" has no KEY=VALUES; e.g. --vary "
        "parts.core.length=20mm:200mm:10");
  CHECK(refusal("a.b=") == "--vary a.b: error: there are no values; write FROM:TO:COUNT, or a list "
                           "A,B,C");
  CHECK(refusal("a.b,=1,2") ==
        "--vary a.b,: error: a key is missing beside the comma; write KEY,KEY=VALUES");
  CHECK(refusal("a.b=1:2") == "--vary a.b: error: \"1:2\" is no range; write FROM:TO:COUNT or "
                              "FROM:TO:COUNT:log, e.g. 20mm:200mm:10");
  CHECK(refusal("a.b=1:2:3:lin") == "--vary a.b: error: \"1:2:3:lin\" is no range; write "
                                    "FROM:TO:COUNT or FROM:TO:COUNT:log, e.g. 20mm:200mm:10");
  CHECK(refusal("a.b=1:2:1") ==
        "--vary a.b: error: the count is \"1\"; give a whole number of values from 2 to 100000");
  CHECK(refusal("a.b=1:2:2.5") ==
        "--vary a.b: error: the count is \"2.5\"; give a whole number of values from 2 to 100000");
  CHECK(refusal("a.b=x:2:3") ==
        "--vary a.b: error: the range starts at \"x\", which is no number or "
        "quantity; write e.g. 20mm:200mm:10");
  CHECK(refusal("a.b=20:40mm:3") ==
        "--vary a.b: error: the range starts at \"20\" and ends at \"40mm\"; give both ends with "
        "units of one kind, e.g. 20mm:200mm:10");
  CHECK(refusal("a.b=2mm:2mm:3") == "--vary a.b: error: the range starts and ends at \"2mm\"; give "
                                    "two ends that differ");
  CHECK(refusal("a.b=0:5:3:log") == "--vary a.b: error: a logarithmic range needs ends above zero; "
                                    "leave :log out for even steps");
  CHECK(refusal("a.b=1,,2") ==
        "--vary a.b: error: the list has an empty value; write e.g. 20mm,40mm,80mm");
  CHECK(refusal("a.b=1mm,0.1cm") ==
        "--vary a.b: error: the list gives \"0.1cm\" twice; give each value once");
  CHECK(refusal("a.b=1mm,2kHz") == "--vary a.b: error: the list gives \"1mm\" and \"2kHz\"; give "
                                   "values with units of one kind");
}

TEST_CASE("[sweep] of a case says the same as --vary, and solving passes it over", "[sweep]")
{
  const std::string text = case_tests::sound_case + R"([[sweep.vary]]
key = "parts.core.length"
from = "20 mm"
to = "40 mm"
count = 3
[[sweep.vary]]
keys = ["materials.core.permeability"]
from = 10
to = 1000
count = 3
spacing = "logarithmic"
[[sweep.vary]]
key = "windings.coil.turns"
values = [20, 40]
[sweep]
show = "apparent_permeability"
)";
  const cases::Case read = case_tests::case_of(text);
  REQUIRE(read.varied.size() == 3);
  CHECK(texts(read.varied[0]) == Texts{"20 mm", "30 mm", "40 mm"});
  CHECK(texts(read.varied[1]) == Texts{"10", "100", "1000"});
  CHECK(texts(read.varied[2]) == Texts{"20", "40"});
  CHECK(read.show == "apparent_permeability");
  CHECK(read.problem.scene.windings.size() == 1);
}

TEST_CASE("faults of [sweep] stand with their lines", "[sweep]")
{
  using case_tests::sound_case;
  using case_tests::told;
  CHECK(told(sound_case + "[sweep]\nshow = \"inductance\"\n") ==
        ":16:1: error: sweep needs vary; write e.g. vary = [ { key = \"parts.core.length\", "
        "values = [\"20 mm\", \"40 mm\"] } ]");
  CHECK(told(sound_case + "[sweep]\nvary = 3\n") ==
        ":17:8: error: sweep.vary must be a list of tables, got 3; write [[sweep.vary]] above key, "
        "from, to and count");
  CHECK(
      told(sound_case + "[[sweep.vary]]\nkey = \"parts.core.length\"\nfrom = \"2 mm\"\n"
                        "to = \"3 kHz\"\ncount = 3\n") ==
      ":16:1: error: the range starts at \"2 mm\" and ends at \"3 kHz\"; give both ends with units "
      "of one kind, e.g. 20mm:200mm:10");
  CHECK(told(sound_case + "[[sweep.vary]]\nkey = \"parts.core.length\"\nvalues = []\n") ==
        ":18:10: error: sweep.vary[1].values must be a list of one or more values, got none; write "
        "e.g. values = "
        "[\"20 mm\", \"40 mm\"]");
  CHECK(
      told(sound_case + "[[sweep.vary]]\nkey = \"parts.core.length\"\nvalues = [1]\nfrom = 2\n") ==
      ":19:1: error: sweep.vary[1].from stands beside a list of values; keep the list or the "
      "range");
  CHECK(told(sound_case + "[[sweep.vary]]\nkey = \"parts.core.length\"\nvalues = [1, 2]\n"
                          "[sweep]\nshow = \"L\"\n") ==
        ":20:8: error: sweep.show must be \"inductance\", \"apparent_permeability\", "
        "\"inductance_per_turn_squared\", \"inductance_at_frequency\", \"resistance\", "
        "\"quality\", \"flux_linkage\", \"secant_inductance\", \"incremental_inductance\", "
        "\"apparent_permeability_middle\", \"apparent_permeability_volume\", "
        "\"ballistic_factor\", \"magnetometric_factor\", \"inductance_per_metre\" or "
        "\"resistance_per_metre\", got \"L\"; write one of these");
  CHECK(told(sound_case + "[[sweep.vary]]\nkey = \"parts.core.length\"\nvalues = [1, 2]\n"
                          "[sweep]\nbeside = [\"rod, endless\", 3]\n") ==
        ":20:10: error: sweep.beside must be a list of 1 to 3 hand formulas; write e.g. beside = "
        "[\"rod, short coil\"]; ferrule formulas lists them");
}

TEST_CASE("only permeabilities and what makes a powder's are left to a reduced model", "[sweep]")
{
  CHECK(cases::is_material_key("materials.core.permeability"));
  CHECK(cases::is_material_key("materials.dust.powder.packing"));
  CHECK(cases::is_material_key("materials.dust.powder.particle_permeability"));
  CHECK(cases::is_material_key("materials.core.permeability.real"));
  CHECK(cases::is_material_key("materials.core.permeability.imaginary"));
  CHECK_FALSE(cases::is_material_key("materials.core.permeability.phase"));
  CHECK_FALSE(cases::is_material_key("materials.dust.powder.rule"));
  CHECK_FALSE(cases::is_material_key("materials.dust.conductivity"));
  CHECK_FALSE(cases::is_material_key("parts.core.permeability"));
}
