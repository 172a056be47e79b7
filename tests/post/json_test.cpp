// The documents of --json, read back with a JSON parser.
#include "post/json.hpp"

#include "hand_filled.hpp"
#include "post/version.hpp"

#include <catch2/catch.hpp>
#include <limits>
#include <nlohmann/json.hpp>

using nlohmann::json;

namespace
{

std::vector<solver::Problem> plain_and_turned()
{
  mesh::Winding block{"coil", 100, mesh::Block{}, 0.0};
  mesh::Winding turned{"coil", 100, mesh::RoundTurns{}, 0.0};
  solver::Problem first, second;
  first.scene.windings = {block};
  second.scene.windings = {turned};
  return {first, second};
}

} // namespace

TEST_CASE("the solve document has the keys of the interface", "[json]")
{
  const json all = json::parse(post::json(hand_filled::rod()));
  CHECK(all["tool"] == "ferrule");
  CHECK(all["version"] == post::version());
  CHECK(all["title"] == "Rod");
  CHECK(all["status"] == "ok");
  const json& coil = all["windings"][0];
  CHECK(coil["name"] == "coil");
  CHECK(coil["turns"] == 100);
  CHECK(coil["inductance_H"]["value"] == 450.0e-6); // exact: full precision
  CHECK(coil["inductance_H"]["lower"] == 449.8e-6);
  CHECK(coil["inductance_H"]["upper"] == 450.2e-6);
  CHECK(coil["air_inductance_H"]["value"] == 15.0e-6);
  CHECK(coil["apparent_permeability"] == 30.0);
  CHECK(coil["inductance_per_turn_squared_H"] == 45.0e-9);
  CHECK(coil["energy_shares"]["air"] == 0.97);
  CHECK_FALSE(coil.contains("wire_length_m"));
  CHECK_FALSE(all.contains("mutual_inductance_H"));
  CHECK(all["regions"][0]["name"] == "core");
  CHECK(all["regions"][0]["energy_share"] == 0.03);
  CHECK(all["regions"][0]["volume_m3"] == 1.7e-6);
  CHECK(all["regions"][0]["peak_flux_density_T"] == 0.012);
  CHECK(all["regions"][0]["peak_mesh_dependent"] == true);
  CHECK(all["formulas"][0]["deviation"] == 0.0218);
  CHECK(all["formulas"][0]["holds"] == true);
  CHECK(all["formulas"][0]["why"] == "for 2 < l/d");
  CHECK(all["formulas"][0]["source"] == "[Test 1]");
  CHECK(all["mesh"]["triangles"] == 900);
  CHECK(all["mesh"]["refinements"] == 3);
  CHECK(all["seconds"]["total"] == 0.06);
  CHECK(all["files"].is_array());
}

TEST_CASE("wire data, mutual inductances and probes are written where known", "[json]")
{
  post::Result result = hand_filled::rod();
  result.windings[0].wire_length = 3.5;
  result.windings[0].dc_resistance = 0.21;
  result.mutual = {{{3, 2, 4}, {1, 0, 2}}, {{1, 0, 2}, {5, 4, 6}}};
  result.probes = {{"end", 0.001, 0.03, 1e-4, 2e-3, 80, 1600, 6e-9, "air"}};
  const json all = json::parse(post::json(result));
  CHECK(all["windings"][0]["wire_length_m"] == 3.5);
  CHECK(all["windings"][0]["dc_resistance_ohm"] == 0.21);
  CHECK(all["mutual_inductance_H"][1][0]["upper"] == 2);
  CHECK(all["mutual_inductance_H"][1][1]["value"] == 5);
  CHECK(all["probes"][0]["B_z_T"] == 2e-3);
  CHECK(all["probes"][0]["flux_Wb"] == 6e-9);
}

