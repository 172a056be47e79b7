// The report, the document and the chart of `fit` on responses with closed forms, word for word.
//
// The numbers are those of tests/post/fit_test.cpp; source of the words: ferrule's own have no
// other.
#include "cases/fit_report.hpp"

#include "hand_response.hpp"
#include "longest_line.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

namespace
{

using Catch::Contains;
using namespace post_tests;
using post::endless;
using post::Spread;

/// L = 500 uH * u / (u + 20)
double saturating(double u)
{
  return 500e-6 * u / (u + 20.0);
}

/// One winding "coil" of 100 turns; groups and results come with read().
cases::FitReport report(const std::function<double(double)>& inductance)
{
  cases::FitReport made;
  made.asked.read.title = "Bench sample";
  made.asked.read.problem.scene.windings = {{"coil", 100, mesh::Block{8e-3, 9e-3, 40e-3}, 0.0}};
  made.asked.question = question();
  made.asked.question.key = "materials.core.permeability";
  made.asked.permeability = true;
  made.asked.noun = "permeability";
  made.responses = {response(logarithmic(1.0, 1e5, 241), inductance)};
  made.options.draws = 20000;
  return made;
}

/// Adds a sample with these readings [H], each within 1 %.
void read(cases::FitReport& report, const std::string& sample, const std::vector<double>& readings,
          Spread spread = Spread::uniform, double relative = 0.01)
{
  cases::FitGroup group{sample, 10e3, {}, true};
  for (const double L : readings)
  {
    group.readings.push_back(reading(L, relative, spread));
  }
  report.results.push_back(
      post::fit(report.asked.question, report.responses, group.readings, true, report.options));
  const auto& impossible = report.results.back().impossible;
  report.slips.push_back(impossible
                             ? cases::slips(report.asked, report.responses, group, *impossible)
                             : std::vector<cases::Slip>{});
  report.asked.groups.push_back(group);
}

std::string text(const cases::FitReport& report)
{
  const std::string made = cases::fit_text(report);
  CHECK(longest_line(made) <= 80);
  return made;
}

} // namespace

TEST_CASE("a sharp sample's report", "[fit]")
{
  auto made = report(saturating);
  read(made, "", {saturating(6.0)});
  CHECK(text(made) == R"(Bench sample
------------

materials.core.permeability [estimated, from all that is uncertain]
  sample               best value   95 % interval  first order
  sample at 10.00 kHz       6.000  5.926 to 6.074     +- 0.088

What the uncertainty comes from [sample at 10.00 kHz]
  input    share of variance  moves it by (1 sigma)
  reading              100 %                  0.045

What this means
  Permeability between 5.93 and 6.07. One per cent of permeability changes the
  inductance by 0.77 %: sharp.
  WARNING: first order gives 5.912 to 6.088, Monte Carlo 5.926 to 6.074: apart
  by 9.7 % of the width. The result is not spread like a normal one, or bends
  over the interval: take Monte Carlo's and not +-.
  Interval: 20000 draws, seed 1 [JCGM 101:2008]; first order [JCGM 100:2008].
  The field's own bracket, 0 % of the inductance, is among the inputs.

A computed field is no approval of a part, a device or a workplace.
)");
}

TEST_CASE("an open sample's report tells what sample could tell", "[fit]")
{
  auto made = report(saturating);
  read(made, "", {saturating(3000.0)});
  made.assumed = 3000.0;
  made.tolerance = 0.01;
  made.ideas = {{"this sample", 497e-6, {900.0, endless}, true},
                {"a closed ring of its section and length", 10e-3, {2970.0, 3030.0}, false}};
  CHECK(text(made) == R"(Bench sample
------------

materials.core.permeability [estimated, from all that is uncertain]
  sample               best value  95 % interval  first order
  sample at 10.00 kHz        open  at least 1230            -

What the uncertainty comes from [sample at 10.00 kHz, of the inductance]
  input    share of variance  moves it by (1 sigma)
  reading              100 %            0.58 % of L

Samples that tell more or less [bounded, but the ring: thin-ring formula]
  sample                                   would read   would leave
  this sample                                  497 uH  at least 900
  a closed ring of its section and length     10.0 mH  2970 to 3030
  For a material of permeability 3000 and a reading within 1.0 %, all dimensions
  exact.

What this means
  Permeability at least 1230; this sample cannot tell more (looked up to
  100000).
  Interval: 20000 draws, seed 1 [JCGM 101:2008]; first order [JCGM 100:2008].
  The field's own bracket, 0 % of the inductance, is among the inputs.

A computed field is no approval of a part, a device or a workplace.
)");
}

