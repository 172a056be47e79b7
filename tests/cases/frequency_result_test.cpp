// What a person and a program are told of a case over frequency: report, document, exit status.
#include "cases/case_text.hpp"
#include "cases/pipeline.hpp"
#include "cases/report.hpp"
#include "cases/result_text.hpp"
#include "hand_filled.hpp"
#include "post/json.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>
#include <numbers>

using Catch::Contains;

namespace
{

/// A rod at so many frequencies from 1 kHz, doubling.
post::Result filled(int count)
{
  post::Result result = hand_filled::rod();
  double frequency = 1e3;
  for (int i = 0; i < count; ++i, frequency *= 2.0)
  {
    post::WindingImpedance one;
    one.name = "coil";
    one.omega = 2.0 * std::numbers::pi * frequency;
    one.inductance = 440e-6;
    one.resistance = 0.5 * (i + 1);
    one.disc = 1e-3;
    one.by_body = {{"core", 0.4 * (i + 1)}, {"coil", 0.1 * (i + 1)}};
    post::FrequencyResult at;
    at.frequency = frequency;
    at.windings = {one};
    at.impedance = {{{one.resistance, one.omega * one.inductance}}};
    at.disc = {{one.disc}};
    result.frequencies.push_back(at);
  }
  return result;
}

/// Small, quick, lossy: a rod in a copper tube in two coils.
const std::string small_case = R"(title = "Small"
[materials.core]
permeability = { real = 40, imaginary = 10 }
conductivity = "1000 S/m"
[[parts]]
name = "core"
shape = "rod"
material = "core"
diameter = "6 mm"
length = "20 mm"
[[parts]]
name = "shield"
shape = "tube"
material = "copper"
inner_diameter = "14 mm"
outer_diameter = "15 mm"
length = "20 mm"
[[windings]]
name = "coil"
turns = 8
wire = "0.5 mm"
inner_diameter = "8 mm"
layers = 1
centre = "-4 mm"
[[windings]]
name = "other"
turns = 40
inner_diameter = "8 mm"
outer_diameter = "9 mm"
length = "5 mm"
centre = "5 mm"
[drive]
frequency = ["5 kHz", "200 kHz"]
[accuracy]
inductance = 1e-2
)";

} // namespace

TEST_CASE("the report over frequency has a row each and says where the resistance comes from",
          "[frequency]")
{
  CHECK(cases::frequency_text(hand_filled::rod()).empty());
  CHECK(cases::frequency_text(filled(2)) == R"(
Over frequency [bounded: the true impedance lies within the last column]
  winding  frequency  resistance  inductance     Q  true within
  coil     1.000 kHz    500 mohm    440.0 uH  5.53     1.0 mohm
  coil     2.000 kHz   1.000 ohm    440.0 uH  5.53     1.0 mohm
  Resistance of coil comes from: core 80 %, coil 20 % at 1.00 kHz; core 80 %,
    coil 20 % at 2.00 kHz.
  A plain section has no wire: the resistance is that of cores, coatings and
  shields alone. Give it the wire of its strands, or draw it turn by turn.
  Resistances at 20 degC.
)");
}

TEST_CASE("what the disc leaves open is not told", "[frequency]")
{
  post::Result result = filled(1);
  post::WindingImpedance& one = result.frequencies[0].windings[0];
  one.resistance = 5.0;
  one.disc = one.inductance * one.omega * 1.001; // 2.8 ohm
  CHECK_THAT(cases::frequency_text(result),
             Contains("  coil     1.000 kHz     5.0 ohm    not told  -      2.8 ohm\n") &&
                 Contains("a smaller --accuracy tells it"));
  one.resistance = 1.0;
  one.disc = 2.0;
  CHECK_THAT(cases::frequency_text(result),
             Contains("  coil     1.000 kHz   < 3.0 ohm     0.44 mH  -      2.0 ohm\n"));
}

TEST_CASE("a missed accuracy and held curves are told with windings and without", "[frequency]")
{
  post::Result result = filled(1);
  result.frequencies[0].probes = {{"p", 0.01, 0.0, {}, {}, 1e-6, 1e-9, 3.0}};
  result.frequencies[0].accuracy_reached = false;
  result.frequencies[0].limit = "60 refinements were not enough";
  result.geometry_error = 4e-15;
  for (const bool wound : {true, false})
  {
    if (!wound)
    {
      result.frequencies[0].windings.clear();
    }
    CHECK_THAT(cases::frequency_text(result),
               Contains("ACCURACY NOT REACHED at some frequencies (60 refinements were not") &&
                   Contains("4e-15"));
  }
}

TEST_CASE("the report of ladders tells elements and how far they are off", "[ladder]")
{
  post::Result result = hand_filled::rod();
  CHECK(cases::ladder_text(result).empty());
  result.ladders = {{"coil",
                     1e3,
                     1e6,
                     0.5,
                     2e-5,
                     {{1.0, 1e-6}, {2.0, 1e-6}},
                     {0.0028, 0.0011},
                     {0.0002, 0.00013},
                     false}};
  CHECK(cases::ladder_text(result) == R"(
R-L ladder for circuit simulation [estimated: a fit]
  circuit  cells          R0        L0         R off by           L off by
  coil         2  500.0 mohm  20.00 uH  0.28 % (0.11 %)  0.020 % (0.013 %)
  R0 and L0 in series with cells, R beside L, all positive, fitted from 1.000
  kHz to 1.000 MHz; beyond, it says nothing. Off by: largest relative deviation
  there, in brackets the rms. Netlist: ladder.cir.
)");
  result.ladders[0].inductance_rises = true;
  CHECK_THAT(cases::ladder_text(result), Contains("rises with frequency: no circuit of"));
  const auto document = nlohmann::json::parse(post::json(result));
  CHECK(document["ladders"][0]["cells"][1]["resistance_ohm"] == 2.0);
  CHECK(document["ladders"][0]["resistance_deviation"]["largest"] == 0.0028);
}

