// Keys of a search: their range, what ends it, and what is refused.
#include "cases/case_text.hpp"
#include "cases/fault.hpp"
#include "cases/search_key.hpp"
#include "folder.hpp"

#include <catch2/catch.hpp>

#include <fstream>

namespace
{

struct Bench
{
  Folder folder;
  std::filesystem::path file = folder.path / "case.toml";

  explicit Bench(const std::string& text) { std::ofstream(file) << text; }
  cases::SearchKey key(const std::string& by, const std::string& between = "") const
  {
    return cases::search_key(cases::search_case(file, {}), by, between);
  }
  std::string refusal(const std::string& by, const std::string& between = "") const
  {
    try
    {
      key(by, between);
    }
    catch (const cases::CaseError& error)
    {
      return error.what();
    }
    return "not refused";
  }
};

} // namespace

TEST_CASE("a key is looked for about its own value, as far as bodies leave room", "[seek]")
{
  const Bench bench(case_tests::sound_case);
  const cases::SearchKey diameter = bench.key("parts.core.diameter");
  CHECK(diameter.own == Approx(10.0 * diameter.from));
  CHECK(diameter.to == Approx(8e-3).epsilon(1e-12)); // where rod and coil just touch
  CHECK(diameter.below.empty());
  CHECK(diameter.above.find("windings.coil overlaps parts.core") == 0);
  CHECK(diameter.unit == "mm");
  CHECK(cases::value_text(diameter, 5e-3) == "5 mm");
  CHECK_FALSE(diameter.whole);

  const cases::SearchKey given = bench.key("windings.coil.centre", "-5mm:20 mm");
  CHECK(given.from == Approx(-5e-3));
  CHECK(given.to == Approx(20e-3));
  CHECK(bench.key("materials.core.permeability", "10:1000").to == 1000.0);
  // Keys moved alike: the range ends where any of them does.
  const cases::SearchKey both = bench.key("parts.core.length,windings.coil.length", "20mm:60mm");
  CHECK(both.keys.size() == 2);
}

TEST_CASE("turns of wire drawn one by one are looked for in whole numbers", "[seek]")
{
  const Bench bench(case_tests::sound_case + R"([[windings]]
name = "tap"
turns = 12
wire = "0.3 mm"
layers = 1
inner_diameter = "60 mm"
)");
  const cases::SearchKey turns = bench.key("windings.tap.turns");
  CHECK(turns.whole);
  CHECK(turns.from == 1.0);
  CHECK(turns.to == 120.0);
  CHECK_FALSE(bench.key("windings.coil.turns").whole);
}

TEST_CASE("what cannot be searched is refused with a cure", "[seek]")
{
  const Bench bench(case_tests::sound_case);
  CHECK(bench.refusal("parts.cor.length") ==
        "--by parts.cor.length: error: the case has no part \"cor\"; did you mean \"core\"?");
  CHECK(bench.refusal("parts.core.material").find("in the case, no number") != std::string::npos);
  CHECK(bench.refusal("parts.core.length", "3mm") ==
        "--between 3mm: error: this is no range; write FROM:TO, e.g. 20mm:200mm");
  CHECK(bench.refusal("parts.core.length", "3mm:5A").find("units of one kind") !=
        std::string::npos);
  CHECK(bench.refusal("parts.core.diameter", "8.5mm:8.6mm").find("makes a sound case") !=
        std::string::npos);
  CHECK(bench.refusal(",a").find("--by is") != std::string::npos);
}
