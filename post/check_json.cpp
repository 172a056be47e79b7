// The record of the formula check as one document; shares are fractions of the points counted.
#include "post/check_files.hpp"

#include "post/version.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace post
{
namespace
{

using Json = nlohmann::ordered_json;

Json document(const Tally& tally)
{
  Json made = {{"points", tally.points}};
  const char* keys[] = {"within_1_percent", "within_5_percent", "within_20_percent"};
  for (std::size_t i = 0; i < tally.within.size(); ++i)
  {
    made[keys[i]] = tally.points > 0 ? Json(static_cast<double>(tally.within[i]) / tally.points)
                                     : Json(nullptr);
  }
  return made;
}

Json document(const CheckAxis& axis)
{
  Json made = {{"label", axis.label}, {"values", axis.values}};
  if (!axis.names.empty())
  {
    made["names"] = axis.names;
  }
  return made;
}

Json document(const FormulaCheck& check, const FormulaScore& score)
{
  const CheckFamily& family = check.families[score.family];
  Json made = {{"name", score.name},
               {"family", family.name},
               {"source", score.source},
               {"range", score.range},
               {"claim", nullptr},
               {"claim_broken", score.broken},
               {"in_range", document(score.inside)},
               {"worst", nullptr},
               {"worst_at", nullptr},
               {"outside", document(score.outside)}};
  if (score.claim)
  {
    made["claim"] = *score.claim;
  }
  if (score.inside.points > 0)
  {
    made["worst"] = score.worst;
    made["worst_at"] = {{"x", family.x.values[score.at[0]]},
                        {"y", family.y.values[score.at[1]]},
                        {"third", family.third.values[score.at[2]]}};
  }
  return made;
}

} // namespace

std::string check_json(const FormulaCheck& check, const std::vector<std::string>& files)
{
  const bool reached = std::ranges::all_of(check.points, &CheckPoint::reached);
  Json all = {{"tool", "ferrule"},
              {"version", version()},
              {"status", reached ? "ok" : "accuracy not reached"},
              {"shapes", check.points.size()},
              {"families", Json::array()},
              {"formulas", Json::array()},
              {"files", files}};
  for (const CheckFamily& family : check.families)
  {
    all["families"].push_back({{"name", family.name},
                               {"title", family.title},
                               {"accuracy", family.accuracy},
                               {"x", document(family.x)},
                               {"y", document(family.y)},
                               {"third", document(family.third)}});
  }
  for (const FormulaScore& score : check.scores)
  {
    all["formulas"].push_back(document(check, score));
  }
  return all.dump(2) + "\n";
}

} // namespace post
