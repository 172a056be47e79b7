// A reading file without fault: every key of it, and the meter's files it names, into SI.
//
// Conversions are written out here by hand; series_circuit_test.cpp holds them against impedances.
// Tolerances: round-off of a few products.
#include "cases/reading.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <numbers>
#include <unistd.h>

namespace
{

namespace fs = std::filesystem;

const fs::path folder = fs::path(__FILE__).parent_path() / "readings";

const cases::Readings& bench()
{
  static const cases::Readings read = cases::read_readings(folder / "bench.toml");
  return read;
}

} // namespace

TEST_CASE("a reading file says what is sought and holds all readings in order", "[reading]")
{
  CHECK(bench().path == folder / "bench.toml");
  CHECK(bench().unknown == "materials.powder.permeability");
  CHECK(bench().unknown_where.line == 3);
  CHECK(bench().unknown_where.column == 7);
  std::vector<std::string> samples;
  for (const cases::Reading& reading : bench().readings)
  {
    samples.push_back(reading.sample);
  }
  CHECK(samples == std::vector<std::string>{"tube 1", "tube 2", "tube 3", "tube 4", "tube 9",
                                            "tube 9", "tube 10"});
}

TEST_CASE("a series reading with Q and a bare coil is read key by key", "[reading]")
{
  const cases::Reading& reading = bench().readings[0];
  CHECK(reading.winding == "coil");
  CHECK(reading.frequency == 10e3);
  CHECK(reading.read.inductance == Approx(41.3e-6).epsilon(1e-14));
  CHECK(reading.read.inductance_tolerance.value == Approx(0.005 * 41.3e-6 + 0.1e-6).epsilon(1e-13));
  CHECK(reading.read.inductance_tolerance.spread == post::Spread::uniform);
  const double R = 2.0 * std::numbers::pi * 10e3 * 41.3e-6 / 80.0;
  REQUIRE(reading.read.resistance);
  CHECK(*reading.read.resistance == Approx(R).epsilon(1e-13));
  CHECK(reading.read.resistance_tolerance.value ==
        Approx(R * (0.005 + 0.1 / 41.3 + 0.02)).epsilon(1e-12));
  CHECK_FALSE(reading.lead);
  REQUIRE(reading.bare_coil);
  CHECK(reading.bare_coil->inductance == Approx(20.4e-6).epsilon(1e-14));
  CHECK(*reading.bare_coil->resistance ==
        Approx(2.0 * std::numbers::pi * 20e3 * 20.4e-6 / 50.0).epsilon(1e-13)); // its own 20 kHz
  CHECK(reading.bare_coil->inductance_tolerance.value == Approx(0.102e-6).epsilon(1e-13));
  CHECK(reading.where.line == 8);
  CHECK(reading.where.column == 14);
}

TEST_CASE("a parallel reading with its resistance becomes a series one, spread kept", "[reading]")
{
  const cases::Reading& reading = bench().readings[1];
  CHECK(reading.frequency == Approx(1e5).epsilon(1e-15));
  const double D = 2.0 * std::numbers::pi * 1e5 * 42e-6 / 30.0; // omega L / R of parallel ones
  CHECK(reading.read.inductance == Approx(42e-6 / (1.0 + D * D)).epsilon(1e-13));
  CHECK(*reading.read.resistance == Approx(30.0 * D * D / (1.0 + D * D)).epsilon(1e-13));
  CHECK(reading.read.inductance_tolerance.spread == post::Spread::normal);
  CHECK(reading.read.inductance_tolerance.coverage_factor == 3.0);
  // Both are one per cent; L_s by L_p and by R_p as derived in series_circuit.cpp's formulas.
  const double S = 1.0 + D * D;
  const double by_L = std::abs(1.0 - D * D) / (S * S), by_R = 2.0 * D * D / (S * S);
  CHECK(reading.read.inductance_tolerance.value ==
        Approx(0.01 * 42e-6 * (by_L + by_R)).epsilon(1e-12));
  REQUIRE(reading.lead);
  CHECK(reading.lead->inductance == Approx(300e-9).epsilon(1e-14));
  CHECK(reading.lead->inductance_tolerance.value == Approx(50e-9).epsilon(1e-13));
  CHECK_FALSE(reading.bare_coil);
}

