// Frequencies and what materials do over them, as a case file says it.
#include "cases/case_text.hpp"
#include "cases/fault.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <unistd.h>

using case_tests::case_of;
using case_tests::changed;
using case_tests::sound_case;
using case_tests::told;
using Catch::Contains;

namespace
{

namespace fs = std::filesystem;

/// A folder with a sound case of a table, and that table, while it lives.
class WithTable
{
public:
  explicit WithTable(const std::string& table)
      : _folder(fs::temp_directory_path() / ("ferrule-table-" + std::to_string(::getpid())))
  {
    fs::create_directories(_folder);
    std::ofstream(_folder / "dust.csv") << table;
    std::ofstream(_folder / "case.toml")
        << changed(sound_case, "permeability = 700", "permeability_table = \"dust.csv\"");
  }
  ~WithTable() { fs::remove_all(_folder); }
  WithTable(const WithTable&) = delete;
  WithTable& operator=(const WithTable&) = delete;

  solver::Material core() const
  {
    return cases::read_case(_folder / "case.toml").problem.materials.at("core");
  }
  /// Its faults, files by their bare names.
  std::string told_of() const
  {
    try
    {
      cases::read_case(_folder / "case.toml");
      return {};
    }
    catch (const cases::CaseError& error)
    {
      std::string lines;
      for (cases::Fault fault : error.faults())
      {
        fault.where.file = fs::path(fault.where.file).filename().string();
        lines += (lines.empty() ? "" : "\n") + cases::line(fault);
      }
      return lines;
    }
  }

private:
  fs::path _folder;
};

std::vector<double> frequencies(const std::string& value)
{
  return case_of(sound_case + "[drive]\nfrequency = " + value + "\n").problem.frequencies;
}

} // namespace

TEST_CASE("a frequency is one value, a list put in order, or none", "[frequency]")
{
  CHECK(case_of(sound_case).problem.frequencies.empty());
  CHECK(frequencies("\"10 kHz\"") == std::vector{1e4});
  CHECK(frequencies("[\"1 MHz\", \"50 Hz\", \"10 kHz\", \"10000 Hz\"]") ==
        std::vector{50.0, 1e4, 1e6});
}

TEST_CASE("a range has both its ends and so many points a decade, evenly", "[frequency]")
{
  const std::vector<double> five =
      frequencies("{ from = \"1 kHz\", to = \"10 MHz\", per_decade = 5 }");
  REQUIRE(five.size() == 21);
  CHECK(five.front() == 1e3);
  CHECK(five.back() == 1e7);
  CHECK(five[10] == Approx(1e5).epsilon(1e-14));
  for (std::size_t i = 1; i < five.size(); ++i)
  {
    CHECK(five[i] / five[i - 1] == Approx(std::pow(10.0, 0.2)).epsilon(1e-13));
  }
  CHECK(frequencies("{ from = \"1 kHz\", to = \"10 kHz\" }").size() == 11);
  // Where the ends are no whole number of steps apart, the steps are a little smaller.
  const std::vector<double> odd =
      frequencies("{ from = \"1 kHz\", to = \"25 kHz\", per_decade = 2 }");
  REQUIRE(odd.size() == 4);
  CHECK(odd.back() == 25e3);
  CHECK(odd[1] == Approx(1e3 * std::cbrt(25.0)).epsilon(1e-14));
  CHECK(frequencies("{ from = \"1 kHz\", to = \"1.001 kHz\", per_decade = 1 }").size() == 2);
}

TEST_CASE("faults of a range or a list say what is wrong", "[frequency]")
{
  const auto told_of = [](const std::string& value)
  { return told(sound_case + "[drive]\nfrequency = " + value + "\n"); };
  CHECK_THAT(told_of("[]"), Contains("drive.frequency is an empty list"));
  CHECK_THAT(told_of("\"0 Hz\""), Contains("drive.frequency must be positive"));
  CHECK_THAT(told_of("\"3 mm\""), Contains("drive.frequency must be a frequency"));
  CHECK_THAT(told_of("{ from = \"1 kHz\" }"), Contains("drive.frequency needs to"));
  CHECK_THAT(told_of("{ from = \"2 kHz\", to = \"2 kHz\" }"), Contains("to must be above from"));
  CHECK_THAT(told_of("{ from = \"1 mHz\", to = \"1e6 MHz\", per_decade = 1000 }"),
             Contains("has more than 10000 points; ask for fewer a decade"));
  CHECK_THAT(told_of("{ from = \"1 kHz\", to = \"1 MHz\", per_decade = 0 }"),
             Contains("give 1 to 1000 points a decade"));
  CHECK_THAT(told_of("{ from = \"1 kHz\", to = \"1 MHz\", points = 7 }"), Contains("points"));
}

TEST_CASE("a complex permeability is mu' - j mu'', the same at all frequencies", "[frequency]")
{
  const solver::Material core =
      case_of(changed(sound_case, "permeability = 700",
                      "permeability = { real = 700, imaginary = 12.5 }\nconductivity = \"2 S/m\""))
          .problem.materials.at("core");
  CHECK(core.permeability == 700.0);
  CHECK(core.imaginary == 12.5);
  CHECK(core.conductivity == 2.0);
  for (const double frequency : {50.0, 1e6})
  {
    CHECK(solver::permeability(core, frequency) == std::complex<double>(700.0, -12.5));
  }
}

