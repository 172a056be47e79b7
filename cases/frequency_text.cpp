// Windings over frequency: the table, and what makes the resistance at its ends.
#include "cases/impedance_text.hpp"
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

/// What the discs take for granted, where it shows, and what was not reached.
Sheet accuracy_sentences(const post::Result& result)
{
  Sheet out;
  if (result.geometry_error > 0.0)
  {
    out += wrapped(fmt::format("The radius covers the mesh, not how curved boundaries are held, "
                               "nor round-off: at rest those shift the result by at most {:.0e}, "
                               "over frequency that is not proved.",
                               result.geometry_error));
  }
  std::string why;
  bool reached = true;
  for (const post::FrequencyResult& at : result.frequencies)
  {
    reached = reached && at.accuracy_reached;
    why = why.empty() ? at.limit : why;
  }
  return out + (reached ? Sheet()
                        : wrapped("ACCURACY NOT REACHED at some frequencies" +
                                  (why.empty() ? "" : " (" + plain(why) + ")") +
                                  "; the discs still hold, but are wider than asked."));
}

/// Where strands grow thicker than two skin depths, R / R0 = 1.020 [NBS Circular 74].
Sheet thick_strands(const post::Result& result)
{
  for (const post::FrequencyResult& at : result.frequencies)
  {
    for (const post::WindingImpedance& one : at.windings)
    {
      if (one.skin_resistance.value_or(0.0) > 0.020 * one.wire_resistance.value_or(0.0))
      {
        return wrapped("From " + post::engineering(at.frequency, "Hz", 3) +
                       " up, strands are thicker than two skin depths and shield one another: "
                       "their loss is overestimated there.");
      }
    }
  }
  return {};
}

Sheet loss_sentence(const post::Result& result, std::size_t w)
{
  std::string words;
  const auto& all = result.frequencies;
  for (const auto* at : {&all.front(), &all.back()})
  {
    const post::WindingImpedance& one = at->windings[w];
    const std::string found = one.resistance > 0.0 ? loss_parts(one) : "";
    if (!found.empty() && (words.empty() || all.size() > 1))
    {
      words += (words.empty() ? "Resistance of " + plain(one.name) + " comes from: " : "; ") +
               found + " at " + post::engineering(at->frequency, "Hz", 3);
    }
  }
  return words.empty() ? Sheet() : wrapped(words + ".", 2, 4);
}

/// Field at the probes at every frequency shown, and what the sources would make in air.
Sheet probe_table(const post::Result& result, const std::vector<std::size_t>& rows)
{
  constexpr std::size_t most_probes = 6;
  const std::size_t probes = std::min(most_probes, result.frequencies.front().probes.size());
  if (probes == 0)
  {
    return {};
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
                                      : decibels(*one.attenuation, one.noise / one.magnitude))
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
              : Sheet()) +
         (probes < result.frequencies.front().probes.size()
              ? wrapped("Further probes are in result.json.")
              : Sheet());
}

/// Loss in every part of a background field.
Sheet background_loss(const post::Result& result, const std::vector<std::size_t>& rows)
{
  if (result.frequencies.front().losses.empty())
  {
    return {};
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

Sheet frequency_text(const post::Result& result)
{
  if (result.frequencies.empty() ||
      (result.frequencies.front().windings.empty() && result.frequencies.front().probes.empty() &&
       result.frequencies.front().losses.empty()))
  {
    return {};
  }
  const std::vector<std::size_t> rows = shown(result.frequencies.size());
  Sheet field = probe_table(result, rows) + background_loss(result, rows);
  if (result.frequencies.front().windings.empty())
  {
    return field + accuracy_sentences(result);
  }
  Table table;
  table.rows.push_back({"winding", "frequency", "resistance", "inductance", "Q", "true within"});
  Sheet sentences;
  bool wire_unknown = false, untold = false, stranded = false;
  for (std::size_t w = 0; w < result.frequencies.front().windings.size(); ++w)
  {
    for (const std::size_t i : rows)
    {
      const post::FrequencyResult& at = result.frequencies[i];
      const post::WindingImpedance& one = at.windings[w];
      table.rows.push_back({plain(one.name), post::engineering(at.frequency, "Hz", 4),
                            resistance_text(one), inductance_text(one), quality_text(one),
                            post::engineering(one.disc, "ohm", 2)});
      untold = untold || inductance_open(one);
      stranded = stranded || one.proximity_resistance.has_value();
    }
    sentences += loss_sentence(result, w);
    wire_unknown = wire_unknown || !result.windings[w].wire_length;
  }
  Sheet out = heading("Over frequency", "bounded: the true impedance lies within the last "
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
                   "shields alone. Give it the wire of its strands, or draw it turn by turn.");
  }
  if (stranded)
  {
    out += wrapped("The loss of strands is estimated and no part of what bounds the rest: round, "
                   "evenly spread, insulated, each in every place of the turn for an equal way; "
                   "their eddy currents are taken to leave field and inductance as they are.") +
           thick_strands(result);
  }
  if (untold)
  {
    out += wrapped("Not told: the impedance is nearly all resistance, so that this accuracy leaves "
                   "the inductance open; a smaller --accuracy tells it.");
  }
  return out + wrapped("Resistances at " + degrees(result.temperature) + ".") +
         accuracy_sentences(result) + field;
}

} // namespace cases
