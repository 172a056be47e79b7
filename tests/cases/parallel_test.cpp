// Turns in parallel from the case file to the report.
#include "cases/case_text.hpp"
#include "cases/pipeline.hpp"
#include "cases/report.hpp"
#include "post/quantities.hpp"

#include <catch2/catch.hpp>
#include <numbers>

namespace
{

using Catch::Contains;

const std::string parallel_case = R"([[windings]]
name = "coil"
turns = 4
wire = "1 mm"
inner_diameter = "8 mm"
layers = 2
strand = "solid"
connection = "parallel"
[drive]
current = "2 A"
)";

} // namespace

TEST_CASE("turns in parallel count as one and share their dc resistance", "[parallel]")
{
  const cases::Case read = case_tests::case_of(parallel_case);
  const mesh::Winding& winding = read.problem.scene.windings.front();
  CHECK(std::get<mesh::RoundTurns>(winding.build).parallel);
  CHECK(post::series_turns(winding) == 1.0);
  // Two turns each of 9 and 11 mm mean diameter; conductances add.
  const double per_metre = 1.0 / (58e6 * std::numbers::pi * 0.25e-6);
  const double inner = per_metre * std::numbers::pi * 9e-3,
               outer = per_metre * std::numbers::pi * 11e-3;
  CHECK(post::wire(read.problem, winding)->dc_resistance ==
        Approx(1.0 / (2.0 / inner + 2.0 / outer)).epsilon(1e-12));
  CHECK(post::wire(read.problem, winding)->length == Approx(2.0 * std::numbers::pi * 20e-3));
}

TEST_CASE("the report says that turns are in parallel and offers no formula for turns in series",
          "[parallel]")
{
  const std::vector<cases::Solved> all =
      cases::solved({case_tests::case_of(parallel_case)}, cases::Options{});
  const post::Result& result = all.front().result;
  CHECK(result.windings.front().turns == 1.0);
  CHECK(result.windings.front().inductance_per_turn_squared ==
        result.windings.front().inductance.value);
  CHECK(result.formulas.empty());
  CHECK_THAT(cases::solve_text(all.front().read, result, {}),
             Contains("The 4 turns of coil are in parallel and count as one."));
  const std::vector<solver::Problem> problems(2, all.front().read.problem);
  const std::vector<post::Result> results(2, result);
  const std::vector<cases::Case> read(2, all.front().read);
  const auto compared = post::compared(results, problems);
  CHECK(!compared[1].turns_to_match);
  CHECK(compared[1].ratio);
  CHECK_THAT(cases::compare_text(read, results, compared), !Contains("about"));
}