TEST_CASE("lossy particles make a lossy powder by the same rule", "[frequency]")
{
  const solver::Material core =
      case_of(changed(sound_case, "permeability = 700",
                      "powder = { particle_permeability = { real = 200, imaginary = 80 }, "
                      "packing = 0.5, rule = \"maxwell-garnett\" }"))
          .problem.materials.at("core");
  // [Maxwell Garnett 1904]: 1 + 3 f b / (1 - f b), b = (mu - 1)/(mu + 2).
  const std::complex<double> mu(200.0, -80.0), b = (mu - 1.0) / (mu + 2.0),
                                               expected = 1.0 + 1.5 * b / (1.0 - 0.5 * b);
  CHECK(core.permeability == Approx(expected.real()).epsilon(1e-12));
  CHECK(core.imaginary == Approx(-expected.imag()).epsilon(1e-12));
  CHECK(core.imaginary > 0.0);
}

TEST_CASE("a table lies beside the case and is exact at its rows", "[frequency]")
{
  const WithTable files("# invented\nfrequency [kHz],real,imaginary\n1,700,0.5\n10,690,4\n"
                        "100,500,180\n1000,120,260\n");
  const solver::Material core = files.core();
  REQUIRE(core.table.size() == 4);
  CHECK(core.table[2].frequency == 1e5);
  for (const solver::Dispersion& row : core.table)
  {
    const std::complex<double> mu = solver::permeability(core, row.frequency);
    CHECK(mu.real() == Approx(row.real).epsilon(1e-13));
    CHECK(mu.imag() == Approx(-row.imaginary).epsilon(1e-13));
  }
  // Between rows it neither turns nor overshoots: mu' falls and mu'' rises throughout.
  std::complex<double> before = solver::permeability(core, 1e3);
  for (double f = 1e3 * 1.02; f < 1e6; f *= 1.02)
  {
    const std::complex<double> mu = solver::permeability(core, f);
    CHECK(mu.real() < before.real());
    CHECK(-mu.imag() > -before.imag());
    before = mu;
  }
  CHECK_THROWS_AS(solver::permeability(core, 999.0), std::out_of_range);
  CHECK_THROWS_AS(solver::permeability(core, 1.001e6), std::out_of_range);
}

TEST_CASE("a table of one row holds at that frequency alone", "[frequency]")
{
  const solver::Material core = WithTable("f/MHz,mu',mu''\n1,120,30\n").core();
  CHECK(solver::permeability(core, 1e6) == std::complex<double>(120.0, -30.0));
  CHECK_THROWS_AS(solver::permeability(core, 2e6), std::out_of_range);
}

TEST_CASE("faults of a table have its own file, line and column", "[frequency]")
{
  const auto told_of = [](const std::string& table) { return WithTable(table).told_of(); };
  CHECK(told_of("f/kHz,real,imaginary\n10,700,2\n10,701,1\n") ==
        "dust.csv:3:1: error: frequencies must rise from row to row; sort the table, each "
        "frequency once");
  CHECK_THAT(told_of("f/kHz,real\n10,700\n"), Contains("dust.csv:1:1: error: "));
  CHECK_THAT(told_of("f/kHz,real\n10,700\n"), Contains("imaginary"));
  CHECK_THAT(told_of("f/kHz,real,imaginary\n10,700,-2\n"), Contains("dust.csv:2:8: error: "));
  CHECK_THAT(told_of("f/kHz,real,imaginary\n10,0,2\n"), Contains("dust.csv:2:4: error: "));
  CHECK_THAT(told_of("f/kHz,real,imaginary\n10,many,2\n"), Contains("dust.csv:2:4: error: "));
  CHECK_THAT(told_of("f/mm,real,imaginary\n10,700,2\n"), Contains("dust.csv:1:1: error: "));
  CHECK_THAT(told_of("f/kHz,real,imaginary\n10,700\n"), Contains("dust.csv:2:"));
  CHECK_THAT(told_of("f/kHz,real,imaginary\n"), Contains("dust.csv: error: "));
  CHECK_THAT(told_of(""), Contains("dust.csv: error: "));
  CHECK_THAT(
      told(changed(sound_case, "permeability = 700", "permeability_table = \"nowhere.csv\"")),
      Contains("materials.core.permeability_table is \"nowhere.csv\", which is not there; "
               "files are looked for beside the case file"));
}

TEST_CASE("a table that falls is refused in its own words", "[frequency]")
{
  const fs::path path =
      fs::path(__FILE__).parent_path() / "frequency_files" / "permeability-table-falls.toml";
  try
  {
    cases::read_case(path);
    FAIL("read without fault");
  }
  catch (const cases::CaseError& error)
  {
    REQUIRE(error.faults().size() == 1);
    cases::Fault fault = error.faults().front();
    fault.where.file = fs::path(fault.where.file).filename().string();
    CHECK(cases::line(fault) == "falling.csv:3:1: error: frequencies must rise from row to row; "
                                "sort the table, each frequency once");
  }
}
