// The fixed document, key by key in the order the interface gives them.
#include "post/json.hpp"

#include "post/frequency_comparison.hpp"
#include "post/insertion.hpp"
#include "post/version.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

namespace post
{

namespace
{

using Json = nlohmann::ordered_json;

/// A number, or null where it is not finite: JSON has no NaN.
Json number(double value)
{
  return std::isfinite(value) ? Json(value) : Json(nullptr);
}

/// A number where there is one.
void add(Json& made, const char* key, const std::optional<double>& value)
{
  if (value)
  {
    made[key] = number(*value);
  }
}

Json document(const Bounded& bounded)
{
  return {{"value", number(bounded.value)},
          {"lower", number(bounded.lower)},
          {"upper", number(bounded.upper)}};
}

Json document(const WindingResult& winding)
{
  Json one = {{"name", winding.name},
              {"turns", number(winding.turns)},
              {"inductance_H", document(winding.inductance)},
              {"air_inductance_H", document(winding.air_inductance)},
              {"apparent_permeability", number(winding.apparent_permeability)},
              {"inductance_per_turn_squared_H", number(winding.inductance_per_turn_squared)}};
  add(one, "wire_length_m", winding.wire_length);
  add(one, "dc_resistance_ohm", winding.dc_resistance);
  if (winding.capacitance)
  {
    const SelfCapacitance& C = *winding.capacitance;
    one["self_capacitance_F"] = document(C.floating);
    one["self_resonance_Hz"] = number(C.floating_resonance);
    one["earthed_self_capacitance_F"] = document(C.earthed);
    one["earthed_self_resonance_Hz"] = number(C.earthed_resonance);
  }
  one["energy_shares"] = Json::object();
  for (const auto& [region, share] : winding.shares)
  {
    one["energy_shares"][region] = number(share);
  }
  return one;
}

Json document(const RegionResult& region)
{
  Json one = {{"name", region.name},
              {"permeability", number(region.permeability)},
              {"energy_share", number(region.energy_share)},
              {"volume_m3", number(region.volume)},
              {"peak_flux_density_T", number(region.peak_flux_density)},
              {"peak_mesh_dependent", region.peak_at_corner}};
  if (region.demagnetisation)
  {
    const Demagnetisation& data = *region.demagnetisation;
    one["apparent_permeability_middle"] = number(data.apparent_permeability_middle);
    one["demagnetising_factor"] = {
        {"ballistic", data.ballistic ? number(*data.ballistic) : Json(nullptr)},
        {"magnetometric", data.magnetometric ? document(*data.magnetometric) : Json(nullptr)}};
  }
  return one;
}

Json document(const FormulaResult& formula)
{
  Json one = {{"name", formula.name}, {"value", number(formula.value)}, {"unit", formula.unit}};
  if (formula.deviation)
  {
    one["deviation"] = number(*formula.deviation);
  }
  one["holds"] = formula.holds;
  one["why"] = formula.why;
  one["source"] = formula.source;
  return one;
}

Json document(const ProbeResult& probe)
{
  return {{"name", probe.name},
          {"region", probe.region},
          {"r_m", number(probe.r)},
          {"z_m", number(probe.z)},
          {"B_r_T", number(probe.B_r)},
          {"B_z_T", number(probe.B_z)},
          {"H_r_A_per_m", number(probe.H_r)},
          {"H_z_A_per_m", number(probe.H_z)},
          {"flux_Wb", number(probe.flux)}};
}

Json document(const MeshNumbers& mesh)
{
  return {{"triangles", mesh.triangles},
          {"unknowns", mesh.unknowns},
          {"order", mesh.order},
          {"refinements", mesh.refinements}};
}

Json document(const Seconds& seconds)
{
  return {{"mesh", number(seconds.mesh)},
          {"assemble", number(seconds.assemble)},
          {"solve", number(seconds.solve)},
          {"bracket", number(seconds.bracket)},
          {"total", number(seconds.total)}};
}

/// Relative half-widths asked and met, and what the curved boundaries add.
Json accuracy(const Result& result)
{
  return {{"asked", number(result.accuracy_asked)},
          {"met", number(result.accuracy_met)},
          {"geometry", number(result.geometry_error)}};
}

Json head()
{
  return {{"tool", "ferrule"}, {"version", version()}};
}

Json document(const WireResult& wire)
{
  Json one = {{"name", wire.name},
              {"resistance_ohm_per_m", number(wire.resistance)},
              {"inductance_H_per_m", number(wire.inductance)}};
  if (wire.length)
  {
    one["resistance_ohm"] = number(wire.resistance * *wire.length);
    one["inductance_H"] = number(wire.inductance * *wire.length);
  }
  return one;
}

Json document(const ToroidResult& toroid)
{
  Json made = {{"name", toroid.name},
               {"turns", number(toroid.turns)},
               {"inductance_H", number(toroid.inductance)},
               {"resistance_ohm", number(toroid.resistance)},
               {"disc_ohm", number(toroid.disc)}};
  for (const auto& [name, part] : toroid.by_body)
  {
    made["resistance_by_body_ohm"][name] = number(part);
  }
  return made;
}

template <class Items> Json documents(const Items& items);

Json document(const WindingImpedance& one)
{
  Json made = {{"name", one.name},
               {"resistance_ohm", number(one.resistance)},
               {"inductance_H", number(one.inductance)},
               {"disc_ohm", number(one.disc)},
               {"quality_factor", number(one.quality())}};
  add(made, "strand_skin_resistance_ohm", one.skin_resistance);
  add(made, "strand_proximity_resistance_ohm", one.proximity_resistance);
  add(made, "wire_dc_resistance_ohm", one.wire_resistance);
  made["resistance_by_body_ohm"] = Json::object();
  for (const auto& [name, part] : one.by_body)
  {
    made["resistance_by_body_ohm"][name] = number(part);
  }
  return made;
}

Json document(const std::complex<double>& value)
{
  return {{"real", number(value.real())}, {"imaginary", number(value.imag())}};
}

Json document(const ProbeAtFrequency& one)
{
  return {{"name", one.name},
          {"r_m", number(one.r)},
          {"z_m", number(one.z)},
          {"B_r_T", document(one.B_r)},
          {"B_z_T", document(one.B_z)},
          {"magnitude_T", number(one.magnitude)},
          {"noise_T", number(one.noise)},
          {"attenuation_dB", one.attenuation ? number(*one.attenuation) : Json(nullptr)}};
}

Json document(const FrequencyResult& at)
{
  Json windings = Json::array(), matrix = Json::array();
  for (const WindingImpedance& one : at.windings)
  {
    windings.push_back(document(one));
  }
  for (std::size_t i = 0; i < at.impedance.size(); ++i)
  {
    matrix.push_back(Json::array());
    for (std::size_t j = 0; j < at.impedance.size(); ++j)
    {
      matrix.back().push_back({{"real", number(at.impedance[i][j].real())},
                               {"imaginary", number(at.impedance[i][j].imag())},
                               {"disc", number(at.disc[i][j])}});
    }
  }
  Json made = {{"frequency_Hz", number(at.frequency)},
               {"status", at.accuracy_reached ? "ok" : "accuracy not reached"},
               {"accuracy_met", number(at.accuracy_met)},
               {"windings", windings},
               {"wires", documents(at.wires)}};
  if (!at.toroids.empty())
  {
    made["toroids"] = documents(at.toroids);
  }
  if (at.impedance.size() > 1)
  {
    made["impedance_ohm"] = matrix;
  }
  if (!at.losses.empty())
  {
    made["background_loss_W"] = Json::object();
    for (const auto& [name, loss] : at.losses)
    {
      made["background_loss_W"][name] = number(loss);
    }
  }
  if (!at.probes.empty())
  {
    made["probes"] = Json::array();
    for (const ProbeAtFrequency& one : at.probes)
    {
      made["probes"].push_back(document(one));
    }
  }
  return made;
}

template <class Items> Json documents(const Items& items)
{
  Json list = Json::array();
  for (const auto& item : items)
  {
    list.push_back(document(item));
  }
  return list;
}

Json document(const Result& result)
{
  Json all = head();
  all["title"] = result.title;
  all["temperature_K"] = number(result.temperature);
  all["status"] = result.accuracy_reached ? "ok" : "accuracy not reached";
  all["accuracy"] = accuracy(result);
  if (!result.limit.empty())
  {
    all["limit"] = result.limit;
  }
  all["windings"] = documents(result.windings);
  if (!result.mutual.empty())
  {
    all["mutual_inductance_H"] = Json::array();
    for (const auto& row : result.mutual)
    {
      all["mutual_inductance_H"].push_back(documents(row));
    }
  }
  all["regions"] = documents(result.regions);
  if (result.windings.empty()) // a background field alone: no winding's energy to share out
  {
    for (Json& region : all["regions"])
    {
      region.erase("energy_share");
    }
  }
  all["formulas"] = documents(result.formulas);
  if (!result.probes.empty())
  {
    all["probes"] = documents(result.probes);
  }
  if (!result.wires.empty())
  {
    all["wires"] = documents(result.wires);
  }
  if (result.capacitances)
  {
    all["capacitance_matrix"] = {{"electrodes", result.capacitances->electrodes},
                                 {"values_F", result.capacitances->values},
                                 {"radii_F", result.capacitances->radii}};
  }
  if (!result.toroids.empty())
  {
    all["toroids"] = documents(result.toroids);
  }
  if (!result.frequencies.empty())
  {
    all["frequencies"] = documents(result.frequencies);
  }
  if (const std::vector<Insertion> inserted = insertions(result); !inserted.empty())
  {
    all["line_ohm"] = number(result.line);
    all["insertion"] = Json::parse(json(inserted));
  }
  if (!result.ladders.empty())
  {
    all["ladders"] = Json::parse(json(std::span<const Ladder>(result.ladders)));
  }
  if (!result.bias.points.empty())
  {
    all.update(Json::parse(json(result.bias)));
  }
  if (!result.gaps.empty())
  {
    all.update(Json::parse(json(result.gaps)));
  }
  if (!result.heat.points.empty())
  {
    all.update(Json::parse(json(result.heat)));
  }
  all["mesh"] = document(result.mesh);
  all["seconds"] = document(result.seconds);
  all["files"] = result.files;
  return all;
}

/// Text of a document; bytes that are no UTF-8 (from a file name) become the replacement sign.
std::string text(const Json& all)
{
  return all.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

} // namespace

std::string json(const Result& result)
{
  return text(document(result));
}

std::string json(const WindingResult& winding)
{
  return document(winding).dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string json(std::span<const Result> results, std::span<const Compared> compared)
{
  Json all = head();
  all["cases"] = Json::array();
  for (const Result& result : results)
  {
    all["cases"].push_back(document(result));
  }
  for (const char* key : {"ratios", "ratio_brackets", "turns_to_match", "turns_estimated"})
  {
    all[key] = Json::array();
  }
  for (const Compared& one : compared)
  {
    all["ratios"].push_back(one.ratio ? number(one.ratio->value) : Json(nullptr));
    all["ratio_brackets"].push_back(one.ratio ? document(*one.ratio) : Json(nullptr));
    all["turns_to_match"].push_back(one.turns_to_match ? number(*one.turns_to_match)
                                                       : Json(nullptr));
    all["turns_estimated"].push_back(one.turns_estimated);
  }
  if (const FrequencyComparison over = compared_over_frequency(results); over.any())
  {
    all["over_frequency"] = Json::parse(json(over));
  }
  return text(all);
}

std::string json(const std::string& title, std::span<const FormulaResult> formulas)
{
  Json all = head();
  all["title"] = title;
  all["formulas"] = documents(formulas);
  return text(all);
}

} // namespace post
