// Magnetisation curves and bias as a case file says them, and what comes out of a run.
#include "cases/case_text.hpp"
#include "cases/fault.hpp"
#include "cases/pipeline.hpp"
#include "solver/magnetisation.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <unistd.h>

using case_tests::case_of;
using case_tests::changed;
using case_tests::sound_case;
using case_tests::told;

namespace
{

const std::string law =
    "magnetisation = { law = \"tanh\", saturation = \"400 mT\", permeability = 700 }";

/// The sound case with a core that saturates.
const std::string saturating = changed(sound_case, "permeability = 700", law);

const solver::Material& core(const cases::Case& read)
{
  return read.problem.materials.at("core");
}

post::Result result_of(const std::string& text)
{
  std::vector<cases::Case> read = {case_of(text)};
  return cases::solved(std::move(read), {}).front().result;
}

} // namespace

TEST_CASE("a law of magnetisation is read with its permeability of weak fields", "[case-file]")
{
  const cases::Case read = case_of(saturating);
  REQUIRE(core(read).magnetisation);
  CHECK(core(read).permeability == Approx(700.0).epsilon(1e-12));
  CHECK(core(read).magnetisation->saturation() == 0.4);
  const cases::Case brauer = case_of(changed(
      sound_case, "permeability = 700",
      "magnetisation = { law = \"brauer\", k1 = \"100 m/H\", k2 = \"6 T-2\", k3 = \"120 m/H\" }"));
  CHECK(core(brauer).permeability == Approx(1.0 / (solver::mu0 * 220.0)).epsilon(1e-12));
}

TEST_CASE("faults of a magnetisation table have its own file and line", "[case-file]")
{
  const std::filesystem::path folder =
      std::filesystem::temp_directory_path() / ("ferrule-curve-" + std::to_string(::getpid()));
  std::filesystem::create_directories(folder);
  const auto told_of = [&folder](const std::string& table)
  {
    std::ofstream(folder / "core.csv") << table;
    std::ofstream(folder / "case.toml")
        << changed(sound_case, "permeability = 700", "magnetisation_table = \"core.csv\"");
    try
    {
      cases::read_case(folder / "case.toml");
      return std::string{};
    }
    catch (const cases::CaseError& error)
    {
      cases::Fault fault = error.faults().front();
      fault.where.file = std::filesystem::path(fault.where.file).filename().string();
      return cases::line(fault);
    }
  };
  CHECK(told_of("# invented\nH [A/m],B [T]\n0,0\n50,0.1\n1000,0.05\n") ==
        "core.csv:5:1: error: B rises less than in air from the row before: no passive material "
        "does so; correct the row, or end the table before it; beyond its end B rises as in air");
  CHECK(told_of("H [A/m],B [T]\n0,0\n50,0.1\n50,0.2\n") ==
        "core.csv:4:1: error: H must rise from row to row; sort the table, each H once");
  CHECK(told_of("H [A/m],B [T]\n10,0.01\n50,0.1\n70,0.2\n") ==
        "core.csv:2:1: error: the first row must be 0,0; put a row 0,0 in front");
  CHECK(told_of("H [A/m],B [T]\n0,0\n50,0.1\n").substr(0, 16) == "core.csv: error:");
  CHECK(told_of("H [kA/m],B [mT]\n0,0\n0.05,100\n0.2,300\n").empty());
  std::filesystem::remove_all(folder);
}

TEST_CASE("bias is one current, a list in its order, or an even range", "[case-file]")
{
  const auto bias = [](const std::string& written)
  {
    std::vector<double> list;
    for (const solver::Bias& one : case_of(sound_case, {{"drive.bias", written}}).problem.bias)
    {
      REQUIRE(one.currents == std::vector<double>{one.current});
      list.push_back(one.current);
    }
    return list;
  };
  CHECK(bias("2A") == std::vector<double>{2.0});
  CHECK(bias("[\"2 A\", \"500 mA\"]") == std::vector<double>{2.0, 0.5});
  CHECK(bias("{ from = \"0 A\", to = \"2 A\", count = 5 }") ==
        std::vector<double>{0.0, 0.5, 1.0, 1.5, 2.0});
}

TEST_CASE("a winding with a current of its own keeps it at every bias", "[case-file]")
{
  const std::string pickup =
      "\n[[windings]]\nname = \"pickup\"\nturns = 5\ninner_diameter = \"20 mm\"\n"
      "outer_diameter = \"21 mm\"\nlength = \"5 mm\"\ncurrent = \"30 mA\"\n";
  const cases::Case read = case_of(sound_case + pickup, {{"drive.bias", "2A"}});
  REQUIRE(read.problem.bias.size() == 1);
  CHECK(read.problem.bias[0].currents == std::vector<double>{2.0, 0.03});
}

