// A bias run as a document: its points, and where inductances have fallen.
#include "post/bias.hpp"

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

Json document(const Bounded& bounded)
{
  return {{"value", number(bounded.value)},
          {"lower", number(bounded.lower)},
          {"upper", number(bounded.upper)}};
}

template <class Items> Json documents(const Items& items);

Json pair_of(const Bounded& bounded)
{
  return Json::array({number(bounded.lower), number(bounded.upper)});
}

Json document(const Ripple& ripple)
{
  return {{"frequency_Hz", number(ripple.frequency)},
          {"resistance_ohm", number(ripple.resistance)},
          {"inductance_H", number(ripple.inductance)}};
}

Json document(const BiasWinding& one)
{
  return {{"name", one.name},
          {"current_A", number(one.current)},
          {"flux_linkage_Wb", number(one.flux_linkage.value)},
          {"flux_linkage_bounds_Wb", pair_of(one.flux_linkage)},
          {"secant_inductance_H", number(one.secant_inductance.value)},
          {"secant_inductance_bounds_H", pair_of(one.secant_inductance)},
          {"incremental_inductance_H", number(one.incremental_inductance)},
          {"incremental_spread_H", number(one.incremental_spread)},
          {"ripple", documents(one.ripple)}};
}

Json document(const BiasRegion& region)
{
  return {{"name", region.name},
          {"peak_flux_density_T", number(region.peak_flux_density)},
          {"peak_mesh_dependent", region.peak_at_corner},
          {"stored_energy_J", number(region.energy)}};
}

Json document(const BiasPoint& at)
{
  return {{"current_A", number(at.current)},
          {"status", at.accuracy_reached ? "ok" : "accuracy not reached"},
          {"accuracy_met", number(at.accuracy_met)},
          {"windings", documents(at.windings)},
          {"iterations", at.iterations},
          {"coenergy_J", document(at.coenergy)},
          {"stored_energy_J", number(at.stored_energy)},
          {"regions", documents(at.regions)}};
}

Json document(const BiasDrop& drop)
{
  return {{"winding", drop.winding},
          {"fall", number(drop.share)},
          {"current_A", drop.current ? number(*drop.current) : Json(nullptr)}};
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

} // namespace

std::string json(const BiasCurve& curve)
{
  const Json all = {{"bias", documents(curve.points)}, {"bias_falls", documents(curve.drops)}};
  return all.dump(-1, ' ', false, Json::error_handler_t::replace);
}

} // namespace post