TEST_CASE("a missing demagnetising factor is null", "[json]")
{
  post::Result result = hand_filled::rod();
  result.regions[0].demagnetisation = {62.0, 0.015, std::nullopt};
  const json region = json::parse(post::json(result))["regions"][0];
  CHECK(region["apparent_permeability_middle"] == 62.0);
  CHECK(region["demagnetising_factor"]["ballistic"] == 0.015);
  CHECK(region["demagnetising_factor"]["magnetometric"].is_null());
  CHECK_FALSE(json::parse(post::json(result))["regions"][1].contains("demagnetising_factor"));
}

TEST_CASE("an unreached accuracy is the document's status", "[json]")
{
  post::Result result = hand_filled::rod();
  result.accuracy_reached = false;
  result.limit = "round-off";
  const json all = json::parse(post::json(result));
  CHECK(all["status"] == "accuracy not reached");
  CHECK(all["limit"] == "round-off");
  CHECK(all["accuracy"]["met"] == 4.4e-4);
}

TEST_CASE("no document holds NaN or infinity", "[json]")
{
  post::Result result = hand_filled::rod();
  result.accuracy_met = std::numeric_limits<double>::quiet_NaN();
  result.regions[0].peak_flux_density = std::numeric_limits<double>::infinity();
  const std::string text = post::json(result);
  CHECK(text.find("nan") == std::string::npos);
  CHECK(text.find("inf") == std::string::npos);
  CHECK(json::parse(text)["accuracy"]["met"].is_null());
}

TEST_CASE("a title that is no UTF-8 still gives a document", "[json]")
{
  post::Result result = hand_filled::rod();
  result.title = "rod\xff";
  CHECK(json::parse(post::json(result))["title"] == "rod\xef\xbf\xbd");
}

TEST_CASE("a ratio's interval comes from both brackets and turns follow the square root", "[json]")
{
  const std::vector<post::Result> results = {hand_filled::rod(), hand_filled::powder_tube()};
  const auto list = post::compared(results, plain_and_turned());
  REQUIRE(list.size() == 2);
  CHECK(list[0].ratio->lower == 1.0);
  CHECK(list[0].ratio->upper == 1.0);
  CHECK(*list[0].turns_to_match == 100.0);
  CHECK(list[1].ratio->value == Approx(1.04).epsilon(1e-12)); // round-off
  CHECK(list[1].ratio->lower == Approx(467.8 / 450.2).epsilon(1e-12));
  CHECK(list[1].ratio->upper == Approx(468.2 / 449.8).epsilon(1e-12));
  CHECK(*list[1].turns_to_match == Approx(98.058067569).epsilon(1e-9)); // 100 / sqrt(1.04)
  CHECK(list[1].turns_estimated);
  CHECK_FALSE(list[0].turns_estimated);
  CHECK(list[1].magnetic_volume == 1.7e-5);

  const json all = json::parse(post::json(results, list));
  CHECK(all["cases"].size() == 2);
  CHECK(all["cases"][1]["title"] == "Powder tube");
  CHECK(all["ratios"][0] == 1.0);
  CHECK(all["ratios"][1] == list[1].ratio->value);
  CHECK(all["turns_to_match"][1] == *list[1].turns_to_match);
  CHECK(all["turns_estimated"][1] == true);
}

TEST_CASE("without a winding no region has an energy share", "[json]")
{
  post::Result result = hand_filled::rod();
  CHECK(json::parse(post::json(result))["regions"][0].contains("energy_share"));
  result.windings.clear();
  const json all = json::parse(post::json(result));
  REQUIRE(all["regions"].size() == 2);
  for (const json& region : all["regions"])
  {
    CHECK_FALSE(region.contains("energy_share"));
    CHECK(region.contains("peak_flux_density_T"));
  }
}

TEST_CASE("a case without a winding has no ratio", "[json]")
{
  std::vector<post::Result> results = {hand_filled::rod(), hand_filled::rod()};
  results[1].windings.clear();
  const auto list = post::compared(results, plain_and_turned());
  CHECK_FALSE(list[1].ratio);
  CHECK(json::parse(post::json(results, list))["ratios"][1].is_null());
}
