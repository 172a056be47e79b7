// Quantities as people write them. Factors: the international inch is 25.4 mm, the mil a thousandth
// of it, 0 degC is 273.15 K (SI brochure, from memory). Tolerances: round-off of one product.
#include "cases/units.hpp"

#include <catch2/catch.hpp>
#include <chrono>

namespace
{

using cases::Kind;

double si(std::string_view text, Kind kind)
{
  const auto reading = cases::quantity(text, kind);
  INFO("read " << text);
  if (const auto* misread = std::get_if<cases::Misread>(&reading))
  {
    FAIL(misread->what);
  }
  return std::get<double>(reading);
}

std::string misread(std::string_view text, Kind kind)
{
  const auto reading = cases::quantity(text, kind);
  const auto* wrong = std::get_if<cases::Misread>(&reading);
  return wrong ? wrong->what + "; " + wrong->cure : "read";
}

struct Spelling
{
  const char* text;
  Kind kind;
  double si;
};

} // namespace

TEST_CASE("the trade's units are read into SI", "[units]")
{
  for (const Spelling& entry :
       {Spelling{"8 mm", Kind::length, 8e-3},
        {"8mm", Kind::length, 8e-3},
        {"  8   mm ", Kind::length, 8e-3},
        {"+5 mm", Kind::length, 5e-3},
        {"-3 mm", Kind::length, -3e-3},
        {".5 mm", Kind::length, 0.5e-3},
        {"1e-3 m", Kind::length, 1e-3},
        {"1.2E1 cm", Kind::length, 0.12},
        {"8\u00a0mm", Kind::length, 8e-3}, // no-break space, as word processors put it
        {"0.5 in", Kind::length, 0.0127},
        {"0.5 inch", Kind::length, 0.0127},
        {"10 mil", Kind::length, 2.54e-4},
        {"10 thou", Kind::length, 2.54e-4},
        {"1 ft", Kind::length, 0.3048},
        {"30 um", Kind::length, 30e-6},
        {"30 \u00b5m", Kind::length, 30e-6}, // micro sign
        {"30 \u03bcm", Kind::length, 30e-6}, // Greek mu
        {"10 kHz", Kind::frequency, 1e4},
        {"1.5 MHz", Kind::frequency, 1.5e6},
        {"1 THz", Kind::frequency, 1e12},
        {"2 T", Kind::flux_density, 2.0},
        {"0.0039 1/K", Kind::per_kelvin, 0.0039},
        {"0.0039 K-1", Kind::per_kelvin, 0.0039},
        {"0.0039 1/degC", Kind::per_kelvin, 0.0039},
        {"250 mA", Kind::current, 0.25},
        {"1 mT", Kind::flux_density, 1e-3},
        {"20 \u00b5T", Kind::flux_density, 2e-5},
        {"5.8e7 S/m", Kind::conductivity, 5.8e7},
        {"58 MS/m", Kind::conductivity, 5.8e7},
        {"58 MS / m", Kind::conductivity, 5.8e7},
        {"4.8 g/cm3", Kind::density, 4800.0},
        {"4.8 g/cm^3", Kind::density, 4800.0},
        {"4.8 g/cm\u00b3", Kind::density, 4800.0},
        {"4800 kg/m3", Kind::density, 4800.0},
        {"25 g", Kind::mass, 0.025},
        {"500 mg", Kind::mass, 5e-4},
        {"10 cm3", Kind::volume, 1e-5},
        {"8 ml", Kind::volume, 8e-6},
        {"0.5 L", Kind::volume, 5e-4},
        {"20 degC", Kind::temperature, 293.15},
        {"20 \u00b0C", Kind::temperature, 293.15},
        {"300 K", Kind::temperature, 300.0},
        {"122.8 uH", Kind::inductance, 122.8e-6},
        {"122.8 \u00b5H", Kind::inductance, 122.8e-6},
        {"1.5 ohm", Kind::resistance, 1.5},
        {"2 kOhm", Kind::resistance, 2e3},
        {"7 m\u03a9", Kind::resistance, 7e-3}, // Greek letter, then the ohm sign
        {"7 m\u2126", Kind::resistance, 7e-3},
        {"2.5 kA/m", Kind::field_strength, 2500.0},
        {"122.8 \u03bcH", Kind::inductance, 122.8e-6},
        {"0.5 mm", Kind::wire, 0.5e-3},
        {"20 mil", Kind::wire, 0.508e-3},
        {"700", Kind::number, 700.0}})
  {
    CAPTURE(entry.text);
    CHECK(si(entry.text, entry.kind) == Approx(entry.si).epsilon(1e-15 * 4));
  }
}

