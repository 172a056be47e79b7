// What an impedance in series takes from a line.
#include "post/insertion.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>
#include <numbers>

namespace
{

using Complex = std::complex<double>;

/// One winding, a piece of wire, an endless wire and a toroid at two frequencies.
post::Result filled()
{
  post::Result result;
  for (const double frequency : {1e6, 1e7})
  {
    post::FrequencyResult at;
    at.frequency = frequency;
    post::WindingImpedance coil;
    coil.name = "coil";
    coil.omega = 2.0 * std::numbers::pi * frequency;
    coil.resistance = 3.0;
    coil.inductance = 1e-6;
    coil.disc = 0.01;
    at.windings = {coil};
    post::WireResult bead{"bead, long", 200.0, 2e-6, 0.05, {}}, endless = bead;
    endless.name = "endless";
    endless.length.reset();
    at.wires = {bead, endless};
    at.toroids = {{"choke", 5.0, 7.0, 4e-6}};
    result.frequencies.push_back(at);
  }
  return result;
}

} // namespace

TEST_CASE("insertion loss is load voltage without over with, by Kirchhoff", "[insertion]")
{
  CHECK(post::insertion_loss(0.0, 50.0) == 0.0);
  CHECK(post::insertion_loss(100.0, 50.0) == Approx(20.0 * std::log10(2.0)).epsilon(1e-14));
  CHECK(post::insertion_loss(Complex(0.0, 100.0), 50.0) == Approx(10.0 * std::log10(2.0)));
  for (const Complex Z : {Complex(3.0, 40.0), Complex(0.1, 1e-3), Complex(700.0, 2000.0)})
    for (const double line : {50.0, 75.0, 1.0})
    {
      // 1 V behind `line`, a load of `line`; once with Z between.
      const double without = line / (line + line);
      const double with = std::abs(line / (line + Z + line));
      CHECK(post::insertion_loss(Z, line) == Approx(20.0 * std::log10(without / with)));
    }
}

TEST_CASE("windings, pieces of wire and toroids are inserted; an endless wire is not",
          "[insertion]")
{
  post::Result result = filled();
  result.line = 75.0;
  const auto all = post::insertions(result);
  REQUIRE(all.size() == 6);
  CHECK(all[1].kind == "wire");
  CHECK(all[1].name == "bead, long");
  const double omega = 2e6 * std::numbers::pi;
  CHECK(std::abs(all[1].impedance - Complex(10.0, omega * 1e-7)) < 1e-12);
  CHECK(all[0].disc == 0.01);
  CHECK(all[2].kind == "toroid");
  for (const post::Insertion& one : all)
    CHECK(one.loss == post::insertion_loss(one.impedance, 75.0));
}

TEST_CASE("the table of insertion has a row a frequency and two columns a part", "[insertion]")
{
  post::Result result = filled();
  for (post::FrequencyResult& at : result.frequencies)
  {
    at.windings.clear();
    at.toroids.clear();
    at.wires[0].inductance = 0.0;
  }
  CHECK(post::insertion_table(post::insertions(result), 50.0) ==
        "frequency [Hz],\"|Z| bead, long [ohm]\",\"insertion loss bead, long in 50 ohm [dB]\"\n"
        "1000000,10,0.827853703\n10000000,10,0.827853703\n"); // 20 log10 1.1
}

TEST_CASE("the list of insertions is a JSON list, whatever the names", "[insertion]")
{
  post::Result result = filled();
  result.frequencies[0].windings[0].name = "\xff\"quoted";
  const auto list = nlohmann::json::parse(post::json(post::insertions(result)));
  REQUIRE(list.size() == 6);
  CHECK(list[3]["frequency_Hz"] == 1e7);
  CHECK(list[3]["insertion_loss_dB"].get<double>() ==
        Approx(post::insertion_loss(Complex(3.0, 2e7 * std::numbers::pi * 1e-6), 50.0)));
}
