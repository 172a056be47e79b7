// Cases over frequency side by side: R, L and Q with their ratios, and fields at probes.
#include "cases/compare_sections.hpp"
#include "cases/result_text.hpp"
#include "cases/sheet.hpp"
#include "post/engineering.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace cases
{

namespace
{

std::string frequency(double value)
{
  return value > 0.0 ? post::engineering(value, "Hz", 4) : std::string("rest");
}

/// The digits its disc decides, five where it is exact.
std::string quantity(const post::Bounded& value, const std::string& unit, bool wire)
{
  if (value.lower <= 0.0 && value.value > 0.0)
  {
    return "open";
  }
  const int digits = value.upper > value.lower ? post::decided_digits(value) : 5;
  return post::engineering(value.value, unit, digits) + (wire ? "/m" : "");
}

std::string ratio(const std::optional<post::Bounded>& value)
{
  return value ? post::number(value->value,
                              value->upper > value->lower ? post::decided_digits(*value) : 4)
               : std::string("-");
}

/// Common frequencies to show.
std::vector<double> shown_of(const std::vector<double>& common)
{
  std::vector<double> list;
  for (const std::size_t i : shown(common.size()))
  {
    list.push_back(common[i]);
  }
  return list;
}

bool holds(const std::vector<double>& list, double frequency)
{
  return std::ranges::any_of(list, [frequency](double one)
                             { return std::abs(one - frequency) <= 1e-9 * one; });
}

Sheet impedance_table(const post::FrequencyComparison& over, std::span<const std::string> names)
{
  if (over.impedances.empty())
  {
    return {};
  }
  const std::vector<double> rows = shown_of(over.common);
  Table table;
  table.rows.push_back({"case", "", "frequency", "R", "L", "Q", "R ratio", "L ratio"});
  table.left = {0, 1};
  bool open = false;
  for (const post::ComparedImpedance& one : over.impedances)
  {
    if (!holds(rows, one.frequency))
    {
      continue;
    }
    const bool wire = one.kind == "wire";
    const bool known = one.resistance.lower > 0.0 && one.inductance.lower > 0.0;
    table.rows.push_back({names[one.of_case], plain(one.name), frequency(one.frequency),
                          quantity(one.resistance, "ohm", wire),
                          quantity(one.inductance, "H", wire),
                          known ? post::number(one.quality, 3) : "-", ratio(one.resistance_ratio),
                          ratio(one.inductance_ratio)});
    open = open || (one.resistance.lower <= 0.0 && one.resistance.value > 0.0) ||
           one.inductance.lower <= 0.0;
  }
  return heading("Over frequency, side by side", "bounded; straight wires exact") + text(table) +
         wrapped(
             "Ratios to " + names[0] +
             ": of the same name, or of its only one; with the digits the discs decide." +
             (open ? " Open: the disc holds zero too; a smaller --accuracy tells more." : "") +
             (rows.size() < over.common.size() ? " All frequencies are in comparison.json." : ""));
}

Sheet probe_table(const post::FrequencyComparison& over, std::span<const std::string> names)
{
  if (over.probes.empty())
  {
    return {};
  }
  constexpr std::size_t most_rows = 80;
  const std::vector<double> rows = shown_of(over.common);
  Table table;
  table.rows.push_back({"probe", "r", "z", "frequency", "case", "B", "weaker by"});
  table.left = {0, 4};
  bool drowned = false, cut = false;
  for (const post::ComparedProbe& one : over.probes)
  {
    if (one.frequency > 0.0 && !holds(rows, one.frequency))
    {
      continue;
    }
    cut = table.rows.size() > most_rows;
    if (cut)
    {
      break;
    }
    table.rows.push_back({plain(one.name), post::millimetres(one.r), post::millimetres(one.z),
                          frequency(one.frequency), names[one.of_case],
                          one.magnitude < one.noise ? "< " + post::engineering(one.noise, "T", 3)
                                                    : post::engineering(one.magnitude, "T", 3),
                          one.of_case == 0 ? ""
                          : one.weaker     ? decibels(*one.weaker, one.relative_noise)
                                           : "not told"});
    drowned = drowned || one.drowned;
  }
  return heading("Field at probes, side by side", "estimated") + text(table) +
         wrapped("Weaker by: the field in " + names[0] +
                 " over the one here, each as its case drives it; below 0 dB it is stronger here." +
                 (drowned ? " Not told: a field too weak for this accuracy; a smaller --accuracy "
                            "tells more."
                          : "") +
                 (cut ? " Further rows are in comparison.json." : ""));
}

/// Which frequencies were left out, and why nothing stands where something was asked.
Sheet notices(const post::FrequencyComparison& over, std::span<const post::Result> results,
              std::span<const std::string> names)
{
  Sheet out;
  const auto with = std::ranges::count_if(results, [](const post::Result& one)
                                          { return !one.frequencies.empty(); });
  if (with == 0)
  {
    return over.probes_elsewhere
               ? wrapped("Probes of the same name at other places are not compared.")
               : Sheet();
  }
  for (std::size_t i = 0; i < results.size(); ++i)
  {
    const std::size_t alone = over.left_out[i].size();
    const std::string words =
        results[i].frequencies.empty()
            ? "has no [drive] frequency: it is not compared over frequency."
        : alone == 0
            ? ""
            : fmt::format("has {} {} that not every case has: {}; not compared.", alone,
                          alone == 1 ? "frequency" : "frequencies",
                          post::engineering(over.left_out[i].front(), "Hz", 4) +
                              (alone > 1
                                   ? " to " + post::engineering(over.left_out[i].back(), "Hz", 4)
                                   : ""));
    out += words.empty() ? Sheet() : wrapped(names[i] + " " + words, 2, 4);
  }
  if (with > 1 && over.common.empty())
  {
    out += wrapped("No frequency is common to the cases: give each the same [drive] frequency.");
  }
  return out + (over.probes_elsewhere
                    ? wrapped("Probes of the same name at other places are not compared.")
                    : Sheet());
}

} // namespace

Sheet compared_frequency_text(std::span<const post::Result> results,
                              std::span<const std::string> names)
{
  const post::FrequencyComparison over = post::compared_over_frequency(results);
  const Sheet tables = impedance_table(over, names) + probe_table(over, names);
  const Sheet notes = notices(over, results, names);
  return tables.empty() && !notes.empty() ? heading("Over frequency") + notes : tables + notes;
}

} // namespace cases