TEST_CASE("a meter's sweep gives the rows of one frequency, other rows are not looked at",
          "[reading]")
{
  const cases::Reading& reading = bench().readings[3]; // its row at 1 kHz is marked as overload
  CHECK(reading.sample == "tube 4");
  CHECK(reading.winding == "coil");
  CHECK(reading.frequency == 10e3);
  CHECK(reading.read.inductance == Approx(42.5e-6 / 1.04).epsilon(1e-13));
  const double omega = 2.0 * std::numbers::pi * 10e3;
  CHECK(*reading.read.resistance == Approx(omega * 42.5e-6 / 1.04 * 0.2).epsilon(1e-13));
  const double by_D = 2.0 * 0.2 / (1.04 * 1.04);
  CHECK(reading.read.inductance_tolerance.value ==
        Approx(42.5e-6 * (200e-6 / 1.04 + by_D * (0.0001 + 0.002))).epsilon(1e-12));
  CHECK(fs::path(reading.where.file).filename() == "sweep.csv");
  CHECK(reading.where.line == 6);
  CHECK(reading.where.column == 16);
}

TEST_CASE("a meter's list without frequency and sample takes them from the reading file",
          "[reading]")
{
  const cases::Reading& reading = bench().readings[5];
  CHECK(reading.winding == "pick-up");
  CHECK(reading.sample == "tube 9");
  CHECK(reading.frequency == 1e3);
  CHECK(reading.read.inductance == Approx(1300e-9).epsilon(1e-14));
  CHECK(reading.read.inductance_tolerance.value == Approx(0.1e-6).epsilon(1e-14));
  CHECK(reading.read.inductance_tolerance.spread == post::Spread::normal);
  CHECK(reading.read.inductance_tolerance.coverage_factor == 2.0);
  // Ls goes before Lp, ESR before Q.
  CHECK(*reading.read.resistance == Approx(0.030).epsilon(1e-13));
}

TEST_CASE("a meter's file of frequencies and inductances alone is enough", "[reading]")
{
  const cases::Reading& reading = bench().readings[6];
  CHECK(reading.frequency == 5e3);
  CHECK(reading.read.inductance == Approx(43.1e-6).epsilon(1e-13));
  CHECK_FALSE(reading.read.resistance);
  REQUIRE(reading.bare_coil);
  CHECK(reading.bare_coil->inductance == Approx(20.4e-6).epsilon(1e-14));
}

TEST_CASE("a meter's file of more than 1 MiB or in no folder is refused where it is named",
          "[reading]")
{
  const fs::path place =
      fs::temp_directory_path() / ("ferrule-meter-" + std::to_string(::getpid()));
  fs::create_directory(place);
  const auto told = [&](const std::string& file)
  {
    std::ofstream(place / "r.toml") << "[unknown]\nkey = \"a.b\"\n[[meter_files]]\nwinding = "
                                       "\"coil\"\ntolerance = \"1 %\"\nfile = \""
                                    << file << "\"\n";
    std::string words = "no fault found";
    try
    {
      cases::read_readings(place / "r.toml");
    }
    catch (const cases::CaseError& error)
    {
      words = error.what();
    }
    return words.substr(words.find("r.toml"));
  };
  std::ofstream(place / "long.csv") << "f [Hz],Ls [uH]\n" << std::string((1 << 20) + 1, '\n');
  const std::string large = told("long.csv");
  const std::string lost = told("folder/long.csv");
  fs::remove_all(place);
  CHECK(large == "r.toml:6:8: error: meter_files[0].file is \"long.csv\", which is larger than 1 "
                 "MiB; cut it to the rows that count");
  CHECK(lost ==
        "r.toml:6:8: error: meter_files[0].file is \"folder/long.csv\", which is not there; "
        "files are looked for beside the reading file");
}

TEST_CASE("tolerances of the case are kept until its values are known", "[reading]")
{
  REQUIRE(bench().tolerances.size() == 3);
  const cases::CaseTolerance& bore = bench().tolerances[0];
  CHECK(bore.key == "parts.tube.inner_diameter");
  CHECK(bore.absolute_kind == cases::Kind::length);
  CHECK(cases::half_width(bore, -0.02).value == Approx(0.05e-3 + 0.002 * 0.02).epsilon(1e-13));
  const cases::CaseTolerance& turns = bench().tolerances[1];
  CHECK(turns.absolute_kind == cases::Kind::number);
  CHECK(turns.spread == post::Spread::normal);
  const auto input = cases::uncertain("turns", 80.0, cases::half_width(turns, 80.0));
  CHECK(input.width == 0.25); // half a turn at two standard uncertainties
  CHECK(cases::half_width(bench().tolerances[2], 0.6).value == Approx(0.018).epsilon(1e-14));
  CHECK(bench().tolerances[2].absolute == 0.0);
}
