// Gaps as a document.
#include "post/gap.hpp"

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

Json document(const GapResult& gap)
{
  Json rules = Json::array();
  for (const FringingRule& rule : gap.rules)
    rules.push_back({{"name", rule.name},
                     {"fringing_factor", number(rule.value)},
                     {"holds", rule.holds},
                     {"range", rule.range},
                     {"source", rule.source}});
  return {{"between", gap.between},
          {"filled", gap.filled},
          {"length_m", number(gap.length)},
          {"radius_m", number(gap.radius)},
          {"equivalent_length_m", number(gap.equivalent)},
          {"flux_Wb", number(gap.flux)},
          {"magnetic_potential_A", number(gap.potential)},
          {"fringing_factor", number(gap.fringing)},
          {"rules", rules}};
}

} // namespace

std::string json(const std::vector<GapResult>& gaps)
{
  Json all = Json::object();
  all["gaps"] = Json::array();
  for (const GapResult& gap : gaps)
    all["gaps"].push_back(document(gap));
  return all.dump(-1, ' ', false, Json::error_handler_t::replace);
}

} // namespace post
