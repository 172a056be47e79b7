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

} // namespace

std::string frequency_text(const post::Result& result)
{
  if (result.frequencies.empty())
  {
    return "";
  }
  Table table;
  table.rows.push_back({"winding", "frequency", "resistance", "inductance", "Q", "true within"});
  std::string sentences;
  bool reached = true, wire_unknown = false;
  const std::vector<std::size_t> rows = shown(result.frequencies.size());
  for (std::size_t w = 0; w < result.frequencies.front().windings.size(); ++w)
  {
    for (const std::size_t i : rows)
    {
      const post::FrequencyResult& at = result.frequencies[i];
      const post::WindingImpedance& one = at.windings[w];
      reached = reached && at.accuracy_reached;
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
  return out + (reached ? ""
                        : wrapped("ACCURACY NOT REACHED at some frequencies; the discs still hold, "
                                  "but are wider than asked."));
}

} // namespace cases