TEST_CASE("wire gauges are diameters by ASTM B258", "[units]")
{
  // d = 0.005 in * 92^((36-n)/39) [ASTM B258], recomputed outside this program to 6 decimals of a
  // mm.
  const std::pair<const char*, double> gauges[] = {
      {"10 AWG", 2.588187}, {"18 AWG", 1.023687}, {"20 AWG", 0.811821}, {"24 AWG", 0.510559},
      {"28 AWG", 0.321094}, {"30 AWG", 0.254639}, {"36 AWG", 0.127000}, {"40 AWG", 0.079871}};
  for (const auto& [text, millimetres] : gauges)
  {
    CAPTURE(text);
    CHECK(1e3 * si(text, Kind::wire) == Approx(millimetres).margin(0.5e-6));
  }
  // The two gauges the standard starts from: 0.005 in and 0.46 in.
  CHECK(si("36 AWG", Kind::wire) == Approx(0.005 * 0.0254).epsilon(1e-15));
  CHECK(si("4/0 AWG", Kind::wire) == Approx(0.46 * 0.0254).epsilon(1e-14));
  for (const char* spelling : {"24AWG", "24 awg", "AWG 24", "AWG24", " 24  AWG "})
  {
    CAPTURE(spelling);
    CHECK(si(spelling, Kind::wire) == cases::wire_gauge_diameter(24));
  }
  CHECK(si("0000 AWG", Kind::wire) == cases::wire_gauge_diameter(-3));
  CHECK(si("1/0 AWG", Kind::wire) == cases::wire_gauge_diameter(0));
  CHECK(si("0 AWG", Kind::wire) == cases::wire_gauge_diameter(0));
  for (const char* none : {"5/0 AWG", "0/0 AWG", "00000 AWG", "-3 AWG", "57 AWG", "AWG", "x AWG"})
  {
    CAPTURE(none);
    CHECK_FALSE(cases::wire_gauge(none).has_value());
  }
}

TEST_CASE("what is no quantity is told with what to write", "[units]")
{
  CHECK(misread("3", Kind::length) == "needs a unit, got \"3\"; write e.g. \"3 mm\"");
  CHECK(misread("24", Kind::wire) ==
        "needs a unit, got \"24\"; write e.g. \"24 mm\" or \"24 AWG\"");
  CHECK(misread("10", Kind::frequency) == "needs a unit, got \"10\"; write e.g. \"10 kHz\"");
  CHECK(misread("3 mT", Kind::length) ==
        "must be a length, got \"3 mT\" (a flux density); use um, mm, cm, m, mil or in");
  CHECK(misread("3 khz", Kind::frequency) ==
        "has the unknown unit \"khz\", got \"3 khz\"; did you mean \"kHz\"?");
  CHECK(misread("3 rad/s", Kind::frequency) ==
        "has the unknown unit \"rad/s\", got \"3 rad/s\"; use Hz, kHz or MHz");
  CHECK(misread("1,000.5 mm", Kind::length) ==
        "has a comma in its number, got \"1,000.5 mm\"; write one decimal point and no commas");
  CHECK(misread("1,5 mm", Kind::length) ==
        "has a comma in its number, got \"1,5 mm\"; use a point: \"1.5 mm\"");
}

TEST_CASE("the units library's wider grammar stays shut", "[units]")
{
  // Each of these UDUNITS-2 alone reads as a length, a frequency or a conductivity.
  CHECK(misread("5 min", Kind::length) ==
        "must be a length, got \"5 min\" (a time); use um, mm, cm, m, mil or in");
  CHECK(misread("5 ms", Kind::frequency) ==
        "must be a frequency, got \"5 ms\" (a time); use Hz, kHz or MHz");
  CHECK(misread("5 ohm m", Kind::conductivity) ==
        "must be a conductivity, got \"5 ohm m\" (a resistivity); use S/m or MS/m");
  for (const char* text : {"5 mm since 5", "5 mm since5", "5 mm @ 3", "5 lg(re m)", "5 mm 2",
                           "5 2 mm", "5 mm from m", "5 (mm)", "5 mm/2", "5 mm*2", "5 -3 mm",
                           "5 mm -3", "5 mm.3", "5.5.5 mm", "5 mm-3 m", "5 mm/-3"})
  {
    CAPTURE(text);
    CHECK(misread(text, Kind::length) != "read");
  }
}

TEST_CASE("numbers that are none are misread", "[units]")
{
  for (const char* text :
       {"nan mm", "inf mm", "-inf mm", "NaN",      "1e999 mm", "-1e999 mm", "1e-999 mm",
        "",       " ",      "mm",      "+-5 mm",   "--5 mm",   "0x10 mm",   "1.2.3 mm",
        "5e mm",  "- mm",   ". mm",    "1 1/2 in", "\xff mm",  "5 \xff"})
  {
    CAPTURE(text);
    CHECK(misread(text, Kind::length) != "read");
  }
}

TEST_CASE("a thousand quantities are read in well under a second", "[units]")
{
  // Tripwire for building the unit system more than once (4 ms each with the library's own data).
  const auto start = std::chrono::steady_clock::now();
  double sum = 0.0;
  for (int i = 0; i < 1000; ++i)
  {
    sum += si("8 mm", Kind::length);
  }
  CHECK(sum == Approx(8.0));
  CHECK(std::chrono::steady_clock::now() - start < std::chrono::seconds(1));
}
