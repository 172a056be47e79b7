// Every case that is shipped runs, and gives the number its opening comment promises.
#include "cases/doublings.hpp"
#include "cases/insight.hpp"
#include "cases/pipeline.hpp"
#include "cases/starters.hpp"
#include "post/comparison.hpp"
#include "post/engineering.hpp"
#include "post/frequency_comparison.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace
{

namespace fs = std::filesystem;

std::string contents(const fs::path& path)
{
  std::ostringstream text;
  text << std::ifstream(path).rdbuf();
  return text.str();
}

/// Number and unit after "# Expect ": "484.7 uH", "62.4 times".
std::string expected(const std::string& text)
{
  const std::string mark = "# Expect ";
  const std::size_t begin = text.find(mark);
  REQUIRE(begin != std::string::npos);
  std::istringstream words(text.substr(begin + mark.size()));
  std::string number, unit;
  words >> number >> unit;
  return number + " " + unit.substr(0, unit.find_first_of(":,;"));
}

cases::Solved solved(const fs::path& path, double accuracy)
{
  cases::Options options;
  options.accuracy = accuracy;
  std::vector<cases::Case> read = {cases::read_with(path, options)};
  return std::move(cases::solved(std::move(read), options).front());
}

void check_sound(const post::Result& result)
{
  CHECK(result.accuracy_reached);
  for (const post::WindingResult& winding : result.windings)
  {
    CHECK(winding.inductance.lower > 0.0);
    CHECK(winding.inductance.lower <= winding.inductance.value);
    CHECK(winding.inductance.value <= winding.inductance.upper);
  }
}

/// The number a case is about: its first winding's inductance, what a background makes of its first
/// part, or a piece of straight wire.
std::string promised(const post::Result& result)
{
  if (!result.windings.empty())
  {
    return post::engineering(result.windings.front().inductance, "H");
  }
  if (!result.wires.empty())
  {
    const post::WireResult& wire = result.wires.front();
    return post::engineering(wire.inductance * wire.length.value_or(1.0), "H", 4);
  }
  return post::number(result.regions.front().demagnetisation->apparent_permeability_middle) +
         " times";
}

} // namespace

TEST_CASE("every starter case reads and solves to its accuracy", "[cases][long]")
{
  const fs::path folder = fs::temp_directory_path() / "ferrule-starters-test";
  fs::create_directories(folder);
  REQUIRE(cases::starters().size() == 9);
  for (const cases::Starter& starter : cases::starters())
  {
    CAPTURE(starter.kind);
    const fs::path path = folder / (std::string(starter.kind) + ".toml");
    std::ofstream(path) << starter.text;
    check_sound(solved(path, 1e-3).result);
    CHECK(starter.text.find("invented") != std::string_view::npos);
  }
  fs::remove_all(folder);
}

TEST_CASE("every example case gives the number its comment promises", "[cases][long]")
{
  int found = 0;
  for (const auto& entry : fs::directory_iterator("cases"))
  {
    if (entry.path().extension() != ".toml")
    {
      continue;
    }
    ++found;
    const std::string text = contents(entry.path());
    CAPTURE(entry.path());
    CHECK(text.find("nvented") != std::string::npos);
    const post::Result result = solved(entry.path(), 1e-4).result; // decides four digits
    check_sound(result);
    CHECK(promised(result) == expected(text));
  }
  CHECK(found == 22);
}

TEST_CASE("the examples' other promises hold: ratios, shares, volume", "[cases][long]")
{
  const cases::Solved all[] = {
      solved("cases/sintered-rod.toml", 1e-3), solved("cases/powder-tube.toml", 1e-3),
      solved("cases/bare-turns.toml", 1e-3), solved("cases/coated-turns.toml", 1e-3),
      solved("cases/coupled-coils.toml", 1e-3)};
  const auto ratio = [&all](int first, int other)
  {
    const post::Result results[] = {all[first].result, all[other].result};
    const solver::Problem problems[] = {all[first].read.problem, all[other].read.problem};
    return post::compared(results, problems)[1];
  };
  CHECK(post::number(ratio(0, 1).ratio->value) == "1.05");
  CHECK(post::number(ratio(2, 3).ratio->value) == "1.37");
  CHECK_FALSE(ratio(0, 1).turns_estimated);
  CHECK(ratio(2, 3).turns_estimated);
  CHECK(post::percent(cases::air_share(all[0].result)) == "96 %");
  CHECK(post::percent(1.0 - cases::air_share(all[1].result)) == "57 %");
  CHECK(post::percent(cases::air_share(all[3].result)) == "67 %");
  CHECK(post::number(all[4].result.mutual[0][1].value * 1e6, 4) == "186.5");
  // (26^2 - 10^2) / 6^2 = 16; straight-sided bodies, exact but for round-off.
  CHECK(ratio(0, 1).magnetic_volume / cases::main_region(all[0].result)->volume ==
        Approx(16.0).epsilon(1e-9));
  CHECK(all[0].result.windings[0].turns == all[1].result.windings[0].turns);
}

