// Cases over frequency against the first: what is common, ratios with their bounds, probes in dB.
#include "post/frequency_comparison.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>
#include <numbers>

namespace
{

/// A coil at these frequencies, R and L times a factor; a probe with so much field.
post::Result filled(const std::vector<double>& frequencies, double factor, double field,
                    const std::string& name = "coil")
{
  post::Result result;
  for (const double frequency : frequencies)
  {
    post::FrequencyResult at;
    at.frequency = frequency;
    post::WindingImpedance one;
    one.name = name;
    one.omega = 2.0 * std::numbers::pi * frequency;
    one.resistance = 2.0 * factor;
    one.inductance = 1e-3 * factor;
    one.disc = 0.02 * factor;
    at.windings = {one};
    post::ProbeAtFrequency probe;
    probe.name = "beside";
    probe.r = 25e-3;
    probe.magnitude = field;
    probe.noise = 1e-9;
    at.probes = {probe};
    result.frequencies.push_back(at);
  }
  return result;
}

} // namespace

TEST_CASE("cases are compared at the frequencies all have, the others are named", "[compare]")
{
  const std::vector all = {filled({1e3, 1e4, 1e5}, 1.0, 1e-6),
                           filled({1e4 * (1.0 + 1e-12), 1e5, 1e6}, 3.0, 1e-7),
                           filled({}, 1.0, 0.0)};
  const post::FrequencyComparison over = post::compared_over_frequency(all);
  CHECK(over.common == std::vector{1e4, 1e5});
  CHECK(over.left_out == std::vector<std::vector<double>>{{1e3}, {1e6}, {}});
  REQUIRE(over.impedances.size() == 4);
  CHECK(over.impedances[0].of_case == 0);
  CHECK(over.impedances[1].of_case == 1);
  CHECK(post::compared_over_frequency(std::vector{filled({1e3}, 1, 1), filled({2e3}, 1, 1)})
            .common.empty());
  CHECK(!post::compared_over_frequency(std::vector{filled({}, 1, 1), filled({2e3}, 1, 1)}).any());
}

TEST_CASE("ratios hold what the discs leave", "[compare]")
{
  const std::vector all = {filled({1e3}, 1.0, 1e-6), filled({1e3}, 3.0, 1e-7, "other name")};
  const auto over = post::compared_over_frequency(all);
  REQUIRE(over.impedances.size() == 2);
  CHECK(over.impedances[0].resistance_ratio->lower == 1.0);
  const post::Bounded R = *over.impedances[1].resistance_ratio;
  CHECK(R.value == Approx(3.0));
  CHECK(R.lower == Approx(5.94 / 2.02)); // (6 - 0.06) / (2 + 0.02)
  CHECK(R.upper == Approx(6.06 / 1.98));
  const post::Bounded L = *over.impedances[1].inductance_ratio;
  const double omega = 2e3 * std::numbers::pi;
  CHECK(L.lower == Approx((3e-3 - 0.06 / omega) / (1e-3 + 0.02 / omega)));
  // A disc that holds zero decides no ratio.
  std::vector vague = all;
  vague[1].frequencies[0].windings[0].disc = 7.0;
  CHECK(!post::compared_over_frequency(vague).impedances[1].resistance_ratio);
  CHECK(post::compared_over_frequency(vague).impedances[1].inductance_ratio);
}

TEST_CASE("elements are matched by kind and name, an only one whatever its name", "[compare]")
{
  std::vector all = {filled({1e3}, 1.0, 1e-6, "a"), filled({1e3}, 2.0, 1e-6, "b")};
  post::WindingImpedance b = all[0].frequencies[0].windings[0];
  b.name = "b";
  b.resistance = 4.0;
  all[0].frequencies[0].windings.push_back(b);
  all[0].frequencies[0].wires = {{"lead", 1.0, 1e-6, {}, {}}};
  all[1].frequencies[0].wires = {{"lead", 5.0, 1e-6, {}, {}}};
  all[1].frequencies[0].toroids = {{"choke", 1.0, 1.0, 1e-6}};
  const auto over = post::compared_over_frequency(all);
  std::vector<std::string> order;
  for (const auto& one : over.impedances)
    order.push_back(one.kind + " " + one.name + " " + std::to_string(one.of_case));
  CHECK(order == std::vector<std::string>{"winding a 0", "winding b 0", "winding b 1",
                                          "wire lead 0", "wire lead 1", "toroid choke 1"});
  CHECK(over.impedances[2].resistance_ratio->value == Approx(1.0));
  CHECK(over.impedances[4].resistance_ratio->value == Approx(5.0));
  CHECK(!over.impedances[5].resistance_ratio);
}

TEST_CASE("a part that takes nine tenths of the field at a probe weakens it by 20 dB", "[compare]")
{
  std::vector all = {filled({1e3, 1e4}, 1.0, 1e-6), filled({1e3, 1e4}, 1.0, 1e-7)};
  auto over = post::compared_over_frequency(all);
  REQUIRE(over.probes.size() == 4);
  CHECK(*over.probes[0].weaker == 0.0);
  CHECK(over.probes[1].of_case == 1);
  CHECK(over.probes[1].frequency == 1e3);
  CHECK(*over.probes[1].weaker == Approx(20.0));
  // Below its noise a field is not told; at another place it is not compared.
  all[1].frequencies[0].probes[0].magnitude = 1e-10;
  over = post::compared_over_frequency(all);
  CHECK(!over.probes[1].weaker);
  CHECK(over.probes[1].drowned);
  CHECK(!over.probes_elsewhere);
  all[1].frequencies[0].probes[0].r = 30e-3;
  over = post::compared_over_frequency(all);
  CHECK(over.probes.size() == 2);
  CHECK(over.probes_elsewhere);
}

TEST_CASE("without any frequency fields at rest are compared", "[compare]")
{
  std::vector<post::Result> all(2);
  all[0].probes = {{"axis", 0.0, 0.01, 0.0, 2e-3, 0.0, 0.0, 0.0, "air"}};
  all[1].probes = {{"axis", 0.0, 0.01, 3e-4, 4e-4, 0.0, 0.0, 0.0, "air"}};
  const auto over = post::compared_over_frequency(all);
  REQUIRE(over.probes.size() == 2);
  CHECK(over.probes[1].frequency == 0.0);
  CHECK(*over.probes[1].weaker == Approx(20.0 * std::log10(4.0)));
  const auto document = nlohmann::json::parse(post::json(over));
  CHECK(document["probes"][1]["case"] == 2);
  CHECK(document["impedances"].empty());
}