TEST_CASE("an impossible reading's report tells by how much, and the likely mistakes", "[fit]")
{
  auto above = report(saturating);
  read(above, "", {600e-6});
  CHECK(text(above) == R"(Bench sample
------------

IMPOSSIBLE READING: sample at 10.00 kHz
  600.0 uH is 20 % above the most this geometry allows, 499.9 uH (at
  permeability 100000).
  Likely mistakes:
  - the turns: with 110 to 502 of them this reading would be possible, the case
    has 100.
  - the decimal point: 60.00 uH would fit, not 600.0 uH.
  - the meter's circuit: a parallel reading is this much above the series one
    where Q is 2.2 or less.
  - the leads: 0.10 mH of them would explain it; correct open and short, or read
    the bare coil too.

A computed field is no approval of a part, a device or a workplace.
)");
  auto below = report(saturating);
  read(below, "rod 7", {5e-6});
  CHECK(text(below) == R"(Bench sample
------------

IMPOSSIBLE READING: rod 7 at 10.00 kHz
  5.000 uH is 79 % below the least this geometry allows, 23.81 uH (at
  permeability 1.000).
  Likely mistakes:
  - the turns: with 10.0 to 45.8 of them this reading would be possible, the
    case has 100.
  - the decimal point: 50.00 uH would fit, not 5.000 uH.
  - a shorted turn, or metal near the coil, lowers a reading.

A computed field is no approval of a part, a device or a workplace.
)");
}

TEST_CASE("what is left after the leads may be nothing, and is told so", "[fit]")
{
  auto made = report(saturating);
  cases::FitGroup group{"", 0.0, {reading(5e-6, 0.01)}, true};
  group.readings[0].lead = post::UncertainInput{"lead", 6e-6};
  const auto result =
      post::fit(made.asked.question, made.responses, group.readings, true, made.options);
  REQUIRE(result.impossible);
  const auto slips = cases::slips(made.asked, made.responses, group, *result.impossible);
  REQUIRE(slips.size() == 1);
  CHECK(slips[0].what == "what was taken off for the leads or the bare coil is too much");
}

TEST_CASE("a batch's report names samples, and its chart shows their intervals", "[fit]")
{
  auto made = report(saturating);
  read(made, "tube 1", {saturating(6.0)}, Spread::normal, 0.02);
  read(made, "tube 2", {saturating(8.0), 1.1 * saturating(8.0)});
  read(made, "tube 3", {1e-6});
  read(made, "tube 4", {saturating(3000.0)});
  CHECK(text(made) == R"(Bench sample
------------

IMPOSSIBLE READING: tube 3 at 10.00 kHz
  1.000 uH is 96 % below the least this geometry allows, 23.81 uH (at
  permeability 1.000).
  Likely mistakes:
  - the turns: with 4.47 to 20.5 of them this reading would be possible, the
    case has 100.
  - a shorted turn, or metal near the coil, lowers a reading.

materials.core.permeability [estimated, from all that is uncertain]
  sample               best value   95 % interval  first order
  tube 1 at 10.00 kHz        6.00    5.70 to 6.31      +- 0.31
  tube 2 at 10.00 kHz       8.558  8.465 to 8.653     +- 0.098
  tube 3 at 10.00 kHz  impossible               -            -
  tube 4 at 10.00 kHz        open   at least 1230            -

What the uncertainty comes from [tube 1 at 10.00 kHz]
  input    share of variance  moves it by (1 sigma)
  reading              100 %                   0.16

What this means
  Tube 4 at 10.00 kHz: permeability at least 1230; this sample cannot tell more
  (looked up to 100000).
  Where an interval is closed, one per cent of permeability changes the
  inductance by 0.70 to 0.77 %: sharp.
  WARNING: the readings of tube 2 at 10.00 kHz contradict each other by more
  than their tolerances; check turns and dimensions before using the value.
  Interval: 20000 draws, seed 1 [JCGM 101:2008]; first order [JCGM 100:2008].
  The field's own bracket, 0 % of the inductance, is among the inputs.

A computed field is no approval of a part, a device or a workplace.
)");
  const auto chart = cases::fit_chart(made);
  REQUIRE(chart);
  CHECK(chart->x.names == std::vector<std::string>{"tube 1", "tube 2", "tube 3", "tube 4"});
  REQUIRE(chart->points.size() == 1);
  CHECK(chart->points[0].x == std::vector<double>{1.0, 2.0, 4.0}); // tube 3 is impossible
  CHECK(chart->points[0].upper[2] == endless);
  CHECK(chart->points[0].y[0] == Approx(6.0).epsilon(1e-5)); // interpolation of the response
  CHECK_FALSE(cases::fit_chart(
      []
      {
        auto alone = report(saturating);
        read(alone, "", {saturating(6.0)});
        return alone;
      }()));
}

