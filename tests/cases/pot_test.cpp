// A pot by its sizes is the outline drawn by hand, and its gap is a key like any other.
#include "cases/case_text.hpp"
#include "cases/pipeline.hpp"
#include "cases/result_text.hpp"

#include <catch2/catch.hpp>

using case_tests::case_of;
using Catch::Contains;

namespace
{

const std::string pot = R"([materials.ferrite]
magnetisation = { law = "froehlich-kennelly", saturation = "0.45 T", permeability = 2000 }
[[parts]]
name = "core"
shape = "pot"
material = "ferrite"
outer_diameter = "26 mm"
length = "18 mm"
post_diameter = "10 mm"
wall = "2.5 mm"
floor = "2.5 mm"
gap = "0.6 mm"
[[windings]]
name = "choke"
turns = 40
inner_diameter = "12 mm"
outer_diameter = "19 mm"
length = "11 mm"
[drive]
bias = { from = "0 A", to = "8 A", count = 5 }
[accuracy]
inductance = 3e-3
)";

double gap_of(const cases::Case& read)
{
  const auto& points = std::get<mesh::Profile>(read.problem.scene.parts.front().shape).points;
  return points[4].z - points[11].z;
}

} // namespace

TEST_CASE("a pot is the profile of its sizes", "[case-file]")
{
  const cases::Case read = case_of(pot);
  const auto& points = std::get<mesh::Profile>(read.problem.scene.parts.front().shape).points;
  const std::vector<mesh::Point> by_hand = {{0.0, -9e-3},    {13e-3, -9e-3},    {13e-3, 9e-3},
                                            {0.0, 9e-3},     {0.0, 0.3e-3},     {5e-3, 0.3e-3},
                                            {5e-3, 6.5e-3},  {10.5e-3, 6.5e-3}, {10.5e-3, -6.5e-3},
                                            {5e-3, -6.5e-3}, {5e-3, -0.3e-3},   {0.0, -0.3e-3}};
  REQUIRE(points.size() == by_hand.size());
  for (std::size_t i = 0; i < points.size(); ++i)
  {
    CAPTURE(i);
    CHECK(points[i].r == Approx(by_hand[i].r).margin(1e-15));
    CHECK(points[i].z == Approx(by_hand[i].z).margin(1e-15));
  }
  CHECK(gap_of(case_of(pot, {{"parts.core.gap", "2 mm"}})) == Approx(2e-3));
}

TEST_CASE("cases of several gaps compare by inductance gained and current kept", "[cases][long]")
{
  std::vector<cases::Case> read = {case_of(pot), case_of(pot, {{"parts.core.gap", "1.2 mm"}})};
  const std::vector<cases::Solved> all = cases::solved(std::move(read), {});
  const std::vector<post::Result> results = {all[0].result, all[1].result};
  const std::vector<std::string> names = {"narrow", "wide"};
  REQUIRE(results[0].gaps.size() == 1);
  CHECK(results[1].gaps.front().length == Approx(1.2e-3).epsilon(1e-12));
  CHECK(results[1].gaps.front().fringing > results[0].gaps.front().fringing);
  // A wider gap: less inductance, more current before it falls.
  CHECK(results[1].windings.front().inductance.upper <
        results[0].windings.front().inductance.lower);
  REQUIRE(results[0].bias.drops.front().current);
  REQUIRE(results[1].bias.drops.front().current);
  CHECK(*results[1].bias.drops.front().current > *results[0].bias.drops.front().current);
  const std::string told = cases::compare_bias_text(results, names);
  CHECK_THAT(told, Contains("0.6 mm air") && Contains("1.2 mm air"));
  CHECK_THAT(std::string(cases::compare_gap_text(results, names)),
             Contains("Gaps and their fringing") && Contains("[estimated"));
  CHECK_THAT(std::string(cases::gap_text(results[0])),
             Contains("from the field") && Contains("[Roters 1941]"));
}
