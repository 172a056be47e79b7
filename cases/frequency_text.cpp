// Windings over frequency: the table, and what makes the resistance at its ends.
#include "cases/result_text.hpp"
#include "cases/table.hpp"
#include "post/engineering.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace cases
{

namespace
{

/// At most so many rows, evenly taken, both ends among them.
std::vector<std::size_t> shown(std::size_t count)
{
  constexpr std::size_t most = 13;
  std::vector<std::size_t> list;
  for (std::size_t i = 0; i < std::min(count, most); ++i)
  {
    list.push_back(count <= most ? i : i * (count - 1) / (most - 1));
  }
  return list;
}

/// Digits the disc leaves.
int digits(double value, double disc)
{
  return disc > 0.0 && value > 0.0
             ? std::clamp(static_cast<int>(std::floor(std::log10(value / disc))) + 1, 2, 5)
             : 4;
}

/// "core 80 %, coil 20 %": the parts of a resistance, the largest first.
std::string parts(const post::WindingImpedance& one)
{
  auto list = one.by_body;
  std::ranges::stable_sort(list, std::greater(), [](const auto& part) { return part.second; });
  std::string words;
  for (const auto& [name, part] : list)
  {
    if (part > 0.005 * one.resistance)
    {
      words +=
          (words.empty() ? "" : ", ") + plain(name) + " " + post::percent(part / one.resistance);
    }
  }
  return words;
}

std::string loss_sentence(const post::Result& result, std::size_t w)
{
  std::string words;
  const auto& all = result.frequencies;
  for (const auto* at : {&all.front(), &all.back()})
  {
    const post::WindingImpedance& one = at->windings[w];
    const std::string found = one.resistance > 0.0 ? parts(one) : "";
    if (!found.empty() && (words.empty() || all.size() > 1))
    {
      words += (words.empty() ? "Resistance of " + plain(one.name) + " comes from: " : "; ") +
               found + " at " + post::engineering(at->frequency, "Hz", 3);
    }
  }
  return words.empty() ? "" : wrapped(words + ".", 2, 4);
}

/// Field at the probes at every frequency shown, and what the sources would make in air.
std::string probe_table(const post::Result& result, const std::vector<std::size_t>& rows)
{
  constexpr std::size_t most_probes = 6;
  const std::size_t probes = std::min(most_probes, result.frequencies.front().probes.size());
  if (probes == 0)
  {
    return "";
  }
  Table table;
  table.rows.push_back({"probe", "r", "z", "frequency", "B", "attenuation"});
  bool any = false;
  for (std::size_t p = 0; p < probes; ++p)
  {
    for (const std::size_t i : rows)
    {
      const post::ProbeAtFrequency& one = result.frequencies[i].probes[p];
      const bool drowned = one.magnitude < one.noise;
      const double least =
          one.attenuation ? *one.attenuation - 20.0 * std::log10(one.noise / one.magnitude) : 0.0;
      table.rows.push_back(
          {plain(one.name), post::millimetres(one.r), post::millimetres(one.z),
           post::engineering(result.frequencies[i].frequency, "Hz", 4),
           (drowned ? "< " : "") + post::engineering(drowned ? one.noise : one.magnitude, "T", 3),
           one.attenuation ? (drowned ? fmt::format("> {:.0f} dB", least)
                                      : fmt::format("{:.2f} dB", *one.attenuation + 0.0))
                           : "-"});
      any = any || drowned;
    }
  }
  return heading("Field over frequency", "estimated") + text(table) +
         wrapped("Attenuation: the same sources in air over the field here; below 0 dB the parts "
                 "strengthen it. B is the peak magnitude, as driven.") +
         (any ? wrapped(
                    "< and >: the field is so weak that this accuracy cannot tell it; a smaller "
                    "--accuracy tells more.")
              : "") +
         (probes < result.frequencies.front().probes.size()
              ? wrapped("Further probes are in result.json.")
              : "");
}

/// Loss in every part of a background field.
std::string background_loss(const post::Result& result, const std::vector<std::size_t>& rows)
{
  if (result.frequencies.front().losses.empty())
  {
    return "";
  }
  Table table;
  table.rows.push_back({"part", "frequency", "loss"});
  for (std::size_t p = 0; p < result.frequencies.front().losses.size(); ++p)
  {
    for (const std::size_t i : rows)
    {
      const auto& [name, loss] = result.frequencies[i].losses[p];
      table.rows.push_back({plain(name),
                            post::engineering(result.frequencies[i].frequency, "Hz", 4),
                            loss > 0.0 ? post::engineering(loss, "W", 3) : "0 W"});
    }
  }
  return heading("Loss in the background field", "estimated") + text(table);
}

} // namespace

std::string frequency_text(const post::Result& result)
{
  if (result.frequencies.empty() ||
      (result.frequencies.front().windings.empty() && result.frequencies.front().probes.empty() &&
       result.frequencies.front().losses.empty()))
  {
    return "";
  }
  const std::vector<std::size_t> rows = shown(result.frequencies.size());
  std::string field = probe_table(result, rows) + background_loss(result, rows);
  if (result.frequencies.front().windings.empty())
  {
    return field;
  }
  Table table;
  table.rows.push_back({"winding", "frequency", "resistance", "inductance", "Q", "true within"});
  std::string sentences;
  const bool reached =
      std::ranges::all_of(result.frequencies, &post::FrequencyResult::accuracy_reached);
  bool wire_unknown = false;
  for (std::size_t w = 0; w < result.frequencies.front().windings.size(); ++w)
  {
    for (const std::size_t i : rows)
    {
      const post::FrequencyResult& at = result.frequencies[i];
      const post::WindingImpedance& one = at.windings[w];
      const double Q = one.quality();
      table.rows.push_back(
          {plain(one.name), post::engineering(at.frequency, "Hz", 4),
           post::engineering(one.resistance, "ohm", digits(one.resistance, one.disc)),
           post::engineering(one.inductance, "H", digits(one.inductance * one.omega, one.disc)),
           std::isfinite(Q) ? post::number(Q, 3) : "-", post::engineering(one.disc, "ohm", 2)});
    }
    sentences += loss_sentence(result, w);
    wire_unknown = wire_unknown || !result.windings[w].wire_length;
  }
  std::string out = heading("Over frequency", "bounded: the true impedance lies within the last "
                                              "column") +
                    text(table);
  if (rows.size() < result.frequencies.size())
  {
    out += wrapped("All frequencies are in impedance.csv.");
  }
  out += sentences;
  if (wire_unknown)
  {
    out += wrapped("A plain section has no wire: the resistance is that of cores, coatings and "
                   "shields alone. Draw the winding turn by turn to have its own.");
  }
  return out + field +
         (reached ? ""
                  : wrapped("ACCURACY NOT REACHED at some frequencies; the discs still hold, "
                            "but are wider than asked."));
}

} // namespace cases