TEST_CASE("a powder of saturating particles has a curve of its own", "[case-file] [powder]")
{
  // The powder stands before its particles.
  const cases::Case read = case_of(
      changed(sound_case, "permeability = 700",
              "powder = { particle = \"grain\", packing = 0.6 }\n\n[materials.grain]\n" + law));
  REQUIRE(core(read).magnetisation);
  CHECK(core(read).permeability ==
        Approx(solver::effective_permeability({700.0, 0.6})).epsilon(1e-4));
  CHECK(core(read).magnetisation->saturation() == Approx(0.24).epsilon(2e-3));
  const cases::Case linear =
      case_of(changed(sound_case, "permeability = 700",
                      "powder = { particle = \"grain\", packing = 0.6 }\n\n[materials.grain]\n"
                      "permeability = 700"));
  CHECK_FALSE(core(linear).magnetisation);
  CHECK(core(linear).permeability == solver::effective_permeability({700.0, 0.6}));
}

TEST_CASE("a saturating core is solved at its own current where no bias is given", "[bias]")
{
  const post::Result own = result_of(saturating), none = result_of(sound_case);
  REQUIRE(own.bias.points.size() == 1);
  CHECK(none.bias.points.empty());
  const post::BiasWinding& coil = own.bias.points[0].windings.at(0);
  CHECK(coil.current == 1.0);
  CHECK(coil.secant_inductance.lower < coil.secant_inductance.value);
  CHECK(coil.secant_inductance.value < coil.secant_inductance.upper);
  // The report's first table stays that of weak currents.
  CHECK(own.windings[0].inductance.value ==
        Approx(none.windings[0].inductance.value).epsilon(1e-12)); // 700 but for round-off
}

TEST_CASE("inductance falls with bias, by the shares that are told", "[bias][long]")
{
  const post::Result result =
      result_of(saturating + "\n[drive]\nbias = { from = \"0 A\", to = \"8 A\", count = 9 }\n");
  REQUIRE(result.bias.points.size() == 9);
  const post::BiasPoint& rest = result.bias.points.front();
  CHECK(rest.windings[0].flux_linkage.value == 0.0);
  CHECK(rest.stored_energy == 0.0);
  CHECK(rest.windings[0].secant_inductance.value ==
        Approx(result.windings[0].inductance.value).epsilon(2e-3));
  REQUIRE(result.bias.drops.size() == 3);
  double before = 0.0;
  for (const post::BiasDrop& drop : result.bias.drops)
  {
    REQUIRE(drop.current);
    CHECK(*drop.current > before);
    before = *drop.current;
  }
  for (std::size_t i = 1; i < result.bias.points.size(); ++i)
  {
    const post::BiasWinding &a = result.bias.points[i - 1].windings[0],
                            &b = result.bias.points[i].windings[0];
    CHECK(b.incremental_inductance < a.incremental_inductance);
    CHECK(b.flux_linkage.value > a.flux_linkage.value);
    CHECK(result.bias.points[i].coenergy.lower >= 0.0);
  }
}

TEST_CASE("the netlist draws each computed current at its flux", "[bias]")
{
  const post::Result result =
      result_of(saturating + "\n[drive]\nbias = { from = \"0 A\", to = \"6 A\", count = 4 }\n");
  const std::string net = post::flux_netlist(result.bias);
  CAPTURE(net);
  REQUIRE(net.find(".subckt coil a b") != std::string::npos);
  // Evaluate I = m V + sum c (|V + x| - |V - x|) as written.
  const std::string expression = net.substr(net.find("I=") + 2);
  double slope = std::stod(expression);
  std::vector<std::pair<double, double>> bends;
  for (std::size_t at = expression.find("\n+ "); at != std::string::npos;
       at = expression.find("\n+ ", at + 1))
  {
    const double c = std::stod(expression.substr(at + 3));
    const std::size_t plus = expression.find("V(flux)+", at);
    bends.emplace_back(c, std::stod(expression.substr(plus + 8)));
  }
  REQUIRE(bends.size() == 2);
  for (const post::BiasPoint& point : result.bias.points)
  {
    const double x = point.windings[0].flux_linkage.value;
    double I = slope * x;
    for (const auto& [c, at] : bends)
    {
      I += c * (std::abs(x + at) - std::abs(x - at));
    }
    CHECK(I == Approx(point.current).epsilon(1e-6).margin(1e-12)); // nine digits are written
  }
}
