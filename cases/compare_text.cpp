// The report of `compare`: three small tables, the reasons, and the formulas of each case.
#include "cases/compare_sections.hpp"
#include "cases/pipeline.hpp"
#include "cases/report.hpp"
#include "cases/result_text.hpp"
#include "cases/sheet.hpp"
#include "post/engineering.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <iterator>

namespace cases
{

namespace
{

using post::engineering;

Sheet inductance_table(std::span<const post::Result> results, std::span<const std::string> names)
{
  Table table;
  table.rows.push_back({"case", "winding", "turns", "inductance", "lower", "upper", ""});
  table.left = {0, 1, 6};
  for (std::size_t i = 0; i < results.size(); ++i)
  {
    if (results[i].windings.empty())
    {
      table.rows.push_back({names[i], "none", "-", "-", "-", "-", ""});
      continue;
    }
    const post::WindingResult& winding = results[i].windings.front();
    const post::Ends ends = post::ends(winding.inductance, "H");
    table.rows.push_back({names[i], plain(winding.name), post::count(winding.turns),
                          engineering(winding.inductance, "H"), ends.lower, ends.upper, ends.unit});
  }
  return heading("Inductance", "bounded: the true value lies between lower and upper") +
         text(table);
}

std::string turns_words(const post::Compared& one, bool first)
{
  if (!one.turns_to_match)
  {
    return "-";
  }
  return (one.turns_estimated ? "about " : "") +
         (first ? post::count(*one.turns_to_match) : post::number(*one.turns_to_match, 4));
}

Sheet ratio_table(std::span<const post::Compared> compared, std::span<const std::string> names)
{
  Table table;
  table.rows.push_back({"case", "ratio", "lower", "upper", "turns to match"});
  bool estimated = false;
  for (std::size_t i = 0; i < compared.size(); ++i)
  {
    const post::Compared& one = compared[i];
    if (!one.ratio)
    {
      table.rows.push_back({names[i], "-", "-", "-", "-"});
      continue;
    }
    const post::Ends ends = post::ends(*one.ratio, "");
    estimated = estimated || one.turns_estimated;
    table.rows.push_back(
        {names[i], i == 0 ? "1" : post::number(one.ratio->value, post::decided_digits(*one.ratio)),
         i == 0 ? "" : ends.lower, i == 0 ? "" : ends.upper, turns_words(one, i == 0)});
  }
  return heading("Against the yardstick (" + names[0] + ")",
                 estimated ? "ratio bounded; turns estimated"
                           : "ratio bounded; turns in the same section") +
         text(table);
}

Sheet reason_table(std::span<const post::Result> results, std::span<const post::Compared> compared,
                   std::span<const std::string> names)
{
  Table table;
  table.rows.push_back({"case", "in air", "mu_app", "magnetic volume", "energy outside"});
  for (std::size_t i = 0; i < results.size(); ++i)
  {
    const bool wound = !results[i].windings.empty();
    table.rows.push_back(
        {names[i], wound ? engineering(results[i].windings.front().air_inductance, "H") : "-",
         wound ? post::number(results[i].windings.front().apparent_permeability) : "-",
         post::number(compared[i].magnetic_volume * 1e6) + " cm3",
         wound ? post::percent(air_share(results[i])) : "-"});
  }
  return heading("Where it comes from", "estimated; in air bounded") + text(table) +
         wrapped("Inductance = that of the winding in air x mu_app (apparent permeability). Energy "
                 "outside: "
                 "share that sits outside everything magnetic.");
}

Sheet accuracy_lines(std::span<const post::Result> results, std::span<const std::string> names)
{
  Sheet out = heading("Accuracy");
  for (std::size_t i = 0; i < results.size(); ++i)
  {
    const post::Result& result = results[i];
    std::string words = fmt::format(
        "{}: bracket half-width {}, asked {}; {}.", names[i],
        post::fine_percent(result.accuracy_met), post::fine_percent(result.accuracy_asked),
        result.geometry_error > 0.0
            ? fmt::format("curved boundaries shift it by at most {:.0e}", result.geometry_error)
            : "boundaries straight");
    words += result.accuracy_reached ? "" : " ACCURACY NOT REACHED: " + plain(result.limit) + ".";
    out += wrapped(words, 2, 4);
  }
  return out;
}

/// Straight wires and toroids at rest, against those of the first case.
Sheet still_table(std::span<const post::Result> results, std::span<const std::string> names)
{
  Table table;
  table.rows.push_back({"case", "", "resistance", "inductance"});
  table.left = {0, 1};
  for (std::size_t i = 0; i < results.size(); ++i)
  {
    for (const post::WireResult& one : results[i].wires)
    {
      table.rows.push_back({names[i], plain(one.name), engineering(one.resistance, "ohm", 5) + "/m",
                            engineering(one.inductance, "H", 5) + "/m"});
    }
    for (const post::ToroidResult& one : results[i].toroids)
    {
      table.rows.push_back({names[i], plain(one.name), "-", engineering(one.inductance, "H", 5)});
    }
  }
  return table.rows.size() > 1
             ? heading("Straight wires and toroids at rest", "exact") + text(table)
             : Sheet();
}

/// Of cases in a background field; straight wires and toroids are exact.
Sheet field_accuracy(std::span<const Case> read, std::span<const post::Result> results,
                     std::span<const std::string> names)
{
  return std::ranges::any_of(read, [](const Case& one) { return has_field(one.problem); })
             ? accuracy_lines(results, names)
             : Sheet();
}

/// Formulas that hold, and those for the compared inductance itself; `solve` shows the rest.
std::vector<post::FormulaResult> telling(std::span<const post::FormulaResult> formulas)
{
  std::vector<post::FormulaResult> list;
  std::copy_if(formulas.begin(), formulas.end(), std::back_inserter(list),
               [](const post::FormulaResult& formula)
               { return formula.holds || formula.estimates == post::Estimates::inductance; });
  return list;
}

} // namespace

std::vector<std::string> labels(std::span<const Case> read)
{
  // The value stands in front: it is short, and what a narrow column cuts off is the end.
  std::vector<std::string> names;
  for (const Case& one : read)
  {
    names.push_back((one.variant.empty() ? "" : plain(one.variant) + " ") +
                    plain(one.path.stem().string()));
  }
  const std::vector<std::string> bare = names;
  for (std::size_t i = 0; i < names.size(); ++i)
  {
    if (std::ranges::count(bare, bare[i]) > 1)
    {
      names[i] = fmt::format("{} ({})", bare[i], i + 1);
    }
  }
  return names;
}

Sheet compare_text(std::span<const Case> read, std::span<const post::Result> results,
                   std::span<const post::Compared> compared)
{
  const std::vector<std::string> names = labels(read);
  Sheet out = title(fmt::format("{} cases side by side", read.size()));
  // Without a winding anywhere, tables of inductances would hold dashes only.
  const bool wound =
      std::ranges::any_of(results, [](const post::Result& one) { return !one.windings.empty(); });
  if (wound)
  {
    out += inductance_table(results, names) + ratio_table(compared, names) +
           reason_table(results, compared, names);
  }
  out += still_table(results, names) + compared_frequency_text(results, names);
  if (!wound)
  {
    return out + powder_text(read) + field_accuracy(read, results, names) + safety_text(read);
  }
  const bool over = std::ranges::any_of(results, [](const post::Result& one)
                                        { return !one.frequencies.empty(); });
  out += heading(over ? "What this means at rest" : "What this means");
  for (std::size_t i = 1; i < results.size(); ++i)
  {
    out += wrapped(difference_sentences(names[i], results[0], results[i], compared[0], compared[i]),
                   2, 4);
  }
  for (std::size_t i = 0; i < results.size(); ++i)
  {
    out += wrapped("Limit of " + names[i] + ": " + limit_sentence(results[i]), 2, 4);
  }
  out += compare_gap_text(results, names);
  out += compare_bias_text(results, names) + compare_heat_text(results, names);
  for (std::size_t i = 0; i < results.size(); ++i)
  {
    out += formula_text(telling(results[i].formulas), names[i]);
  }
  return out + powder_text(read) + accuracy_lines(results, names) + safety_text(read);
}

} // namespace cases
