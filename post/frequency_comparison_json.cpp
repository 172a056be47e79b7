// A comparison over frequency as a document.
#include "post/frequency_comparison.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

namespace post
{

namespace
{

using Json = nlohmann::ordered_json;

Json document(const Bounded& bounded)
{
  return {{"value", bounded.value}, {"lower", bounded.lower}, {"upper", bounded.upper}};
}

Json document(const std::optional<Bounded>& bounded)
{
  return bounded ? document(*bounded) : Json(nullptr);
}

Json document(const ComparedImpedance& one)
{
  const char* per = one.kind == "wire" ? "_per_m" : "";
  return {{"case", one.of_case + 1},
          {"kind", one.kind},
          {"name", one.name},
          {"frequency_Hz", one.frequency},
          {std::string("resistance_ohm") + per, document(one.resistance)},
          {std::string("inductance_H") + per, document(one.inductance)},
          {"quality_factor", std::isfinite(one.quality) ? Json(one.quality) : Json(nullptr)},
          {"resistance_ratio", document(one.resistance_ratio)},
          {"inductance_ratio", document(one.inductance_ratio)}};
}

Json document(const ComparedProbe& one)
{
  return {{"case", one.of_case + 1},
          {"name", one.name},
          {"r_m", one.r},
          {"z_m", one.z},
          {"frequency_Hz", one.frequency},
          {"magnitude_T", one.magnitude},
          {"weaker_than_first_dB", one.weaker ? Json(*one.weaker) : Json(nullptr)}};
}

} // namespace

std::string json(const FrequencyComparison& comparison)
{
  Json all;
  all["common_Hz"] = comparison.common;
  all["left_out_Hz"] = comparison.left_out;
  all["impedances"] = Json::array();
  for (const ComparedImpedance& one : comparison.impedances)
    all["impedances"].push_back(document(one));
  all["probes"] = Json::array();
  for (const ComparedProbe& one : comparison.probes)
    all["probes"].push_back(document(one));
  return all.dump(-1, ' ', false, Json::error_handler_t::replace);
}

} // namespace post
