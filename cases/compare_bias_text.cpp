// Cases of saturating materials side by side: inductance gained against current kept.
#include "cases/result_text.hpp"
#include "cases/sheet.hpp"
#include "post/engineering.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace cases
{

namespace
{

using post::engineering;

/// The first winding's falls, or none.
std::vector<post::BiasDrop> falls(const post::Result& result)
{
  std::vector<post::BiasDrop> list;
  for (const post::BiasDrop& drop : result.bias.drops)
  {
    if (drop.winding == result.windings.front().name)
    {
      list.push_back(drop);
    }
  }
  return list;
}

/// "1 mm air" of the first gap, empty without one.
std::string gap_cell(const post::Result& result)
{
  return result.gaps.empty() ? std::string()
                             : post::millimetres(result.gaps.front().length) + " " +
                                   plain(result.gaps.front().filled);
}

std::string current_cell(const std::optional<double>& current)
{
  return current ? engineering(*current, "A") : "not reached";
}

} // namespace

Sheet compare_bias_text(std::span<const post::Result> results, std::span<const std::string> names)
{
  Table table;
  table.left = {0, 1};
  table.rows.push_back({"case", "gap", "weak current", "10 % down", "20 % down", "30 % down"});
  Sheet sentences;
  std::optional<std::size_t> first;
  for (std::size_t i = 0; i < results.size(); ++i)
  {
    if (results[i].bias.drops.empty() || results[i].windings.empty())
    {
      continue;
    }
    const std::vector<post::BiasDrop> list = falls(results[i]);
    const double L = results[i].windings.front().inductance.value;
    table.rows.push_back({names[i], gap_cell(results[i]), engineering(L, "H"),
                          current_cell(list[0].current), current_cell(list[1].current),
                          current_cell(list[2].current)});
    if (!first)
    {
      first = i;
      continue;
    }
    const std::optional<double> before = falls(results[*first])[0].current;
    if (before && list[0].current)
    {
      sentences += wrapped(
          fmt::format("{}: {} times the inductance of {}, {} times its current at 10 % down.",
                      names[i], post::number(L / results[*first].windings.front().inductance.value),
                      names[*first], post::number(*list[0].current / *before)),
          2, 4);
    }
  }
  if (table.rows.size() < 3)
  {
    return {};
  }
  if (std::ranges::all_of(results, [](const post::Result& one) { return one.gaps.empty(); }))
  {
    for (std::vector<std::string>& row : table.rows)
    {
      row.erase(row.begin() + 1);
    }
    table.left = {0};
  }
  return heading("Inductance gained, current kept",
                 "estimated: incremental inductance of each first winding") +
         text(table) + sentences;
}

} // namespace cases
