// Tables with a column of temperatures: what a case at one of them reads, and what it refuses.
#include "cases/case_text.hpp"
#include "cases/fault.hpp"
#include "cases/result_text.hpp"
#include "solver/magnetisation.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <unistd.h>

using case_tests::changed;
using case_tests::sound_case;
using Catch::Contains;

namespace
{

/// The sound case with a table for its core, at a temperature; or what is wrong with it.
struct Read
{
  std::optional<cases::Case> read;
  std::string told;

  const solver::Material& core() const { return read->problem.materials.at("core"); }
};

Read with_table(const std::string& key, const std::string& table, const std::string& temperature)
{
  const std::filesystem::path folder =
      std::filesystem::temp_directory_path() / ("ferrule-tables-" + std::to_string(::getpid()));
  std::filesystem::create_directories(folder);
  std::ofstream(folder / "core.csv") << table;
  std::ofstream(folder / "case.toml")
      << changed(sound_case, "permeability = 700", key + " = \"core.csv\"") +
             "[drive]\ntemperature = \"" + temperature + "\"\n";
  Read made;
  try
  {
    made.read = cases::read_case(folder / "case.toml");
  }
  catch (const cases::CaseError& error)
  {
    made.told = error.what();
  }
  std::filesystem::remove_all(folder);
  return made;
}

const std::string dispersion = "temperature,frequency,real,imaginary\n"
                               "25,1000,2000,10\n25,100000,1800,90\n"
                               "60,1000,2600,14\n60,100000,2500,80\n"
                               "100,1000,2400,20\n100,100000,2300,120\n";
const std::string curves = "temperature [degC],H,B\n25,0,0\n25,100,0.25\n25,1000,0.45\n"
                           "100,0,0\n100,100,0.20\n100,1000,0.35\n";

} // namespace

TEST_CASE("a permeability table is read at the case's temperature, without overshoot",
          "[temperature]")
{
  const Read at_row = with_table("permeability_table", dispersion, "60 degC");
  INFO(at_row.told);
  REQUIRE(at_row.read);
  CHECK(at_row.core().follows_temperature);
  CHECK(at_row.core().permeability == Approx(2600.0).epsilon(1e-12));
  CHECK(solver::permeability(at_row.core(), 100e3).imag() == Approx(-80.0).epsilon(1e-12));
  // The greatest of the rows is at 60 degC; no temperature beside it may show more.
  for (const char* T : {"25 degC", "50 degC", "59 degC", "61 degC", "80 degC", "100 degC"})
  {
    const Read read = with_table("permeability_table", dispersion, T);
    REQUIRE(read.read);
    CHECK(read.core().permeability <= 2600.0);
    CHECK(read.core().permeability >= 2000.0);
  }
  // Two temperatures leave a straight line.
  const Read between = with_table("permeability_table",
                                  "temperature,real,imaginary\n20,1000,4\n60,1400,8\n", "30 degC");
  REQUIRE(between.read);
  CHECK(between.core().permeability == Approx(1100.0).epsilon(1e-12));
  CHECK(between.core().imaginary == Approx(5.0).epsilon(1e-12));
  CHECK(between.core().table.empty()); // alike at all frequencies
  CHECK_THAT(std::string(cases::temperature_text(between.read->problem)),
             Contains("conductivities and into the table of"));
}

TEST_CASE("a curve is read at the case's temperature and never falls", "[temperature]")
{
  const Read at_row = with_table("magnetisation_table", curves, "100 degC");
  INFO(at_row.told);
  REQUIRE(at_row.read);
  CHECK(at_row.core().follows_temperature);
  CHECK(at_row.core().magnetisation->at_field(100.0).B == Approx(0.20).epsilon(1e-12));
  // A third of the way from 25 to 100 degC.
  const Read between = with_table("magnetisation_table", curves, "50 degC");
  REQUIRE(between.read);
  const solver::Magnetisation& curve = *between.core().magnetisation;
  CHECK(curve.at_field(100.0).B == Approx(0.25 - 0.05 / 3.0).epsilon(1e-12));
  CHECK(curve.at_field(1000.0).B == Approx(0.45 - 0.10 / 3.0).epsilon(1e-12));
  for (const double H : {0.0, 50.0, 300.0, 999.0, 5000.0})
    CHECK(curve.at_field(H).slope >= solver::mu0);
}

TEST_CASE("no table is asked beyond its temperatures, and what is unsound is told by its row",
          "[temperature]")
{
  CHECK_THAT(with_table("permeability_table", dispersion, "20 degC").told,
             Contains("materials.core.permeability_table holds 25 degC to 100 degC, and the case "
                      "is at 20 degC; give a drive.temperature within it, or extend it by measured "
                      "rows"));
  CHECK_THAT(with_table("magnetisation_table", curves, "101 degC").told,
             Contains("materials.core.magnetisation_table holds 25 degC to 100 degC, and the case "
                      "is at 101 degC"));
  CHECK_THAT(with_table("permeability_table",
                        "temperature,frequency,real,imaginary\n25,1000,2000,10\n60,2000,2000,10\n",
                        "30 degC")
                 .told,
             Contains("core.csv:3:1: error: this frequency is not among those of the first "
                      "temperature; give every temperature the same frequencies"));
  CHECK_THAT(
      with_table("permeability_table",
                 "temperature,frequency,real,imaginary\n25,1000,2000,10\n25,2000,2000,10\n"
                 "60,1000,2000,10\n",
                 "30 degC")
          .told,
      Contains("core.csv:4:1: error: this temperature has fewer frequencies than the first"));
  CHECK_THAT(
      with_table("permeability_table", "temperature,real,imaginary\n60,2,0\n25,2,0\n", "30 degC")
          .told,
      Contains("core.csv:3:1: error: temperatures must not fall from row to row; sort the table"));
  CHECK_THAT(
      with_table("magnetisation_table", changed(curves, "100,1000,0.35", "100,1000,0.1"), "30 degC")
          .told,
      Contains("core.csv:7:1: error: B rises less than in air"));
}

TEST_CASE("a case above the Curie temperature of what is magnetic is refused", "[temperature]")
{
  const auto told = [](const std::string& temperature, const std::string& mu)
  {
    return case_tests::told(changed(sound_case, "permeability = 700",
                                    "permeability = " + mu + "\ncurie_temperature = \"210 degC\"") +
                            "[drive]\ntemperature = \"" + temperature + "\"\n");
  };
  CHECK(told("209 degC", "700").empty());
  CHECK(told("215 degC", "1").empty());
  CHECK_THAT(told("210 degC", "700"),
             Contains("materials.core.curie_temperature is 210 degC, and the case is at 210 degC: "
                      "there it is hardly magnetic; lower drive.temperature"));
}
