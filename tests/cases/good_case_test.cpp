// Every key of a case file, read into the problem it means.
#include "cases/case_text.hpp"

#include "mesh/layout.hpp"

#include <catch2/catch.hpp>

using case_tests::case_of;
using case_tests::changed;
using case_tests::sound_case;
using case_tests::told;

namespace
{

const std::string head = "[materials.core]\npermeability = 700\n";
const std::string background = "[drive]\nbackground = \"1 mT\"\n";

std::string part(const std::string& name, const std::string& keys)
{
  return "[[parts]]\nname = \"" + name + "\"\nmaterial = \"core\"\n" + keys;
}

const mesh::RoundTurns& turns_of(const cases::Case& read)
{
  return std::get<mesh::RoundTurns>(read.problem.scene.windings.at(0).build);
}

} // namespace

TEST_CASE("a case of a rod and a coil is read as written", "[case-file]")
{
  const cases::Case read = case_of("notes = \"a\\nb\"\n" + sound_case);
  CHECK(read.title == "Float coil");
  CHECK(read.notes == "a\nb");
  const mesh::Scene& scene = read.problem.scene;
  REQUIRE(scene.parts.size() == 1);
  CHECK(scene.parts[0].name == "core");
  CHECK(scene.parts[0].material == "core");
  CHECK(scene.parts[0].centre == 0.0);
  CHECK_FALSE(scene.parts[0].coating.has_value());
  const auto& rod = std::get<mesh::Rod>(scene.parts[0].shape);
  CHECK(rod.diameter == Approx(6e-3));
  CHECK(rod.length == Approx(60e-3));
  REQUIRE(scene.windings.size() == 1);
  CHECK(scene.windings[0].name == "coil");
  CHECK(scene.windings[0].turns == 80.0);
  const auto& block = std::get<mesh::Block>(scene.windings[0].build);
  CHECK(block.inner_diameter == Approx(8e-3));
  CHECK(block.outer_diameter == Approx(9e-3));
  CHECK(block.length == Approx(50e-3));
  CHECK(read.problem.materials.at("core").permeability == 700.0);
  CHECK(read.problem.currents == std::vector<double>{1.0});
  CHECK_FALSE(read.problem.background.has_value());
  CHECK(read.problem.accuracy == 1e-3);
  CHECK(read.probes.empty());
}

TEST_CASE("a case without a title is called by its file", "[case-file]")
{
  const cases::Case read = case_of(changed(sound_case, "title = \"Float coil\"", ""));
  CHECK(read.title == read.path.stem().string());
}

TEST_CASE("all shapes are read", "[case-file]")
{
  const cases::Case read = case_of(
      head +
      part("tube", "shape = \"tube\"\ninner_diameter = \"0.5 in\"\nouter_diameter = \"20 mm\"\n"
                   "length = \"30 mm\"\ncentre = \"-4 mm\"\n") +
      part("ring", "shape = \"ring\"\nloop_diameter = \"40 mm\"\nsection_diameter = \"3 mm\"\n"
                   "coating = { material = \"copper\", thickness = \"0.2 mm\" }\n") +
      part("cone",
           "shape = \"outline\"\ncentre = \"70 mm\"\n"
           "points = [[\"0 mm\", \"0 mm\"], [\"5 mm\", \"0 mm\"], [\"0 mm\", \"9 mm\"]]\n") +
      background);
  const auto& parts = read.problem.scene.parts;
  REQUIRE(parts.size() == 3);
  CHECK(std::get<mesh::Tube>(parts[0].shape).inner_diameter == Approx(12.7e-3));
  CHECK(std::get<mesh::Tube>(parts[0].shape).outer_diameter == Approx(20e-3));
  CHECK(std::get<mesh::Tube>(parts[0].shape).length == Approx(30e-3));
  CHECK(parts[0].centre == Approx(-4e-3));
  CHECK(std::get<mesh::Ring>(parts[1].shape).loop_diameter == Approx(40e-3));
  CHECK(std::get<mesh::Ring>(parts[1].shape).section_diameter == Approx(3e-3));
  REQUIRE(parts[1].coating.has_value());
  CHECK(parts[1].coating->material == "copper");
  CHECK(parts[1].coating->thickness == Approx(0.2e-3));
  const auto& corners = std::get<mesh::Profile>(parts[2].shape).points;
  REQUIRE(corners.size() == 3);
  CHECK(corners[1].r == Approx(5e-3));
  CHECK(corners[2].z == Approx(9e-3));
  CHECK(*read.problem.background == Approx(1e-3));
  CHECK(read.problem.currents.empty());
}

