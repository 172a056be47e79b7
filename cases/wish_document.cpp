// Designs found for two wishes, for programs: JSON, CSV, chart.
#include "cases/table.hpp"
#include "cases/wish.hpp"
#include "post/csv_cell.hpp"
#include "post/engineering.hpp"
#include "post/version.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <nlohmann/json.hpp>

namespace cases
{

namespace
{

using Json = nlohmann::ordered_json;

Json design(const WishReport& report, const Design& one)
{
  Json made = {{"values", one.at},
               {"status", one.accuracy_reached ? "ok" : "accuracy not reached"},
               {"volume_m3", one.volume}};
  const auto speaks_of_mass = [&](const auto& what) { return what.measured.aim == Aim::mass; };
  if (std::ranges::any_of(report.wishes, speaks_of_mass) ||
      std::ranges::any_of(report.keeps, speaks_of_mass))
  {
    made["mass_kg"] = one.mass;
  }
  for (const post::WindingResult& winding : one.windings)
  {
    Json row = {{"name", winding.name},
                {"turns", winding.turns},
                {"inductance_H",
                 {{"value", winding.inductance.value},
                  {"lower", winding.inductance.lower},
                  {"upper", winding.inductance.upper}}}};
    if (winding.wire_length)
    {
      row["wire_length_m"] = *winding.wire_length;
      row["dc_resistance_ohm"] = winding.dc_resistance.value_or(0.0);
    }
    made["windings"].push_back(std::move(row));
  }
  return made;
}

/// Axis units the charts know how to write; a kilogram has its prefix already.
struct Scaled
{
  const char* unit;
  double factor;
};

Scaled scaled(Aim aim)
{
  return aim == Aim::volume          ? Scaled{"cm3", 1e6}
         : aim == Aim::mass          ? Scaled{"g", 1e3}
         : aim == Aim::inductance    ? Scaled{"H", 1.0}
         : aim == Aim::dc_resistance ? Scaled{"ohm", 1.0}
                                     : Scaled{"m", 1.0};
}

post::ChartAxis axis(const Wish& wish)
{
  std::string label = plain(wish.measured.typed);
  std::ranges::replace(label, '_', ' ');
  return {label + (wish.up ? " (up)" : " (down)"), scaled(wish.measured.aim).unit};
}

} // namespace

std::string wish_document(const WishReport& report)
{
  Json all = {{"tool", "ferrule"},
              {"version", post::version()},
              {"title", report.searched.title},
              {"status", report.designs.empty() ? "no design keeps every limit"
                         : std::ranges::all_of(report.designs, &Design::accuracy_reached)
                             ? "ok"
                             : "accuracy not reached"}};
  all["accuracy"] = {{"asked", report.accuracy_asked}};
  all["method"] = "a search without derivatives: designs that can be had, no proof that none is "
                  "better; each inductance with its guaranteed bracket";
  for (const Wish& wish : report.wishes)
  {
    all["wishes"].push_back({{"of", wish.measured.typed}, {"way", wish.up ? "up" : "down"}});
  }
  all["keep"] = Json::array();
  for (const Keep& keep : report.keeps)
  {
    all["keep"].push_back({{"of", keep.measured.typed},
                           {keep.below ? "below" : "above", keep.limit},
                           {"unit", unit_of(keep.measured)}});
  }
  for (const SearchKey& key : report.keys)
  {
    all["keys"].push_back(fmt::format("{}", fmt::join(key.keys, ",")));
    all["units"].push_back(si_unit(key.kind));
    all["ranges"].push_back({key.from, key.to});
  }
  all["trials"] = {{"tried", report.tried}, {"no_sound_case", report.impossible}};
  all["designs"] = Json::array();
  for (const Design& one : report.designs)
  {
    all["designs"].push_back(design(report, one));
  }
  all["files"] = report.files;
  return all.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string wish_csv(const WishReport& report)
{
  std::string out;
  const auto add = [&out](const std::string& cell, bool first = false)
  { out += (first ? "" : ",") + post::csv_cell(cell); };
  for (const SearchKey& key : report.keys)
  {
    const std::string unit = si_unit(key.kind);
    add(fmt::format("{}{}", fmt::join(key.keys, " and "), unit.empty() ? "" : " [" + unit + "]"),
        out.empty());
  }
  for (const Wish& wish : report.wishes)
  {
    const std::string name = fmt::format("{} [{}]", wish.measured.typed, unit_of(wish.measured));
    add(name);
    if (wish.measured.aim == Aim::inductance)
    {
      add(wish.measured.typed + " lower [H]");
      add(wish.measured.typed + " upper [H]");
    }
  }
  out += "\n";
  for (const Design& one : report.designs)
  {
    for (std::size_t k = 0; k < one.at.size(); ++k)
    {
      add(fmt::format("{}", one.at[k]), k == 0);
    }
    for (const Wish& wish : report.wishes)
    {
      const post::Bounded value = value_of(wish.measured, one);
      add(fmt::format("{}", value.value));
      if (wish.measured.aim == Aim::inductance)
      {
        add(fmt::format("{}", value.lower));
        add(fmt::format("{}", value.upper));
      }
    }
    out += "\n";
  }
  return out;
}

std::optional<post::Chart> wish_chart(const WishReport& report)
{
  if (report.designs.size() < 2)
  {
    return std::nullopt;
  }
  const Wish &first = report.wishes[0], &second = report.wishes[1];
  post::Chart chart;
  chart.title = plain(report.searched.title);
  chart.subtitle = "designs found for two wishes: a search, no proof that none is better";
  chart.x = axis(second);
  chart.y = axis(first);
  post::ChartPoints points;
  double least[2] = {1e300, 1e300}, most[2] = {0.0, 0.0};
  for (const Design& one : report.designs)
  {
    const double x = scaled(second.measured.aim).factor * value_of(second.measured, one).value;
    const post::Bounded y = value_of(first.measured, one);
    const double factor = scaled(first.measured.aim).factor;
    points.x.push_back(x);
    points.y.push_back(factor * y.value);
    points.lower.push_back(factor * y.lower);
    points.upper.push_back(factor * y.upper);
    least[0] = std::min(least[0], x);
    most[0] = std::max(most[0], x);
    least[1] = std::min(least[1], points.y.back());
    most[1] = std::max(most[1], points.y.back());
  }
  chart.x.logarithmic = most[0] > 10.0 * least[0];
  chart.y.logarithmic = most[1] > 10.0 * least[1];
  chart.lines.push_back({"", points.x, points.y});
  chart.points.push_back(std::move(points));
  return chart;
}

} // namespace cases