TEST_CASE("the open and the canned example coil compare as the open one promises", "[cases][long]")
{
  std::vector<post::Result> results;
  for (const char* file : {"cases/open-coil.toml", "cases/canned-coil.toml"})
  {
    cases::Options options;
    options.threads = 2;
    std::vector<cases::Case> read = {cases::read_with(file, options)};
    read.front().problem.frequencies = {10e3, 100e3};
    read.front().problem.accuracy = 1e-4;
    results.push_back(std::move(cases::solved(std::move(read), options).front().result));
  }
  const post::FrequencyComparison over = post::compared_over_frequency(results);
  REQUIRE(over.impedances.size() == 4);
  CHECK(post::number(over.impedances[1].inductance_ratio->value) == "0.492");
  CHECK(over.impedances[1].resistance_ratio->lower < 1.665);
  CHECK(over.impedances[1].resistance_ratio->upper > 1.665);
  CHECK(over.impedances[3].resistance_ratio->upper < 1.0);
  REQUIRE(over.probes.size() == 4);
  CHECK(std::lround(*over.probes[1].weaker) == 23);
}

TEST_CASE("the solid rod falls below the powder rod where its comment says", "[cases]")
{
  std::vector<post::Result> results;
  for (const char* file :
       {"cases/solid-rod-over-frequency.toml", "cases/powder-rod-over-frequency.toml"})
  {
    cases::Options options;
    options.threads = 2;
    std::vector<cases::Case> read = {cases::read_with(file, options)};
    read.front().problem.frequencies = {1e3, 5e3, 7e3, 10e3};
    results.push_back(std::move(cases::solved(std::move(read), options).front().result));
  }
  const post::FrequencyComparison over = post::compared_over_frequency(results);
  REQUIRE(over.impedances.size() == 8); // solid, powder at each
  const auto L = [&](std::size_t i) { return over.impedances[2 * i + 1].inductance_ratio; };
  CHECK(over.impedances[1].quality > over.impedances[0].quality);
  CHECK(L(1)->upper < 1.0);
  CHECK(L(2)->lower > 1.0);
  CHECK(post::engineering(over.impedances[6].inductance.value, "H") == "46.4 uH");
  CHECK(over.impedances[7].resistance_ratio->value == Approx(1.0 / 8.0).epsilon(0.1));
}

TEST_CASE("the enamelled example has the capacitance and resonance it promises", "[cases][long]")
{
  const post::Result result = solved("cases/enamelled-coil.toml", 1e-3).result;
  REQUIRE(result.windings[0].capacitance);
  const post::SelfCapacitance& C = *result.windings[0].capacitance;
  CHECK(C.accuracy_reached);
  CHECK(post::engineering(C.floating, "F") == "12.5 pF");
  CHECK(post::engineering(C.floating_resonance, "Hz", 2) == "12 MHz");
}

TEST_CASE("the pot cores lose their inductance where their comments say", "[cases][long]")
{
  const auto falls = [](const char* path)
  {
    std::string words;
    for (const post::BiasDrop& drop : solved(path, 1e-3).result.bias.drops)
    {
      words += post::engineering(drop.current.value_or(0.0), "A", 2) + " ";
    }
    return words;
  };
  CHECK(falls("cases/pot-core-air-gap.toml") == "4.1 A 4.5 A 4.8 A ");
  CHECK(falls("cases/pot-core-powder-gap.toml").substr(0, 6) == "0.85 A");
  CHECK(falls("cases/pot-core-no-gap.toml").substr(0, 5) == "15 mA");
}

TEST_CASE("bare and coated example turns lie at the same places", "[cases]")
{
  const auto bare = cases::read_case("cases/bare-turns.toml").problem.scene.windings.front();
  const auto coated = cases::read_case("cases/coated-turns.toml").problem.scene.windings.front();
  const auto a = mesh::turn_centres(bare), b = mesh::turn_centres(coated);
  REQUIRE(a.size() == b.size());
  for (std::size_t i = 0; i < a.size(); ++i)
  {
    CHECK(a[i].r == Approx(b[i].r).epsilon(1e-12)); // round-off
    CHECK(a[i].z == Approx(b[i].z).epsilon(1e-12).margin(1e-15));
  }
}

TEST_CASE("problems solved at once give the same numbers as one after the other", "[cases]")
{
  std::vector<solver::Problem> problems;
  for (const char* file : {"cases/sintered-rod.toml", "cases/powder-tube.toml"})
  {
    problems.push_back(cases::read_case(file).problem);
  }
  const auto together = cases::solutions(problems, 2);
  const auto in_turn = cases::solutions(problems, 1);
  for (std::size_t i = 0; i < problems.size(); ++i)
  {
    const post::Result a = post::result(together[i], together[i], {});
    const post::Result b = post::result(in_turn[i], in_turn[i], {});
    CHECK(a.windings[0].inductance.lower == b.windings[0].inductance.lower); // to the last bit
    CHECK(a.windings[0].inductance.upper == b.windings[0].inductance.upper);
  }
}