TEST_CASE("an outline closed by hand is the same outline", "[case-file]")
{
  const std::string open = "[\"0 mm\", \"0 mm\"], [\"5 mm\", \"0 mm\"], [\"0 mm\", \"9 mm\"]";
  const cases::Case read = case_of(
      head + part("cone", "shape = \"outline\"\npoints = [" + open + ", [\"0 mm\", \"0 mm\"]]\n") +
      background);
  CHECK(std::get<mesh::Profile>(read.problem.scene.parts[0].shape).points.size() == 3);
}

TEST_CASE("material keys are read, powders by their mixing rule", "[case-file]")
{
  const cases::Case read = case_of(
      head +
      "conductivity = \"2 S/m\"\ndensity = \"4.8 g/cm3\"\n"
      "[materials.dust]\npowder = { particle_permeability = 700, packing = 0.55, "
      "rule = \"bruggeman\" }\n"
      "[materials.other]\npowder = { particle_permeability = 700, packing = 0.55 }\n"
      "[materials.copper]\nconductivity = \"50 MS/m\"\n" +
      part("core", "shape = \"rod\"\ndiameter = \"6 mm\"\nlength = \"60 mm\"\n") + background);
  const auto& materials = read.problem.materials;
  CHECK(materials.at("core").conductivity == Approx(2.0));
  CHECK(materials.at("core").density == Approx(4800.0));
  CHECK_FALSE(materials.at("core").powder.has_value());
  REQUIRE(materials.at("dust").powder.has_value());
  CHECK(materials.at("dust").powder->rule == solver::MixingRule::bruggeman);
  CHECK(materials.at("dust").powder->particle_permeability == 700.0);
  CHECK(materials.at("dust").powder->packing == 0.55);
  CHECK(materials.at("dust").permeability ==
        solver::effective_permeability({700.0, 0.55, solver::MixingRule::bruggeman}));
  CHECK(materials.at("other").powder->rule == solver::MixingRule::maxwell_garnett);
  // Copper keeps what its table leaves out.
  CHECK(materials.at("copper").permeability == 1.0);
  CHECK(materials.at("copper").conductivity == Approx(50e6));
  CHECK(materials.at("copper").density == solver::material({}, "copper").density);
}

TEST_CASE("a winding drawn turn by turn is read with all its keys", "[case-file]")
{
  const cases::Case read = case_of(
      head + "[[windings]]\nname = \"coil\"\nturns = 25\nwire = \"24 AWG\"\n"
             "inner_diameter = \"8 mm\"\nlayers = 2\npitch = \"1 mm\"\ninsulation = \"0.03 mm\"\n"
             "coating = { material = \"core\", thickness = \"0.1 mm\" }\nstrand = \"solid\"\n"
             "current = \"-2 A\"\ncentre = \"3 mm\"\n"
             "[[windings]]\nname = \"outer\"\nturns = 2.5\ninner_diameter = \"20 mm\"\n"
             "outer_diameter = \"20 mm\"\nlength = \"10 mm\"\n"
             "[drive]\ncurrent = \"0.5 A\"\n[accuracy]\ninductance = 1e-5\n");
  const mesh::RoundTurns& turns = turns_of(read);
  CHECK(turns.wire_diameter == Approx(0.510559e-3).epsilon(1e-6)); // ASTM B258, six digits
  CHECK(turns.inner_diameter == Approx(8e-3));
  CHECK(turns.layers == 2);
  CHECK(turns.pitch == Approx(1e-3));
  CHECK(turns.insulation == Approx(0.03e-3));
  REQUIRE(turns.coating.has_value());
  CHECK(turns.coating->material == "core");
  CHECK(turns.coating->thickness == Approx(0.1e-3));
  CHECK(turns.strand == mesh::Strand::solid);
  CHECK(read.problem.scene.windings[0].centre == Approx(3e-3));
  CHECK(read.problem.currents == std::vector<double>{-2.0, 0.5});
  CHECK(read.problem.scene.windings[1].turns == 2.5);
  CHECK(read.problem.accuracy == 1e-5);
}

