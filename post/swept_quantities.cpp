// What a point of a sweep has beside its windings at rest, as a flat list of named numbers.
#include "post/sweep.hpp"

#include <cmath>
#include <limits>
#include <numbers>

namespace post
{

namespace
{

using List = std::vector<SweptQuantity>;

constexpr double nothing = std::numeric_limits<double>::quiet_NaN();

Bounded bare(double value)
{
  return {value, value, value};
}

void add(List& list, const char* word, const std::string& of, const char* unit,
         const Bounded& value, Standing standing)
{
  list.push_back({word, of, unit, value, standing});
}

/// omega L / R over the square around the disc; nothing certain once R may be zero.
SweptQuantity quality(const WindingImpedance& at, bool bounded)
{
  const double X = at.omega * at.inductance, R = at.resistance, d = at.disc;
  SweptQuantity made{"quality", at.name, "", bare(R > 0.0 ? X / R : nothing), Standing::estimated};
  if (bounded && R > d && X > d)
  {
    made.value = {X / R, (X - d) / (R + d), (X + d) / (R - d)};
    made.standing = Standing::bounded;
  }
  return made;
}

/// The disc bounds what the field shows; what strands add is an estimate.
void add_impedance(List& list, const WindingImpedance& at)
{
  const bool bounded = !at.skin_resistance && !at.proximity_resistance;
  const double R = at.resistance, L = at.inductance, d = at.disc;
  add(list, "inductance_at_frequency", at.name, "H", {L, L - d / at.omega, L + d / at.omega},
      Standing::bounded);
  add(list, "resistance", at.name, "ohm",
      bounded ? Bounded{R, std::max(0.0, R - d), R + d} : bare(R),
      bounded ? Standing::bounded : Standing::estimated);
  list.push_back(quality(at, bounded));
}

void add_bias(List& list, const BiasWinding& at)
{
  add(list, "flux_linkage", at.name, "Wb", at.flux_linkage, Standing::bounded);
  const Bounded& secant = at.secant_inductance;
  add(list, "secant_inductance", at.name, "H", std::isnan(secant.value) ? bare(nothing) : secant,
      Standing::bounded);
  add(list, "incremental_inductance", at.name, "H", bare(at.incremental_inductance),
      Standing::estimated);
}

/// B over a body's volume, or in its middle, over B far away.
void add_part(List& list, const RegionResult& part)
{
  const Demagnetisation& field = *part.demagnetisation;
  add(list, "apparent_permeability_middle", part.name, "", bare(field.apparent_permeability_middle),
      Standing::estimated);
  if (field.ballistic)
    add(list, "ballistic_factor", part.name, "", bare(*field.ballistic), Standing::estimated);
  if (!field.magnetometric)
    return;
  const Bounded& N = *field.magnetometric;
  const double mu = part.permeability;
  const auto mean = [mu](double factor) { return mu / (1.0 + factor * (mu - 1.0)); };
  const double a = mean(N.lower), b = mean(N.upper);
  add(list, "magnetometric_factor", part.name, "", N, Standing::bounded);
  add(list, "apparent_permeability_volume", part.name, "",
      {mean(N.value), std::min(a, b), std::max(a, b)}, Standing::bounded);
}

void add_wires(List& list, const std::vector<WireResult>& wires)
{
  for (const WireResult& wire : wires)
  {
    add(list, "inductance_per_metre", wire.name, "H/m", bare(wire.inductance), Standing::exact);
    add(list, "resistance_per_metre", wire.name, "ohm/m", bare(wire.resistance), Standing::exact);
  }
}

/// Exact but where its core's field was solved for.
void add_toroid(List& list, const ToroidResult& one, double omega)
{
  const Standing standing = one.disc > 0.0 ? Standing::bounded : Standing::exact;
  const double R = one.resistance, L = one.inductance, d = one.disc;
  const double off = d > 0.0 ? d / omega : 0.0;
  add(list, omega > 0.0 ? "inductance_at_frequency" : "inductance", one.name, "H",
      {L, L - off, L + off}, standing);
  if (omega > 0.0)
    add(list, "resistance", one.name, "ohm", {R, d > 0.0 ? std::max(0.0, R - d) : R, R + d},
        standing);
}

} // namespace

std::vector<SweptQuantity> swept_quantities(const Result& result)
{
  List list;
  const FrequencyResult* at =
      result.frequencies.size() == 1 ? &result.frequencies.front() : nullptr;
  for (std::size_t w = 0; at && w < at->windings.size(); ++w)
    add_impedance(list, at->windings[w]);
  if (result.bias.points.size() == 1)
    for (const BiasWinding& winding : result.bias.points.front().windings)
      add_bias(list, winding);
  for (const RegionResult& region : result.regions)
    if (region.demagnetisation)
      add_part(list, region);
  add_wires(list, at ? at->wires : result.wires);
  for (const ToroidResult& toroid : at ? at->toroids : result.toroids)
    add_toroid(list, toroid, at ? 2.0 * std::numbers::pi * at->frequency : 0.0);
  return list;
}

} // namespace post
