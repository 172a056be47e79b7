// Ladders as a document; estimated: a fit, not a bound.
#include "post/ladder.hpp"

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

Json document(const Deviation& of)
{
  return {{"largest", number(of.largest)}, {"rms", number(of.rms)}};
}

Json document(const Ladder& ladder)
{
  Json cells = Json::array();
  for (const LadderCell& cell : ladder.cells)
    cells.push_back(
        {{"resistance_ohm", number(cell.resistance)}, {"inductance_H", number(cell.inductance)}});
  return {{"winding", ladder.winding},
          {"from_Hz", number(ladder.from)},
          {"to_Hz", number(ladder.to)},
          {"series_resistance_ohm", number(ladder.resistance)},
          {"series_inductance_H", number(ladder.inductance)},
          {"cells", cells},
          {"resistance_deviation", document(ladder.of_resistance)},
          {"inductance_deviation", document(ladder.of_inductance)},
          {"inductance_rises", ladder.inductance_rises}};
}

} // namespace

std::string json(std::span<const Ladder> ladders)
{
  Json list = Json::array();
  for (const Ladder& ladder : ladders)
    list.push_back(document(ladder));
  return list.dump(-1, ' ', false, Json::error_handler_t::replace);
}

} // namespace post
