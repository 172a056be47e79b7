// From harmonic solutions to the numbers and files of an impedance over frequency.
#include "post/frequency.hpp"

#include "post/csv_cell.hpp"
#include "post/quantities.hpp"
#include "post/strands.hpp"
#include "solver/field.hpp"
#include "solver/harmonic_model.hpp"
#include "solver/solution.hpp"

#include <Eigen/LU>

#include <cmath>
#include <fmt/format.h>
#include <limits>

namespace post
{

namespace
{

constexpr double two_pi = 2.0 * std::numbers::pi;

/// Dc resistance of a winding whose turns are drawn with a given density; their wire is not in the
/// field's loss. Nothing where the wire is unknown or solved for.
std::optional<double> wire_resistance(const solver::Problem& problem, const mesh::Winding& winding)
{
  const auto* turns = std::get_if<mesh::RoundTurns>(&winding.build);
  const std::optional<Wire> known = wire(problem, winding);
  if (!known || (turns && turns->strand == mesh::Strand::solid))
    return std::nullopt;
  return known->dc_resistance;
}

double copper_conductivity(const solver::Problem& problem)
{
  return solver::conductivity(solver::material(problem, "copper"), problem.temperature);
}

/// Resistance over int |H|^2 dV at 1 A that eddy currents of a section's strands show [ohm m^2].
double proximity_factor(const solver::Problem& problem, const mesh::Winding& winding,
                        double frequency)
{
  const auto* block = std::get_if<mesh::Block>(&winding.build);
  if (!block || block->strand_diameter == 0.0)
    return 0.0;
  const double sigma = copper_conductivity(problem);
  const double factor = strand_loss(block->strand_diameter, sigma, frequency).proximity / sigma;
  const double section = 0.5 * (block->outer_diameter - block->inner_diameter) * block->length;
  // Strands an area, each losing factor |H|^2 a length; a loss P at 1 A peak is 2 P.
  return 2.0 * winding.turns * block->strands / section * factor;
}

/// Resistance that eddy currents of the strands of every plain section add to Z_ij [ohm].
double proximity(const solver::Harmonic& s, Eigen::Index i, Eigen::Index j)
{
  double sum = 0.0;
  for (std::size_t w = 0; w < s.problem.scene.windings.size(); ++w)
    sum += proximity_factor(s.problem, s.problem.scene.windings[w], s.frequency) *
           s.strand_field[w](i, j).real();
  return sum;
}

/// Resistance that skin effect within a winding's strands adds; nothing without strands.
std::optional<double> skin(const solver::Problem& problem, const mesh::Winding& winding,
                           double frequency)
{
  const auto* block = std::get_if<mesh::Block>(&winding.build);
  if (!block || block->strand_diameter == 0.0)
    return std::nullopt;
  const double sigma = copper_conductivity(problem);
  return (strand_loss(block->strand_diameter, sigma, frequency).skin - 1.0) *
         *wire_resistance(problem, winding);
}

WindingImpedance winding_impedance(const solver::Harmonic& s, Eigen::Index w)
{
  const mesh::Winding& winding = s.problem.scene.windings[static_cast<std::size_t>(w)];
  WindingImpedance made;
  made.name = winding.name;
  made.omega = two_pi * s.frequency;
  made.wire_resistance = wire_resistance(s.problem, winding);
  const std::complex<double> Z = s.impedance(w, w);
  made.skin_resistance = skin(s.problem, winding, s.frequency);
  const double near = proximity(s, w, w);
  if (near > 0.0)
    made.proximity_resistance = near;
  const double own = own_resistance(s.problem, winding, s.frequency);
  made.resistance = Z.real() + own + near;
  made.inductance = Z.imag() / made.omega;
  made.disc = s.disc(w, w);
  // A loss P at 1 A peak is a resistance 2 P.
  for (std::size_t g = 1; g < s.region_loss.size(); ++g)
    made.by_body.emplace_back(s.layout.regions[g].name, 2.0 * s.region_loss[g][w]);
  for (Eigen::Index v = 0; v < s.winding_loss.rows(); ++v)
  {
    made.by_body.emplace_back(s.problem.scene.windings[static_cast<std::size_t>(v)].name,
                              2.0 * s.winding_loss(v, w) + (v == w ? own : 0.0));
  }
  if (near > 0.0)
    made.by_body.emplace_back("proximity in strands", near);
  return made;
}

/// Field of the sources in air: the air twin's windings, and the uniform background itself.
double magnitude_in_air(const solver::Problem& problem, const solver::Solution& air, mesh::Point at)
{
  if (problem.scene.windings.empty())
    return std::abs(problem.background.value_or(0.0));
  const solver::FieldPoint f =
      solver::field_at(air, solver::driven_field(air, solver::drive(air)), at);
  return std::hypot(f.B_r, f.B_z);
}

std::vector<ProbeAtFrequency> probed(const solver::Harmonic& s, std::span<const ProbePoint> probes,
                                     std::span<const double> in_air)
{
  Eigen::VectorXd currents = Eigen::VectorXd::Ones(static_cast<Eigen::Index>(s.sources.size()));
  for (std::size_t w = 0; w < s.problem.currents.size(); ++w)
    currents[static_cast<Eigen::Index>(w)] = s.problem.currents[w];
  std::vector<ProbeAtFrequency> list;
  for (std::size_t i = 0; i < probes.size(); ++i)
  {
    const solver::HarmonicPoint f = solver::field_at(s, currents, probes[i].at);
    ProbeAtFrequency one{
        probes[i].name, probes[i].at.r, probes[i].at.z, f.B_r, f.B_z, 0.0, 0.0, {}};
    one.magnitude = std::sqrt(std::norm(f.B_r) + std::norm(f.B_z));
    one.noise = in_air[i] * std::sqrt(s.accuracy_met);
    if (one.magnitude > 0.0 && in_air[i] > 0.0)
      one.attenuation = 20.0 * std::log10(in_air[i] / one.magnitude);
    list.push_back(std::move(one));
  }
  return list;
}

FrequencyResult result_of(const solver::Harmonic& s, std::span<const ProbePoint> probes,
                          std::span<const double> in_air)
{
  FrequencyResult made;
  made.frequency = s.frequency;
  made.accuracy_met = s.accuracy_met;
  made.accuracy_reached = s.accuracy_reached;
  made.limit = s.limit;
  made.unknowns = s.unknowns;
  made.probes = probed(s, probes, in_air);
  const auto windings = static_cast<Eigen::Index>(s.problem.scene.windings.size());
  for (std::size_t g = 1; s.problem.background && g < s.region_loss.size(); ++g)
    made.losses.emplace_back(s.layout.regions[g].name, s.region_loss[g][windings]);
  for (Eigen::Index i = 0; i < windings; ++i)
  {
    made.windings.push_back(winding_impedance(s, i));
    made.impedance.emplace_back();
    made.disc.emplace_back();
    for (Eigen::Index j = 0; j < windings; ++j)
    {
      const double wire =
          i == j ? own_resistance(s.problem, s.problem.scene.windings[static_cast<std::size_t>(i)],
                                  s.frequency)
                 : 0.0;
      made.impedance.back().push_back(s.impedance(i, j) + wire + proximity(s, i, j));
      made.disc.back().push_back(s.disc(i, j));
    }
  }
  return made;
}

} // namespace

double own_resistance(const solver::Problem& problem, const mesh::Winding& winding,
                      double frequency)
{
  return wire_resistance(problem, winding).value_or(0.0) +
         skin(problem, winding, frequency).value_or(0.0);
}

OwnLoss own_loss(const solver::Problem& problem, const mesh::Winding& winding, double frequency)
{
  return {wire_resistance(problem, winding), skin(problem, winding, frequency),
          proximity_factor(problem, winding, frequency)};
}

WindingImpedance impedance(const ToroidResult& toroid, double frequency)
{
  WindingImpedance made;
  made.name = toroid.name;
  made.resistance = toroid.resistance;
  made.inductance = toroid.inductance;
  made.disc = toroid.disc;
  made.by_body = toroid.by_body;
  made.omega = 2.0 * std::numbers::pi * frequency;
  return made;
}

double WindingImpedance::quality() const
{
  return resistance > 0.0 ? omega * inductance / resistance
                          : std::numeric_limits<double>::infinity();
}

std::vector<FrequencyResult> over_frequency(const solver::Problem& problem,
                                            std::span<const ProbePoint> probes,
                                            const solver::Solution& air, int threads)
{
  const std::vector<double>& frequencies = problem.frequencies;
  std::vector<FrequencyResult> all(frequencies.size());
  if (frequencies.empty())
    return all;
  std::vector<double> in_air;
  for (const ProbePoint& probe : probes)
    in_air.push_back(magnitude_in_air(problem, air, probe.at));
  solver::solve_curve(problem, threads,
                      [&](std::size_t i, const solver::Harmonic& solved)
                      { all[i] = result_of(solved, probes, in_air); });
  return all;
}

std::vector<WindingImpedance> one_ports(const FrequencyResult& at)
{
  std::vector<WindingImpedance> list = at.windings;
  for (const WireResult& wire : at.wires)
    if (wire.length)
    {
      WindingImpedance one;
      one.name = wire.name;
      one.resistance = wire.resistance * *wire.length;
      one.inductance = wire.inductance * *wire.length;
      one.omega = 2.0 * std::numbers::pi * at.frequency;
      list.push_back(std::move(one));
    }
  for (const ToroidResult& toroid : at.toroids)
    list.push_back(impedance(toroid, at.frequency));
  return list;
}

std::string impedance_table(const std::vector<FrequencyResult>& results)
{
  std::string out = "frequency [Hz]";
  for (const WindingImpedance& one : one_ports(results.front()))
    out += "," + csv_cell(fmt::format("Rs {} [ohm]", one.name)) + "," +
           csv_cell(fmt::format("Ls {} [H]", one.name)) + "," +
           csv_cell(fmt::format("Q {}", one.name)) + "," +
           csv_cell(fmt::format("disc {} [ohm]", one.name));
  out += "\n";
  for (const FrequencyResult& at : results)
  {
    out += fmt::format("{:.9g}", at.frequency);
    for (const WindingImpedance& one : one_ports(at))
    {
      const double Q = one.quality(); // endless without loss: an empty cell
      out += fmt::format(",{:.9g},{:.9g},{},{:.3g}", one.resistance, one.inductance,
                         std::isfinite(Q) ? fmt::format("{:.6g}", Q) : "", one.disc);
    }
    out += "\n";
  }
  return out;
}

std::pair<std::string, std::string> touchstone(const std::vector<FrequencyResult>& results,
                                               double line)
{
  const bool windings = !results.front().windings.empty();
  const auto n =
      windings ? static_cast<Eigen::Index>(results.front().impedance.size()) : Eigen::Index{1};
  const std::vector<WindingImpedance> ports =
      windings ? results.front().windings : one_ports(results.front());
  std::string out = windings ? "! scattering parameters of windings" : "! scattering parameters";
  for (const WindingImpedance& one : ports)
    out += ", " + one.name;
  out += "; ports in this order\n";
  out += fmt::format("# HZ S RI R {:.9g}\n", line);
  for (const FrequencyResult& at : results)
  {
    Eigen::MatrixXcd Z(n, n);
    if (!windings)
    {
      const WindingImpedance one = one_ports(at).front();
      Z(0, 0) = {one.resistance, one.omega * one.inductance};
    }
    for (Eigen::Index i = 0; windings && i < n; ++i)
      for (Eigen::Index j = 0; j < n; ++j)
        Z(i, j) = at.impedance[static_cast<std::size_t>(i)][static_cast<std::size_t>(j)];
    const Eigen::MatrixXcd R = line * Eigen::MatrixXcd::Identity(n, n);
    const Eigen::MatrixXcd S = (Z - R) * (Z + R).inverse();
    out += fmt::format("{:.12g}", at.frequency);
    // All digits: far from 50 ohm, an impedance is a small difference from +-1.
    // Version 1.1: two ports column by column on one line, more row by row, four pairs a line.
    for (Eigen::Index i = 0; i < n; ++i)
    {
      for (Eigen::Index j = 0; j < n; ++j)
      {
        const std::complex<double> s = n == 2 ? S(j, i) : S(i, j);
        out += j > 0 && j % 4 == 0 ? "\n" : "";
        out += fmt::format(" {:.16g} {:.16g}", s.real(), s.imag());
      }
      out += n > 2 || i + 1 == n ? "\n" : "";
    }
  }
  return {out, fmt::format(".s{}p", n)};
}

} // namespace post
