// What counts inside a toroid's winding, from the case file to the result.
#include "cases/axial.hpp"
#include "cases/case_text.hpp"
#include "mesh/layout.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using case_tests::case_of;

namespace
{

std::string coated(const std::string& coating)
{
  return R"(
[materials.dust]
permeability = 100
[materials.paste]
permeability = 10
[[parts]]
name = "core"
shape = "tube"
material = "dust"
inner_diameter = "10 mm"
outer_diameter = "16 mm"
length = "5 mm"
coating = { material = ")" +
         coating + R"(", thickness = "0.5 mm" }
[[parts]]
name = "elsewhere"
shape = "ring"
material = "dust"
loop_diameter = "40 mm"
section_diameter = "4 mm"
[[parts]]
name = "gap"
shape = "ring"
material = "air"
loop_diameter = "13 mm"
section_diameter = "1 mm"
[[toroids]]
name = "choke"
turns = 7
around = "core"
[drive]
frequency = ["10 kHz", "1 MHz"]
)";
}

/// int 1/r of a round section.
double round_integral(double R, double r)
{
  return 2.0 * std::numbers::pi * (R - std::sqrt(R * R - r * r));
}

} // namespace

TEST_CASE("coating and bodies inside a toroid's winding count, others do not", "[cases][axial]")
{
  const cases::Case read = case_of(coated("paste"));
  const auto all = cases::toroid_results(read.toroids, read.problem, std::vector{0.0, 1e4}, 1);
  // Rounded corners of the coating: half a millimetre, in closed form with the core's outline.
  const double core = 5e-3 * std::log(16.0 / 10.0), hole = round_integral(6.5e-3, 0.5e-3);
  mesh::Part whole = read.problem.scene.parts.front();
  const double around = post::toroid_integral(mesh::offset(mesh::outline(whole), 0.5e-3).front());
  const double L = 49.0 * solver::mu0 / (2.0 * std::numbers::pi) *
                   (100.0 * (core - hole) + hole + 10.0 * (around - core));
  CHECK(all[0][0].inductance == Approx(L).epsilon(1e-10));
  CHECK(all[1][0].inductance == Approx(L).epsilon(1e-10)); // nothing conducts: exact
  CHECK(all[1][0].disc == 0.0);
}

TEST_CASE("a copper coating is a shorted turn about its toroid", "[cases][axial]")
{
  const cases::Case read = case_of(coated("copper"));
  const auto all = cases::toroid_results(read.toroids, read.problem, read.problem.frequencies, 2);
  for (const auto& at : all)
  {
    const post::ToroidResult& one = at.front();
    CHECK(one.accuracy_reached);
    CHECK(one.disc > 0.0);
    REQUIRE(one.by_body.size() == 3);
    CHECK(one.by_body[1].first == "core.coating");
    CHECK(one.by_body[1].second == Approx(one.resistance).epsilon(1e-3)); // all the loss
    // At rest the dust alone would give 23 uH; skins of 0.66 and 0.066 mm leave little.
    CHECK(one.inductance < 0.02 * 23e-6);
  }
}
