// Cases of saturating materials side by side: inductance gained against current kept.
#include "cases/result_text.hpp"
#include "cases/sheet.hpp"
#include "post/engineering.hpp"

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

std::string current_cell(const std::optional<double>& current)
{
  return current ? engineering(*current, "A") : "not reached";
}

} // namespace

Sheet compare_bias_text(std::span<const post::Result> results, std::span<const std::string> names)
{
  Table table;
  table.rows.push_back({"case", "weak current", "10 % down", "20 % down", "30 % down"});
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
    table.rows.push_back({names[i], engineering(L, "H"), current_cell(list[0].current),
                          current_cell(list[1].current), current_cell(list[2].current)});
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
  return heading("Inductance gained, current kept",
                 "estimated: incremental inductance of each first winding") +
         text(table) + sentences;
}

} // namespace cases
