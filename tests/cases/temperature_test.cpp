// Copper and other conductors away from 20 degC: resistances, skin effect, faults, words.
#include "cases/case_text.hpp"
#include "cases/pipeline.hpp"
#include "cases/result_text.hpp"
#include "hand_filled.hpp"
#include "post/quantities.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using case_tests::case_of;
using case_tests::changed;
using case_tests::sound_case;
using case_tests::told;
using Catch::Contains;

namespace
{

const std::string wire_case = R"([materials.brass]
permeability = 1
conductivity = "15 MS/m"
temperature_coefficient = "0.0015 1/K"
reference_temperature = "0 degC"
[[wires]]
name = "lead"
material = "copper"
diameter = "1 mm"
[[wires]]
name = "other"
material = "brass"
diameter = "1 mm"
)";

std::vector<post::WireResult> wires(const std::string& temperature, double frequency)
{
  const cases::Case read = case_of(wire_case + "[drive]\ntemperature = \"" + temperature + "\"\n");
  return cases::wire_results(read.wires, read.problem, frequency);
}

} // namespace

TEST_CASE("copper at 60 degC has 1.1572 times its resistance at 20 degC", "[temperature]")
{
  // 0.00393 per kelvin at 20 degC, 1/58 ohm mm2/m [IEC 60028].
  const double cold = 4.0 / (58e6 * std::numbers::pi * 1e-6);
  CHECK(wires("20 degC", 0.0)[0].resistance == Approx(cold).epsilon(1e-12));
  CHECK(wires("60 degC", 0.0)[0].resistance == Approx(1.1572 * cold).epsilon(1e-12));
  CHECK(wires("333.15 K", 0.0)[0].resistance == Approx(1.1572 * cold).epsilon(1e-12));
  CHECK(case_of(wire_case).problem.temperature == solver::room_temperature);
  // Brass, given at 0 degC: 1 + 0.0015 x 60; at 20 degC 1 + 0.0015 x 20 without a word.
  const double at_zero = 4.0 / (15e6 * std::numbers::pi * 1e-6);
  CHECK(wires("60 degC", 0.0)[1].resistance == Approx(1.09 * at_zero).epsilon(1e-12));
  CHECK(cases::wire_results(case_of(wire_case).wires, case_of(wire_case).problem, 0.0)[1]
            .resistance == Approx(1.03 * at_zero).epsilon(1e-12));
}

TEST_CASE("hot copper at k times the frequency has the skin of cold copper", "[temperature]")
{
  // Only omega sigma counts: R and omega L grow by the resistivity's k.
  const double k = 1.1572, f = 300e3;
  const post::WireResult cold = wires("20 degC", f)[0], hot = wires("60 degC", k * f)[0];
  CHECK(hot.resistance == Approx(k * cold.resistance).epsilon(1e-10));
  CHECK(hot.inductance == Approx(cold.inductance).epsilon(1e-10));
}

TEST_CASE("the wire of windings is at the drive's temperature", "[temperature]")
{
  const std::string turns = changed(sound_case, "outer_diameter = \"9 mm\"\nlength = \"50 mm\"",
                                    "wire = \"0.5 mm\"\nlayers = 1\nstrand = \"solid\"");
  const std::string hot = turns + "[drive]\ntemperature = \"100 degC\"\n";
  const auto resistance = [](const cases::Case& read)
  { return post::wire(read.problem, read.problem.scene.windings.front())->dc_resistance; };
  CHECK(resistance(case_of(hot)) == Approx(1.3144 * resistance(case_of(turns))).epsilon(1e-12));
  // A copper of one's own counts too.
  CHECK(resistance(case_of(turns + "[materials.copper]\nconductivity = \"29 MS/m\"\n")) ==
        Approx(2.0 * resistance(case_of(turns))).epsilon(1e-12));
  CHECK_THAT(told(turns + "[materials.copper]\nconductivity = \"0 S/m\"\n"),
             Contains("windings.coil.wire is of copper, to which this case gives no conductivity; "
                      "give materials.copper one above 0, or leave it out"));
}

TEST_CASE("over frequency solid turns and bodies are at the drive's temperature", "[temperature]")
{
  const std::string text = R"([[parts]]
name = "shield"
shape = "tube"
material = "copper"
inner_diameter = "14 mm"
outer_diameter = "14.2 mm"
length = "10 mm"
[[windings]]
name = "coil"
turns = 2
wire = "1 mm"
inner_diameter = "8 mm"
layers = 1
strand = "solid"
[accuracy]
inductance = 1e-3
[drive]
)";
  const auto at = [&](const std::string& drive)
  {
    const std::vector<cases::Solved> all = cases::solved({case_of(text + drive)}, {});
    return all.front().result.frequencies.front();
  };
  const post::FrequencyResult cold = at("frequency = \"50 kHz\"\n"),
                              hot = at("temperature = \"60 degC\"\nfrequency = \"57.86 kHz\"\n");
  const std::complex<double> expected = 1.1572 * cold.impedance[0][0];
  CHECK(std::abs(hot.impedance[0][0] - expected) <= hot.disc[0][0] + 1.1572 * cold.disc[0][0]);
  CHECK(hot.disc[0][0] < 2e-3 * std::abs(expected));
}

TEST_CASE("a temperature the linear law cannot take is a fault, as is a bare number",
          "[temperature]")
{
  CHECK_THAT(told(wire_case + "[drive]\ntemperature = 60\n"),
             Contains("drive.temperature needs a unit, got 60"));
  CHECK_THAT(told(wire_case + "[drive]\ntemperature = \"5000 degC\"\n"),
             Contains("temperatures run from -150 to 1000 degC"));
  CHECK_THAT(
      told(changed(wire_case, "0.0015 1/K", "-0.02 1/K") + "[drive]\ntemperature = \"60 degC\"\n"),
      Contains("drive.temperature leaves brass no resistance: -0.2 of that at 0 degC; stay "
               "nearer, or mend materials.brass.temperature_coefficient"));
  CHECK_THAT(told(changed(wire_case, "\"0.0015 1/K\"", "0.0015")),
             Contains("materials.brass.temperature_coefficient needs a unit, got 0.0015"));
  CHECK(case_of(changed(wire_case, "1/K", "K-1"))
            .problem.materials.at("brass")
            .temperature_coefficient == Approx(0.0015));
  CHECK_THAT(told(changed(wire_case, "1/K", "1/m")),
             Contains("materials.brass.temperature_coefficient must be a temperature coefficient"));
}

TEST_CASE("reports tell the temperature beside resistances, and what does not follow it",
          "[temperature]")
{
  CHECK(cases::degrees(293.15) == "20 degC");
  CHECK(cases::degrees(273.15) == "0 degC");
  CHECK(cases::degrees(233.15) == "-40 degC");
  CHECK(cases::degrees(310.4) == "37.25 degC");
  post::Result result = hand_filled::rod();
  result.windings[0].dc_resistance = 0.5;
  result.temperature = 333.15;
  CHECK_THAT(cases::winding_text(result), Contains("dc (copper at 60 degC; estimated)"));
  result.wires = {{"lead", 0.02, 1e-6, {}, {}}};
  CHECK_THAT(cases::axial_text(result), Contains("Resistances at 60 degC."));
  solver::Problem problem;
  problem.materials["ferrite"].conductivity = 1.0;
  CHECK(cases::temperature_text(problem).empty());
  problem.temperature = 333.15;
  CHECK(cases::temperature_text(problem) ==
        "  The temperature of 60 degC goes into conductivities alone; permeabilities are\n"
        "  as given, and without a temperature_coefficient ferrite conducts alike at all.\n");
}
