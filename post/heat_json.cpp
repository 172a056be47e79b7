// Temperature rises as a document.
#include "post/heat.hpp"

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

Json document(const HeatBody& body)
{
  return {{"name", body.name},
          {"heat_W", number(body.heat)},
          {"mean_rise_K", number(body.mean_rise)},
          {"hottest_rise_K", number(body.hottest_rise)},
          {"above_curie_temperature", body.above_curie}};
}

Json document(const HeatPoint& at)
{
  Json one = at.frequency > 0.0 ? Json{{"frequency_Hz", number(at.frequency)}}
                                : Json{{"direct_current_A", number(at.current)}};
  one["status"] = at.accuracy_reached ? "ok" : "accuracy not reached";
  one["accuracy_met"] = number(at.accuracy_met);
  one["heat_W"] = number(at.heat);
  one["convected_W"] = number(at.convected);
  one["radiated_W"] = number(at.radiated);
  one["bodies"] = Json::array();
  for (const HeatBody& body : at.bodies)
    one["bodies"].push_back(document(body));
  return one;
}

} // namespace

std::string json(const HeatResult& heat)
{
  Json all = Json::object();
  all["heat"] = Json::array();
  for (const HeatPoint& at : heat.points)
    all["heat"].push_back(document(at));
  return all.dump(-1, ' ', false, Json::error_handler_t::replace);
}

} // namespace post