TEST_CASE("turns touch where no pitch is given, and where it is given so", "[case-file]")
{
  const std::string coil = "[[windings]]\nname = \"coil\"\nturns = 25\nwire = \"0.5 mm\"\n"
                           "inner_diameter = \"8 mm\"\nlayers = 2\ninsulation = \"0.05 mm\"\n";
  const cases::Case touching = case_of(coil);
  CHECK(turns_of(touching).pitch == mesh::full_diameter(turns_of(touching)));
  CHECK(turns_of(touching).strand == mesh::Strand::fine);
  // In doubles 0.5 mm + 2 * 0.05 mm is not 0.6 mm; a person means them alike.
  const cases::Case written = case_of(coil + "pitch = \"0.6 mm\"\n");
  CHECK(turns_of(written).pitch == Approx(0.6e-3));
  CHECK(turns_of(written).pitch >= mesh::full_diameter(turns_of(written)));
}

TEST_CASE("bodies are placed by gaps, coatings included", "[case-file]")
{
  const std::string rod = "shape = \"rod\"\ndiameter = \"6 mm\"\n";
  const cases::Case read = case_of(
      head +
      part("top", rod + "length = \"10 mm\"\ncentre = { above = \"middle\", gap = \"1 mm\" }\n") +
      part("middle", rod + "length = \"20 mm\"\ncentre = \"5 mm\"\n"
                           "coating = { material = \"copper\", thickness = \"0.5 mm\" }\n") +
      part("foot", "shape = \"outline\"\npoints = [[\"0 mm\", \"2 mm\"], [\"3 mm\", \"2 mm\"], "
                   "[\"0 mm\", \"8 mm\"]]\ncentre = { below = \"middle\" }\n") +
      "[[windings]]\nname = \"coil\"\nturns = 4\nwire = \"1 mm\"\ninner_diameter = \"8 mm\"\n"
      "layers = 1\ncentre = { above = \"top\", gap = \"2 mm\" }\n"
      "[[windings]]\nname = \"flat\"\nturns = 4\ninner_diameter = \"8 mm\"\n"
      "outer_diameter = \"9 mm\"\nlength = \"3 mm\"\ncentre = { above = \"coil\" }\n");
  const mesh::Scene& scene = read.problem.scene;
  // middle spans -5..15 mm, with its coating -5.5..15.5 mm.
  CHECK(scene.parts[0].centre == Approx(15.5e-3 + 1e-3 + 5e-3));
  CHECK(scene.parts[2].centre == Approx(-5.5e-3 - 8e-3));
  // top ends at 26.5 mm; four touching turns of 1 mm are 4 mm high.
  CHECK(scene.windings[0].centre == Approx(26.5e-3 + 2e-3 + 2e-3));
  CHECK(scene.windings[1].centre == Approx(32.5e-3 + 1.5e-3));
}

TEST_CASE("bodies stacked without a gap touch and do not overlap", "[case-file]")
{
  // Lengths without a short binary fraction, so that the touching planes differ by round-off.
  std::string text = head + part("p0", "shape = \"rod\"\ndiameter = \"7.3 mm\"\n"
                                       "length = \"0.7 mm\"\ncentre = \"3.3 mm\"\n");
  for (int i = 1; i < 30; ++i)
  {
    text += part("p" + std::to_string(i),
                 "shape = \"rod\"\ndiameter = \"7.3 mm\"\nlength = \"" +
                     std::to_string(0.7 + 0.37 * i) + " mm\"\ncentre = { " +
                     (i % 3 == 0 ? "below" : "above") + " = \"p" +
                     std::to_string(i % 3 == 0 ? (i < 4 ? 0 : i - 3)
                                               : (i % 3 == 1 && i > 1 ? i - 2 : i - 1)) +
                     "\" }\n");
  }
  CHECK(told(text + background) == "");
}

