// Straight wires and toroids: per metre, for the piece, over frequency.
#include "cases/result_text.hpp"
#include "cases/sheet.hpp"
#include "post/engineering.hpp"

#include <fmt/format.h>

namespace cases
{

namespace
{

std::string quality(double resistance, double inductance, double frequency)
{
  return resistance > 0.0 && frequency > 0.0
             ? post::number(2.0 * std::numbers::pi * frequency * inductance / resistance, 3)
             : "-";
}

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
  table.rows.push_back(
      {plain(toroid.name), frequency > 0.0 ? post::engineering(frequency, "Hz", 4) : "rest",
       post::count(toroid.turns), post::engineering(toroid.inductance, "H", 5),
       toroid.resistance > 0.0 ? post::engineering(toroid.resistance, "ohm", 4) : "-",
       quality(toroid.resistance, toroid.inductance, frequency)});
}

} // namespace

Sheet axial_text(const post::Result& result)
{
  constexpr std::size_t most_rows = 40;
  Table wires, toroids;
  wires.rows.push_back({"wire", "frequency", "resistance", "inductance", "piece R", "piece L"});
  toroids.rows.push_back({"toroid", "frequency", "turns", "inductance", "core loss", "Q"});
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
    out += heading("Toroids", "exact for even, close winding; wire's own resistance left out") +
           text(toroids);
  }
  return out;
}

} // namespace cases
