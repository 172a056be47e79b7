// `compare --vary`: every file at every value, in which order, and what is refused.
#include "cases/compare_sections.hpp"
#include "cases/fault.hpp"
#include "cases/variants.hpp"

#include <catch2/catch.hpp>

namespace
{

const std::vector<std::filesystem::path> pots{"cases/pot-core-air-gap.toml",
                                              "cases/pot-core-powder-gap.toml"};

std::vector<cases::Case> variants(const std::string& vary,
                                  const std::vector<std::filesystem::path>& files = pots)
{
  cases::Options options;
  options.vary = vary;
  return cases::read_variants(files, options);
}

std::string refusal(const std::string& vary)
{
  try
  {
    variants(vary);
  }
  catch (const cases::CaseError& error)
  {
    return error.what();
  }
  return "not refused";
}

/// Height at which the outline of the core has its last corner but one: the lower face of the gap.
double lower_face(const cases::Case& read)
{
  const auto& points = std::get<mesh::Profile>(read.problem.scene.parts.front().shape).points;
  double nearest = -1.0;
  for (const mesh::Point& point : points)
  {
    nearest = point.z < 0.0 ? std::max(nearest, point.z) : nearest;
  }
  return nearest;
}

} // namespace

TEST_CASE("compare --vary takes every file at the first value, then every file at the next",
          "[compare]")
{
  const std::vector<cases::Case> all =
      variants("parts.core.gap,parts.filling.length=0.5mm,0.002 m");
  REQUIRE(all.size() == 4);
  const std::vector<std::string> names{"0.5 mm pot-core-air-gap", "0.5 mm pot-core-powder-gap",
                                       "2 mm pot-core-air-gap", "2 mm pot-core-powder-gap"};
  CHECK(cases::labels(all) == names);
  CHECK(all[0].title == "Pot core, air gap in the centre post (core gap 0.5 mm)");
  CHECK(lower_face(all[0]) == Approx(-0.25e-3));
  CHECK(lower_face(all[3]) == Approx(-1e-3));
  const auto& filling = all[3].problem.scene.parts.back();
  REQUIRE(filling.name == "filling");
  CHECK(std::get<mesh::Rod>(filling.shape).length == Approx(2e-3));
}

TEST_CASE("without --vary compare takes the files as they are", "[compare]")
{
  const std::vector<cases::Case> all = variants("");
  REQUIRE(all.size() == 2);
  CHECK(cases::labels(all).front() == "pot-core-air-gap");
}

TEST_CASE("compare refuses what no file has, what is no value, and what a sweep is for",
          "[compare]")
{
  CHECK(refusal("parts.filling.length=1mm,2mm") ==
        "cases/pot-core-air-gap.toml: error: has none of the keys parts.filling.length that vary; "
        "leave the file out, or name a key of it after a comma");
  CHECK(refusal("parts.core.gap=1mm:2mm:40") ==
        "ferrule: error: --vary makes more than 60 cases; give fewer values; ferrule sweep is for "
        "many");
  CHECK(refusal("parts.core.gap") == "ferrule: error: --vary \"parts.core.gap\" has no KEY=VALUES; "
                                     "e.g. --vary parts.core.length=20mm:200mm:10");
}
