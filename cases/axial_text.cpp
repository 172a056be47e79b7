// Straight wires and toroids: per metre, for the piece, over frequency.
#include "cases/impedance_text.hpp"
#include "cases/result_text.hpp"
#include "cases/sheet.hpp"
#include "post/engineering.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace cases
{

namespace
{

void add_wire(Table& table, const post::WireResult& wire, double frequency)
{
  const auto per_metre = [](double value, const char* unit)
  { return post::engineering(value, unit, 5) + "/m"; };
  table.rows.push_back(
      {plain(wire.name), frequency > 0.0 ? post::engineering(frequency, "Hz", 4) : "rest",
       per_metre(wire.resistance, "ohm"), per_metre(wire.inductance, "H"),
       wire.length ? post::engineering(wire.resistance * *wire.length, "ohm", 4) : "-",
       wire.length ? post::engineering(wire.inductance * *wire.length, "H", 4) : "-"});
}

void add_toroid(Table& table, const post::ToroidResult& toroid, double frequency)
{
  const post::WindingImpedance one = post::impedance(toroid, frequency);
  const bool exact = toroid.disc == 0.0;
  table.rows.push_back({plain(toroid.name),
                        frequency > 0.0 ? post::engineering(frequency, "Hz", 4) : "rest",
                        post::count(toroid.turns),
                        exact ? post::engineering(toroid.inductance, "H", 5) : inductance_text(one),
                        toroid.resistance > 0.0 ? resistance_text(one) : "-",
                        frequency > 0.0 ? quality_text(one) : "-",
                        exact ? "exact" : post::engineering(toroid.disc, "ohm", 2)});
}

/// Where the loss of cores of several bodies arises at the ends of the list, and what was not
/// reached.
Sheet toroid_sentences(const post::Result& result)
{
  Sheet out;
  bool curved = false;
  std::string limit;
  for (std::size_t i = 0; i < result.toroids.size(); ++i)
  {
    std::string words;
    for (const post::FrequencyResult& at : result.frequencies)
    {
      const post::ToroidResult& one = at.toroids[i];
      const bool end = &at == &result.frequencies.front() || &at == &result.frequencies.back();
      const std::string parts =
          end && one.by_body.size() > 1 ? loss_parts(post::impedance(one, at.frequency)) : "";
      words += parts.empty() ? ""
                             : (words.empty() ? "" : "; ") + parts + " at " +
                                   post::engineering(at.frequency, "Hz", 3);
      curved = curved || one.disc > 0.0;
      limit = one.accuracy_reached ? limit : one.limit;
    }
    out += words.empty() ? Sheet()
                         : wrapped("Core loss of " + plain(result.toroids[i].name) +
                                       " comes from: " + words + ".",
                                   2, 4);
  }
  return out +
         (curved ? wrapped("True within: the radius around the impedance that holds the true one, "
                           "of the mesh; what is left by round-off and by how curved boundaries "
                           "are held is not in it.")
                 : Sheet()) +
         (limit.empty() ? Sheet()
                        : wrapped("ACCURACY NOT REACHED at some frequencies (" + plain(limit) +
                                  "); the radius still holds, but is wider than asked."));
}

} // namespace

Sheet axial_text(const post::Result& result)
{
  constexpr std::size_t most_rows = 40;
  Table wires, toroids;
  wires.rows.push_back({"wire", "frequency", "resistance", "inductance", "piece R", "piece L"});
  toroids.rows.push_back(
      {"toroid", "frequency", "turns", "inductance", "core loss", "Q", "true within"});
  const auto add = [&](const auto& at, double frequency)
  {
    for (const post::WireResult& wire : at.wires)
    {
      add_wire(wires, wire, frequency);
    }
    for (const post::ToroidResult& toroid : at.toroids)
    {
      add_toroid(toroids, toroid, frequency);
    }
  };
  add(result, 0.0);
  for (const post::FrequencyResult& at : result.frequencies)
  {
    if (wires.rows.size() + toroids.rows.size() < most_rows)
    {
      add(at, at.frequency);
    }
  }
  Sheet out;
  if (wires.rows.size() > 1)
  {
    out += heading("Straight wires", "exact, endless wire; a piece counts only its share") +
           text(wires) +
           wrapped("Inductance: of the flux inside conductor and coatings; what lies outside "
                   "depends on the way back. At low frequency a coating that does not conduct "
                   "leaves the field outside the wire as it is: it adds inductance, it does not "
                   "shield. Resistances at " +
                   degrees(result.temperature) + ".");
  }
  if (toroids.rows.size() > 1)
  {
    const bool exact = std::ranges::all_of(
        result.frequencies,
        [](const post::FrequencyResult& at)
        {
          return std::ranges::all_of(at.toroids,
                                     [](const post::ToroidResult& one) { return one.disc == 0.0; });
        });
    out += heading("Toroids", std::string(exact ? "exact" : "bounded") +
                                  " for even, close winding; wire's own resistance left out") +
           text(toroids) + toroid_sentences(result);
  }
  return out;
}

} // namespace cases
