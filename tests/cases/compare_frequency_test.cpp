// What `compare` says over frequency: tables, dB, notices; no table of dashes.
#include "cases/compare_sections.hpp"
#include "cases/report.hpp"
#include "cases/result_text.hpp"
#include "cases/table.hpp"
#include "hand_filled.hpp"
#include "longest_line.hpp"
#include "post/probe_noise.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

namespace
{

using Catch::Contains;

/// A winding and a probe at these frequencies; R and L times a factor.
post::Result filled(const std::vector<double>& frequencies, double factor, double field)
{
  post::Result result = hand_filled::rod();
  for (const double frequency : frequencies)
  {
    post::WindingImpedance one;
    one.name = "coil";
    one.omega = 2.0 * std::numbers::pi * frequency;
    one.inductance = 440e-6 * factor;
    one.resistance = 0.5 * factor;
    one.disc = 1e-4;
    post::FrequencyResult at;
    at.frequency = frequency;
    at.windings = {one};
    at.probes = {{"beside", 25e-3, 0.0, {}, {}, field, 1e-12, 3.0}};
    result.frequencies.push_back(at);
  }
  return result;
}

const std::vector<std::string> names = {"bare", "shielded"};

} // namespace

TEST_CASE("over common frequencies R, L, Q and their ratios stand side by side", "[compare]")
{
  const std::vector results = {filled({1e3, 1e4}, 1.0, 1e-6), filled({1e3, 1e4, 1e5}, 2.0, 1e-7)};
  CHECK(cases::compared_frequency_text(results, names) == R"(
Over frequency, side by side [bounded; straight wires exact]
  case            frequency           R         L     Q  R ratio  L ratio
  bare      coil  1.000 kHz  500.0 mohm  440.0 uH  5.53    1.000    1.000
  shielded  coil  1.000 kHz   1.000 ohm  880.0 uH  5.53    2.000    2.000
  bare      coil  10.00 kHz  500.0 mohm  440.0 uH  55.3    1.000    1.000
  shielded  coil  10.00 kHz   1.000 ohm  880.0 uH  55.3    2.000    2.000
  Ratios to bare: of the same name, or of its only one; with the digits the
  discs decide.

Field at probes, side by side [estimated]
  probe       r     z  frequency  case            B  weaker by
  beside  25 mm  0 mm  1.000 kHz  bare      1.00 uT
  beside  25 mm  0 mm  1.000 kHz  shielded   100 nT   20.00 dB
  beside  25 mm  0 mm  10.00 kHz  bare      1.00 uT
  beside  25 mm  0 mm  10.00 kHz  shielded   100 nT   20.00 dB
  Weaker by: the field in bare over the one here, each as its case drives it;
  below 0 dB it is stronger here.
  shielded has 1 frequency that not every case has: 100.0 kHz; not compared.
)");
}

TEST_CASE("what cannot be compared over frequency is said, not left out", "[compare]")
{
  std::vector results = {filled({1e3}, 1.0, 1e-6), filled({2e3}, 2.0, 1e-7)};
  CHECK_THAT(
      cases::compared_frequency_text(results, names),
      Contains("No frequency is common to the cases: give each the same [drive] frequency") &&
          Contains("bare has 1 frequency that not every case has: 1.000 kHz"));
  results[1] = filled({}, 1.0, 0.0);
  CHECK_THAT(cases::compared_frequency_text(results, names),
             Contains("shielded has no [drive] frequency: it is not compared over frequency"));
  results[0] = filled({}, 1.0, 0.0);
  CHECK(cases::compared_frequency_text(results, names).empty());
  results = {filled({1e3}, 1.0, 1e-6), filled({1e3}, 2.0, 1e-7)};
  results[1].frequencies[0].windings[0].disc = 1e3;
  CHECK_THAT(cases::compared_frequency_text(results, names),
             Contains("open") && Contains("Open: the disc holds zero too"));
}

TEST_CASE("cases without windings are compared without a table of dashes", "[compare]")
{
  std::vector<cases::Case> read(2);
  read[0].path = "thin.toml";
  read[1].path = "thick.toml";
  std::vector<post::Result> results(2);
  std::vector<solver::Problem> problems(2);
  for (std::size_t i = 0; i < 2; ++i)
  {
    const double L = i == 0 ? 1e-6 : 3e-6;
    results[i].wires = {{"lead", 0.02, L, {}, {}}};
    post::FrequencyResult at;
    at.frequency = 1e6;
    at.wires = {{"lead", 0.5, L, {}, {}}};
    results[i].frequencies = {at};
  }
  const std::string text = cases::compare_text(read, results, post::compared(results, problems));
  CHECK_THAT(text, !Contains("none") && !Contains("yardstick") && !Contains("- "));
  CHECK_THAT(text,
             Contains("  thin   lead  20.000 mohm/m  1.0000 uH/m\n") &&
                 Contains("  thick  lead  1.000 MHz  500.00 mohm/m  3.0000 uH/m  37.7    1.000"
                          "    3.000\n"));
  CHECK(longest_line(text) <= cases::page_width);
}

TEST_CASE("ratios of fields have the digits that their noise leaves", "[compare]")
{
  CHECK(cases::decibels(22.654, 1e-4) == "22.65 dB");
  CHECK(cases::decibels(22.654, 0.01) == "22.7 dB"); // open by 0.09 dB
  CHECK(cases::decibels(22.654, 0.3) == "about 23 dB");
  CHECK(cases::decibels(-0.0, 0.0) == "0.00 dB");
}

TEST_CASE("noise at a probe follows the field that a core makes at rest", "[compare]")
{
  post::Result result = filled({1e3, 1e4}, 1.0, 1e-6);
  result.probes = {{"beside", 25e-3, 0.0, 3e-6, 4e-6, 0.0, 0.0, 0.0, "air"}};
  result.frequencies[0].accuracy_met = 1e-4;
  post::tell_noise(result);
  CHECK(result.frequencies[0].probes[0].noise == Approx(5e-8));
  CHECK(result.frequencies[1].probes[0].noise == 1e-12);
}