TEST_CASE("the report of insertion names the line and what it leaves out", "[insertion]")
{
  post::Result result = filled(1);
  CHECK(cases::insertion_text(hand_filled::rod()).empty());
  result.frequencies[0].windings[0].resistance = 0.0;
  result.frequencies[0].windings[0].inductance = 100.0 / result.frequencies[0].windings[0].omega;
  const std::string text = cases::insertion_text(result);
  CHECK_THAT(text,
             Contains("Put in series with a 50.0 ohm line [estimated: no capacitance is in it]") &&
                 Contains("  coil       winding  1.000 kHz  100 ohm         3.01 dB\n"));
  result.frequencies[0].windings[0].inductance *= 1e-3;
  CHECK_THAT(cases::insertion_text(result),
             Contains("Less than 0.01 dB at every frequency: coil.") && !Contains("3.01"));
}

TEST_CASE("of many frequencies the report shows thirteen, both ends among them", "[frequency]")
{
  const std::string text = cases::frequency_text(filled(25));
  CHECK_THAT(text, Contains("All frequencies are in impedance.csv."));
  CHECK_THAT(text, Contains("  coil     1.000 kHz") && Contains("  coil     4.000 kHz") &&
                       Contains("  coil     16.78 GHz") && !Contains("  coil     2.000 kHz"));
}

TEST_CASE("an accuracy missed at any frequency is told, in words and by the exit status",
          "[frequency]")
{
  for (const std::size_t missed : {std::size_t{0}, std::size_t{7}, std::size_t{24}})
  {
    CAPTURE(missed);
    cases::Solved one{{}, {}, filled(25)};
    CHECK(cases::status(std::span(&one, 1)) == cases::done);
    one.result.frequencies[missed].accuracy_reached = false;
    one.result.frequencies[missed].limit = "60 refinements were not enough";
    CHECK(cases::status(std::span(&one, 1)) == cases::quality_unreached);
    CHECK_THAT(cases::frequency_text(one.result), Contains("ACCURACY NOT REACHED"));
    const auto all = nlohmann::json::parse(post::json(one.result));
    CHECK(all["frequencies"][missed]["status"] == "accuracy not reached");
    CHECK(all["frequencies"][missed == 0 ? 1 : 0]["status"] == "ok");
  }
}

TEST_CASE("a small case over frequency is solved, told and documented", "[frequency]")
{
  cases::Options options;
  options.threads = 2;
  const std::vector<cases::Solved> all = cases::solved({case_tests::case_of(small_case)}, options);
  const post::Result& result = all.front().result;
  CHECK(cases::status(all) == cases::done);
  REQUIRE(result.frequencies.size() == 2);
  for (const post::FrequencyResult& at : result.frequencies)
  {
    CAPTURE(at.frequency);
    CHECK(at.accuracy_met <= 1e-2);
    for (const post::WindingImpedance& one : at.windings)
    {
      double sum = 0.0;
      for (const auto& [name, part] : one.by_body)
      {
        CHECK(part >= 0.0);
        sum += part;
      }
      // The parts and Z are sums of their own over one field.
      CHECK(std::abs(sum - one.resistance) <= 1e-3 * one.disc);
    }
    // The coil's wire: 8 turns of 8.5 mm mean diameter, 0.5 mm thick, at 58 MS/m [IEC 60028].
    REQUIRE(at.windings[0].wire_resistance);
    CHECK(*at.windings[0].wire_resistance ==
          Approx(8 * 8.5e-3 / (58e6 * 0.25e-3 * 0.25e-3)).epsilon(2e-3));
    CHECK(!at.windings[1].wire_resistance);
  }
  // Eddy currents in the shield push flux out: less inductance, more resistance at 200 kHz.
  for (std::size_t w = 0; w < 2; ++w)
  {
    CHECK(result.frequencies[1].windings[w].inductance <
          result.frequencies[0].windings[w].inductance);
    CHECK(result.frequencies[1].windings[w].resistance >
          result.frequencies[0].windings[w].resistance);
    CHECK(result.frequencies[0].windings[w].inductance < result.windings[w].inductance.upper);
  }

  const auto document = nlohmann::json::parse(post::json(result));
  REQUIRE(document["frequencies"].size() == 2);
  const auto& at = document["frequencies"][1];
  CHECK(at["frequency_Hz"] == 200e3);
  CHECK(at["wires"].is_array());
  for (std::size_t w = 0; w < 2; ++w)
  {
    const post::WindingImpedance& one = result.frequencies[1].windings[w];
    CHECK(at["windings"][w]["name"] == one.name);
    CHECK(at["windings"][w]["resistance_ohm"].get<double>() == Approx(one.resistance));
    CHECK(at["windings"][w]["inductance_H"].get<double>() == Approx(one.inductance));
    CHECK(at["windings"][w]["disc_ohm"].get<double>() == Approx(one.disc));
  }
  CHECK(at["impedance_ohm"][0][1]["imaginary"] == at["impedance_ohm"][1][0]["imaginary"]);

  // One thread or two: the same numbers.
  options.threads = 1;
  const std::vector<cases::Solved> again =
      cases::solved({case_tests::case_of(small_case)}, options);
  for (std::size_t i = 0; i < 2; ++i)
  {
    CHECK(again.front().result.frequencies[i].impedance == result.frequencies[i].impedance);
  }
}