TEST_CASE("the document of a fit has the keys that scripts rely on", "[fit]")
{
  auto made = report(saturating);
  read(made, "tube 1", {saturating(3000.0)});
  read(made, "tube 2", {saturating(8.0), 1.1 * saturating(8.0)});
  read(made, "tube 3", {1e-6});
  const std::string words = cases::fit_document(made);
  CHECK(words.back() == '\n');
  const auto document = nlohmann::json::parse(words);
  CHECK(document["unknown"]["key"] == "materials.core.permeability");
  CHECK(document["unknown"]["value"].is_number());
  CHECK(document["unknown"]["lower"].is_number());
  CHECK(document["unknown"]["upper"].is_null());
  CHECK(document["coverage"] == 0.95);
  CHECK(document["budget"][0]["input"] == "reading");
  CHECK(document["budget"][0]["share"] == Approx(1.0));
  CHECK(document["status"] == "reading impossible");
  const auto& samples = document["samples"];
  REQUIRE(samples.size() == 3);
  CHECK(samples[0]["budget_of"] == "logarithm of inductance");
  CHECK(samples[0]["unknown"]["monte_carlo"]["open_above"] > 0);
  CHECK(samples[0]["unknown"]["first_order_agrees"].is_null());
  CHECK_FALSE(samples[0].contains("readings_apart"));
  CHECK(samples[1]["readings_apart"] == Approx(std::log(1.1)));
  CHECK(samples[1]["budget_of"] == "unknown");
  CHECK(samples[1]["unknown"]["first_order_agrees"].is_boolean());
  CHECK_FALSE(samples[2].contains("unknown"));
  CHECK(samples[2]["impossible"]["below"] == true);
  CHECK(samples[2]["impossible"]["inductance_H"] == 1e-6);
  CHECK(samples[2]["impossible"]["likely"].size() == 2);
}

TEST_CASE("first order and Monte Carlo a little apart make a note, far apart a warning", "[fit]")
{
  // A square root bends: the ends of u = (L / 2 uH)^2 at L (1 +- e) are off first order's by e^2 u,
  // a quarter of e of their distance 4 e u; e is 1.96 of 0.1 or of 0.2: 4.9 % and 9.8 %.
  const auto root = [](double u) { return 2e-6 * std::sqrt(u); };
  auto little = report(root), far = report(root);
  little.options.draws = far.options.draws = 100000;
  read(little, "", {40e-6}, Spread::normal, 0.1);
  read(far, "", {40e-6}, Spread::normal, 0.2);
  CHECK(cases::meaning_text(little) == R"(
What this means
  Permeability between 258 and 572. One per cent of permeability changes the
  inductance by 0.50 %: sharp.
  Note: first order gives 243.2 to 556.8, Monte Carlo 258.4 to 572.2: apart by
  4.9 % of the width. The result is not spread like a normal one, or bends over
  the interval; the interval is Monte Carlo's.
)");
  CHECK(cases::meaning_text(far) == R"(
What this means
  Permeability between 148 and 775. One per cent of permeability changes the
  inductance by 0.50 %: sharp.
  WARNING: first order gives 86.41 to 713.6, Monte Carlo 147.6 to 775.1: apart
  by 9.8 % of the width. The result is not spread like a normal one, or bends
  over the interval: take Monte Carlo's and not +-.
)");

  // An end so far out that its draws are few and noisy is no reason to be silent.
  auto blunt = report(saturating);
  read(blunt, "", {saturating(1200.0)}, Spread::uniform, 0.0165);
  CHECK(std::isfinite(blunt.results[0].unknown.interval.upper));
  CHECK_FALSE(blunt.results[0].unknown.agreement->resolved);
  CHECK_THAT(cases::meaning_text(blunt), Contains("WARNING: first order"));
}