TEST_CASE("probes are points or lines with names", "[case-file]")
{
  const cases::Case read =
      case_of(sound_case + "[[probes]]\nname = \"middle\"\npoints = [[\"0 mm\", \"1 mm\"]]\n"
                           "[[probes]]\npoints = [[\"0 mm\", \"1 mm\"], [\"2 mm\", \"3 mm\"]]\n"
                           "[[probes]]\nfrom = [\"0 mm\", \"-30 mm\"]\nto = [\"5 mm\", \"30 mm\"]\n"
                           "count = 5\n");
  REQUIRE(read.probes.size() == 8);
  CHECK(read.probes[0].name == "middle");
  CHECK(read.probes[0].at.z == Approx(1e-3));
  CHECK(read.probes[1].name == "points[0]");
  CHECK(read.probes[2].name == "points[1]");
  CHECK(read.probes[2].at.r == Approx(2e-3));
  CHECK(read.probes[3].name == "line[0]");
  CHECK(read.probes[7].name == "line[4]");
  CHECK(read.probes[3].at.z == Approx(-30e-3));
  CHECK(read.probes[5].at.r == Approx(2.5e-3));
  CHECK(read.probes[5].at.z == Approx(0.0).margin(1e-17));
  CHECK(read.probes[7].at.r == Approx(5e-3)); // the end itself, not a step beside it
  CHECK(read.probes[7].at.z == Approx(30e-3));
}

TEST_CASE("nested and touching bodies are no overlap", "[case-file]")
{
  CHECK(told(changed(sound_case, "\"8 mm\"", "\"6 mm\"")) == "");
  CHECK(told(sound_case +
             part("inner", "shape = \"rod\"\ndiameter = \"2 mm\"\nlength = \"9 mm\"\n")) == "");
}

TEST_CASE("insulation, permittivity and capacitance are read", "[case-file]")
{
  const std::string wire =
      "[[windings]]\nname = \"coil\"\nturns = 12\nwire = \"0.5 mm\"\ninner_diameter = \"8 mm\"\n"
      "layers = 2\ninsulation = { material = \"enamel\", thickness = \"0.03 mm\" }\n";
  const std::string dielectric = "[materials.enamel]\npermittivity = 3.5\n"; // no magnetic law
  const cases::Case read =
      case_of(dielectric + "[materials.core]\npermeability = 700\nconductivity = \"1 S/m\"\n" +
              part("rod", "shape = \"rod\"\ndiameter = \"6 mm\"\nlength = \"60 mm\"\n") + wire +
              "[drive]\ncapacitance = true\nearthed = [\"rod\"]\n");
  CHECK(turns_of(read).insulation == Approx(0.03e-3));
  CHECK(turns_of(read).insulation_material == "enamel");
  CHECK(read.problem.materials.at("enamel").permittivity == 3.5);
  CHECK(read.problem.materials.at("enamel").permeability == 1.0);
  REQUIRE(read.problem.electrostatics.has_value());
  CHECK(read.problem.electrostatics->earthed == std::vector<std::string>{"rod"});
  CHECK_FALSE(case_of(dielectric + wire).problem.electrostatics.has_value());
  CHECK_FALSE(case_of(dielectric + wire + "[drive]\ncapacitance = false\n")
                  .problem.electrostatics.has_value());
}

TEST_CASE("a plain section may say what its strands are", "[case-file]")
{
  const std::string section =
      "[[windings]]\nname = \"coil\"\nturns = 40\ninner_diameter = \"8 mm\"\n"
      "outer_diameter = \"10 mm\"\nlength = \"20 mm\"\n";
  const auto block = [](const cases::Case& read)
  { return std::get<mesh::Block>(read.problem.scene.windings.at(0).build); };
  CHECK(block(case_of(section)).strand_diameter == 0.0);
  CHECK(block(case_of(section + "wire = \"0.1 mm\"\n")).strands == 1);
  const mesh::Block stranded = block(case_of(section + "wire = \"0.1 mm\"\nstrands = 20\n"));
  CHECK(stranded.strand_diameter == Approx(0.1e-3));
  CHECK(stranded.strands == 20);
  CHECK(stranded.length == Approx(20e-3));
}
