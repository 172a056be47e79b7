// From saturating fields to the numbers of a bias run.
#include "post/bias.hpp"

#include "post/csv_cell.hpp"
#include "post/frequency.hpp"
#include "solver/at_once.hpp"
#include "solver/harmonic.hpp"
#include "solver/saturation.hpp"
#include "solver/saturation_peaks.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <limits>
#include <numbers>

namespace post
{

namespace
{

/// Weak enough for the permeability of weak fields, strong enough for the digits.
constexpr double weak_current = 1e-6;

/// The currents to solve for: a point without any is taken at a weak one.
Eigen::VectorXd solved_currents(const solver::Problem& problem, const solver::Bias& bias)
{
  Eigen::VectorXd list(bias.currents.size());
  for (std::size_t w = 0; w < bias.currents.size(); ++w)
    list[static_cast<Eigen::Index>(w)] = bias.currents[w];
  if (list.isZero(0.0) && !problem.background)
    list.setConstant(weak_current);
  return list;
}

/// Not a number without a current of its own.
Bounded over(const solver::Linkage& linkage, double current)
{
  if (current == 0.0)
    return {std::numeric_limits<double>::quiet_NaN(), 0.0, 0.0};
  const double a = linkage.lower / current, b = linkage.upper / current;
  return {linkage.value / current, std::min(a, b), std::max(a, b)};
}

/// Solved at a weak current for its inductances; without one nothing is linked or stored.
void put_to_rest(BiasPoint& at)
{
  at.coenergy = {};
  at.stored_energy = 0.0;
  for (BiasWinding& one : at.windings)
    one.flux_linkage = {};
  for (BiasRegion& region : at.regions)
    region.peak_flux_density = region.energy = 0.0;
}

BiasPoint point(const solver::Saturated& s, const solver::Bias& bias)
{
  BiasPoint made;
  made.current = bias.current;
  made.coenergy = {0.5 * (s.lower + s.upper), s.lower, s.upper};
  made.accuracy_met = s.accuracy_met;
  made.accuracy_reached = s.accuracy_reached;
  made.limit = s.limit;
  made.iterations = s.iterations;
  made.unknowns = s.unknowns;
  for (std::size_t w = 0; w < s.linkage.size(); ++w)
  {
    const auto i = static_cast<Eigen::Index>(w);
    const solver::Linkage& linked = s.linkage[w];
    BiasWinding one{s.problem.scene.windings[w].name, bias.currents[w], {}, {}, 0.0, 0.0};
    one.flux_linkage = {linked.value, linked.lower, linked.upper};
    one.secant_inductance = over(linked, s.currents[i]);
    one.incremental_inductance = s.incremental(i, i);
    one.incremental_spread = s.incremental_spread(i, i);
    made.windings.push_back(one);
  }
  const std::vector<solver::Peak> peaks = solver::peaks(s);
  for (std::size_t g = 0; g < peaks.size(); ++g)
  {
    made.regions.push_back({s.stage->layout.regions[g].name, peaks[g].flux_density,
                            peaks[g].at_corner, s.region_energy[g]});
    made.stored_energy += s.region_energy[g];
  }
  std::rotate(made.regions.begin(), made.regions.begin() + 1, made.regions.end()); // air last
  if (std::ranges::all_of(bias.currents, [](double I) { return I == 0.0; }) &&
      !s.problem.background)
    put_to_rest(made);
  return made;
}

/// Ripples of all windings at one frequency. The wire's own resistance is that at rest.
void add_ripple(BiasPoint& at, const solver::Saturated& s, double frequency)
{
  const Eigen::MatrixXcd Z = solver::small_signal(s, frequency);
  for (std::size_t w = 0; w < at.windings.size(); ++w)
  {
    const auto i = static_cast<Eigen::Index>(w);
    const double wire = own_resistance(s.problem, s.problem.scene.windings[w], frequency);
    at.windings[w].ripple.push_back(
        {frequency, Z(i, i).real() + wire, Z(i, i).imag() / (2.0 * std::numbers::pi * frequency)});
  }
}

/// Points by rising current.
std::vector<const BiasPoint*> ascending(const BiasCurve& curve)
{
  std::vector<const BiasPoint*> list;
  for (const BiasPoint& one : curve.points)
    list.push_back(&one);
  std::stable_sort(list.begin(), list.end(),
                   [](const BiasPoint* a, const BiasPoint* b) { return a->current < b->current; });
  return list;
}

std::vector<BiasDrop> drops(const BiasCurve& curve, std::size_t winding)
{
  std::vector<BiasDrop> list;
  const std::vector<const BiasPoint*> points = ascending(curve);
  const auto L = [&](std::size_t i) { return points[i]->windings[winding].incremental_inductance; };
  for (const double share : {0.1, 0.2, 0.3})
  {
    BiasDrop one{points.front()->windings[winding].name, share, {}};
    const double wanted = (1.0 - share) * L(0);
    for (std::size_t i = 1; i < points.size() && !one.current; ++i)
      if (L(i) <= wanted)
        one.current = points[i - 1]->current + (points[i]->current - points[i - 1]->current) *
                                                   (L(i - 1) - wanted) / (L(i - 1) - L(i));
    list.push_back(one);
  }
  return list;
}

} // namespace

std::vector<solver::Bias> working_points(const solver::Problem& problem)
{
  if (!problem.bias.empty() || !solver::saturates(problem))
    return problem.bias;
  solver::Bias own{1.0, problem.currents};
  own.currents.resize(problem.scene.windings.size(), 1.0);
  own.current = own.currents.empty() ? 0.0 : own.currents.front();
  return {own};
}

void tell_falls(BiasCurve& curve)
{
  curve.drops.clear();
  // A fall counts from rest: negative currents or a single one tell none.
  const bool rising =
      std::ranges::all_of(curve.points, [](const BiasPoint& at) { return at.current >= 0.0; });
  if (!rising || curve.points.size() < 2)
    return;
  for (std::size_t w = 0; w < curve.points.front().windings.size(); ++w)
    for (BiasDrop& one : drops(curve, w))
      curve.drops.push_back(std::move(one));
}

BiasCurve bias_curve(const solver::Problem& problem, int threads)
{
  BiasCurve made;
  const std::vector<solver::Bias> points = working_points(problem);
  std::vector<Eigen::VectorXd> currents;
  for (const solver::Bias& bias : points)
    currents.push_back(solved_currents(problem, bias));
  // Ripples need a mesh for the thinnest skin; what saturates has a thicker one.
  const bool ripples =
      !problem.bias.empty() && !problem.frequencies.empty() && !problem.scene.windings.empty();
  mesh::Mesh mesh;
  if (ripples)
    mesh = solver::skin_mesh(problem, problem.frequencies.back());
  const std::vector<solver::Saturated> found =
      solver::saturation_curve(problem, currents, threads, ripples ? &mesh : nullptr);
  made.points.resize(points.size());
  solver::at_once(points.size(), threads,
                  [&](std::size_t i)
                  {
                    made.points[i] = point(found[i], points[i]);
                    for (std::size_t f = 0; ripples && f < problem.frequencies.size(); ++f)
                      add_ripple(made.points[i], found[i], problem.frequencies[f]);
                  });
  return made;
}

std::string ripple_table(const BiasCurve& curve)
{
  std::string out;
  for (const BiasPoint& at : curve.points)
    for (const BiasWinding& one : at.windings)
      for (const Ripple& ripple : one.ripple)
        out += fmt::format("{},{:.9g},{:.9g},{:.9g},{:.9g}\n", csv_cell(one.name), one.current,
                           ripple.frequency, ripple.resistance, ripple.inductance);
  return out.empty() ? out
                     : "winding,current [A],frequency [Hz],ripple resistance [ohm],"
                       "ripple inductance [H]\n" +
                           out;
}

std::string bias_table(const BiasCurve& curve)
{
  std::string out = "current [A]";
  for (const BiasWinding& one : curve.points.front().windings)
    for (const char* column : {"flux linkage {} [Wb]", "lower bound {} [Wb]", "upper bound {} [Wb]",
                               "secant inductance {} [H]", "incremental inductance {} [H]"})
      out += "," + csv_cell(fmt::format(fmt::runtime(column), one.name));
  out += ",coenergy lower bound [J],coenergy upper bound [J],stored energy [J]";
  for (const BiasRegion& region : curve.points.front().regions)
    out += "," + csv_cell(fmt::format("peak flux density {} [T]", region.name));
  out += "\n";
  for (const BiasPoint& at : curve.points)
  {
    out += fmt::format("{:.9g}", at.current);
    for (const BiasWinding& one : at.windings)
      out += fmt::format(",{:.9g},{:.9g},{:.9g},{:.9g},{:.9g}", one.flux_linkage.value,
                         one.flux_linkage.lower, one.flux_linkage.upper,
                         one.secant_inductance.value, one.incremental_inductance);
    out += fmt::format(",{:.9g},{:.9g},{:.9g}", at.coenergy.lower, at.coenergy.upper,
                       at.stored_energy);
    for (const BiasRegion& region : at.regions)
      out += fmt::format(",{:.5g}", region.peak_flux_density);
    out += "\n";
  }
  return out;
}

} // namespace post
