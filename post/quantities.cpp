// Inductances, ledger, peaks, probes, demagnetising factors: read off a solution, nothing solved.
#include "post/quantities.hpp"

#include "mesh/layout.hpp"
#include "solver/field.hpp"
#include "solver/solution.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace post
{

namespace
{

using std::numbers::pi;

Bounded bounded(double lower, double gap)
{
  return {lower + 0.5 * gap, lower, lower + gap};
}

Bounded self_inductance(const solver::Solution& solution, int winding)
{
  return bounded(solution.bracket.lower[winding], solution.bracket.gap(winding, winding));
}

/// |M - (int nu B_i.B_j + int mu H_i.H_j) / 2| <= sqrt(gap_i gap_j) / 2.
Bounded mutual_inductance(const solver::Bracket& b, int i, int j)
{
  const double middle = 0.5 * (b.flux_energy(i, j) + b.field_energy(i, j));
  const double half = 0.5 * std::sqrt(b.gap(i, i) * b.gap(j, j));
  return {middle, middle - half, middle + half};
}

std::vector<std::pair<std::string, double>> shares(const solver::Solution& solution,
                                                   const Eigen::VectorXd& currents)
{
  double total = 0.0;
  std::vector<std::pair<std::string, double>> list;
  for (std::size_t g = 0; g < solution.layout.regions.size(); ++g)
  {
    const double energy = currents.dot(solution.bracket.region_energy(g) * currents);
    list.emplace_back(solution.layout.regions[g].name, energy);
    total += energy;
  }
  for (auto& [name, energy] : list)
    energy = total > 0.0 ? energy / total : 0.0;
  std::rotate(list.begin(), list.begin() + 1, list.end()); // air last
  return list;
}

WindingResult winding_result(const solver::Solution& solution, const solver::Solution& air, int w)
{
  const mesh::Winding& winding = solution.problem.scene.windings[w];
  WindingResult result;
  result.name = winding.name;
  result.turns = series_turns(winding);
  result.inductance = self_inductance(solution, w);
  result.air_inductance = self_inductance(air, w);
  result.apparent_permeability = result.inductance.value / result.air_inductance.value;
  result.inductance_per_turn_squared = result.inductance.value / (result.turns * result.turns);
  if (const std::optional<Wire> drawn = wire(solution.problem, winding))
  {
    result.wire_length = drawn->length;
    result.dc_resistance = drawn->dc_resistance;
  }
  Eigen::VectorXd alone = Eigen::VectorXd::Zero(static_cast<Eigen::Index>(solution.sources.size()));
  alone[w] = 1.0;
  result.shares = shares(solution, alone);
  return result;
}

/// Largest |B| over points inside each triangle of a region, and whether it lies at a corner.
void add_peaks(const solver::Solution& solution, const solver::DrivenField& flux,
               std::vector<RegionResult>& regions)
{
  constexpr int n = 5;
  constexpr double inset = 0.05;
  std::vector<std::array<double, 3>> inner;
  for (int i = 0; i <= n; ++i)
    for (int j = 0; i + j <= n; ++j)
    {
      const double a = inset + (1.0 - 3.0 * inset) * i / n, b = inset + (1.0 - 3.0 * inset) * j / n;
      inner.push_back({1.0 - a - b, a, b});
    }
  const solver::FieldPoints points(solution.space.order, inner);
  const mesh::Mesh& mesh = solution.space.mesh;
  for (std::size_t k = 0; k < mesh.triangles.size(); ++k)
  {
    RegionResult& region = regions[mesh.triangles[k].region];
    for (const solver::FieldPoint& f : points.in(solution, flux, static_cast<int>(k)))
    {
      const double B = std::hypot(f.B_r, f.B_z);
      if (B <= region.peak_flux_density)
        continue;
      region.peak_flux_density = B;
      const auto& v = mesh.triangles[k].vertices;
      region.peak_at_corner = std::any_of(
          v.begin(), v.end(), [&](int x) { return mesh.corner[x] != mesh::Corner::none; });
    }
  }
}

void add_volumes(const solver::Solution& solution, std::vector<RegionResult>& regions)
{
  for (std::size_t k = 0; k < solution.space.mesh.triangles.size(); ++k)
  {
    const int g = solution.space.mesh.triangles[k].region;
    if (g == 0)
      continue;
    const solver::ElementTable table =
        solver::triangle_table(solution.space, static_cast<int>(k), solver::Care::solving);
    for (const solver::ElementPoint& x : table.points)
      regions[g].volume += pi * x.weight; // 2 pi r dr dz = pi ds dz
  }
}

/// Bore and outside radius of a part where its middle plane cuts it, or none for an outline.
std::optional<std::pair<double, double>> middle_section(const mesh::Part& part)
{
  if (const auto* rod = std::get_if<mesh::Rod>(&part.shape))
    return std::pair{0.0, 0.5 * rod->diameter};
  if (const auto* tube = std::get_if<mesh::Tube>(&part.shape))
    return std::pair{0.5 * tube->inner_diameter, 0.5 * tube->outer_diameter};
  if (const auto* ring = std::get_if<mesh::Ring>(&part.shape))
    return std::pair{std::max(0.0, 0.5 * (ring->loop_diameter - ring->section_diameter)),
                     0.5 * (ring->loop_diameter + ring->section_diameter)};
  return std::nullopt;
}

bool only_magnetic_body(const solver::Solution& solution, std::size_t region)
{
  for (std::size_t g = 0; g < solution.permeability.size(); ++g)
    if (g != region && solution.permeability[g] != 1.0)
      return false;
  return solution.permeability[region] != 1.0;
}

std::optional<Demagnetisation> demagnetisation(const solver::Solution& solution,
                                               const mesh::Part& part, std::size_t region,
                                               double volume)
{
  const auto section = middle_section(part);
  if (!section)
    return std::nullopt;
  const auto last = static_cast<Eigen::Index>(solution.sources.size()) - 1;
  const double B0 = *solution.problem.background, mu = solution.permeability[region];
  const solver::DrivenField flux =
      solver::driven_field(solution, Eigen::VectorXd::Unit(last + 1, last));
  const auto [r0, r1] = *section;
  const double through =
      solver::field_at(solution, flux, {r1, part.centre}).flux -
      (r0 > 0.0 ? solver::field_at(solution, flux, {r0, part.centre}).flux : 0.0);
  Demagnetisation made;
  made.apparent_permeability_middle = through / (pi * (r1 * r1 - r0 * r0)) / B0;
  if (mu == 1.0)
    return made;
  // N = (H0 - H) / M with M = (1 - 1/mu) B / mu0, H = B / (mu mu0), means over the section.
  made.ballistic = (1.0 - made.apparent_permeability_middle / mu) /
                   (made.apparent_permeability_middle * (1.0 - 1.0 / mu));
  if (!only_magnetic_body(solution, region))
    return made;
  const double lower = solution.bracket.lower[last],
               upper = lower + solution.bracket.gap(last, last);
  const auto factor = [&](double moment_times_B0)
  { return B0 * B0 / solver::mu0 * volume / moment_times_B0 - 1.0 / (mu - 1.0); };
  if (lower * upper > 0.0)
    made.magnetometric =
        Bounded{0.5 * (factor(lower) + factor(upper)), factor(upper), factor(lower)};
  return made;
}

std::vector<RegionResult> region_results(const solver::Solution& solution,
                                         const Eigen::VectorXd& currents)
{
  std::vector<RegionResult> regions(solution.layout.regions.size());
  for (std::size_t g = 0; g < regions.size(); ++g)
  {
    regions[g].name = solution.layout.regions[g].name;
    regions[g].permeability = solution.permeability[g];
  }
  add_volumes(solution, regions);
  add_peaks(solution, solver::driven_field(solution, currents), regions);
  if (solution.problem.background)
    for (const mesh::Part& part : solution.problem.scene.parts)
      for (std::size_t g = 0; g < regions.size(); ++g)
        if (regions[g].name == part.name)
          regions[g].demagnetisation = demagnetisation(solution, part, g, regions[g].volume);
  std::rotate(regions.begin(), regions.begin() + 1, regions.end()); // air last
  for (const auto& [name, share] : shares(solution, currents))
    for (RegionResult& region : regions)
      if (region.name == name)
        region.energy_share = share;
  return regions;
}

} // namespace

Result result(const solver::Solution& solution, const solver::Solution& air,
              std::span<const ProbePoint> probes)
{
  Result made;
  made.accuracy_asked = solution.problem.accuracy;
  made.accuracy_met = solution.accuracy_met;
  made.accuracy_reached = solution.accuracy_reached;
  made.limit = solution.limit;
  made.geometry_error = solution.geometry_error;
  const int windings = static_cast<int>(solution.problem.scene.windings.size());
  for (int w = 0; w < windings; ++w)
    made.windings.push_back(winding_result(solution, air, w));
  for (int i = 0; i < windings && windings > 1; ++i)
  {
    made.mutual.emplace_back();
    for (int j = 0; j < windings; ++j)
      made.mutual.back().push_back(i == j ? self_inductance(solution, i)
                                          : mutual_inductance(solution.bracket, i, j));
  }
  const Eigen::VectorXd currents = solver::drive(solution);
  made.regions = region_results(solution, currents);
  const solver::DrivenField flux = solver::driven_field(solution, currents);
  made.temperature = solution.problem.temperature;
  for (const ProbePoint& probe : probes)
  {
    const solver::FieldPoint f = solver::field_at(solution, flux, probe.at);
    made.probes.push_back({probe.name, probe.at.r, probe.at.z, f.B_r, f.B_z, f.H_r, f.H_z, f.flux,
                           solution.layout.regions[f.region].name});
  }
  made.gaps = gaps(solution);
  made.mesh = {static_cast<int>(solution.space.mesh.triangles.size()), solution.unknowns,
               solution.space.order, solution.refinements};
  const solver::Timing& t = solution.timing;
  made.seconds = {t.mesh, t.assemble, t.factor, t.bracket,
                  t.mesh + t.assemble + t.factor + t.bracket};
  return made;
}

bool in_parallel(const mesh::Winding& winding)
{
  const auto* turns = std::get_if<mesh::RoundTurns>(&winding.build);
  return turns && turns->parallel;
}

double series_turns(const mesh::Winding& winding)
{
  return in_parallel(winding) ? 1.0 : winding.turns;
}

std::optional<Wire> wire(const solver::Problem& problem, const mesh::Winding& winding)
{
  const auto* turns = std::get_if<mesh::RoundTurns>(&winding.build);
  const auto* block = std::get_if<mesh::Block>(&winding.build);
  if (!turns && block->strand_diameter == 0.0)
    return std::nullopt;
  const double copper =
      solver::conductivity(solver::material(problem, "copper"), problem.temperature);
  const double diameter = turns ? turns->wire_diameter : block->strand_diameter;
  const double per_metre = 1.0 / (copper * 0.25 * pi * diameter * diameter);
  Wire made;
  if (!turns)
  {
    made.length = winding.turns * 0.5 * pi * (block->inner_diameter + block->outer_diameter);
    made.dc_resistance = per_metre * made.length / block->strands;
    return made;
  }
  double conductance = 0.0;
  for (const mesh::Point& turn : mesh::turn_centres(winding))
  {
    made.length += 2.0 * pi * turn.r;
    conductance += 1.0 / (per_metre * 2.0 * pi * turn.r);
  }
  made.dc_resistance = in_parallel(winding) ? 1.0 / conductance : per_metre * made.length;
  return made;
}

solver::Problem in_air(const solver::Problem& problem)
{
  solver::Problem air = problem;
  for (auto& [name, material] : air.materials)
  {
    material.permeability = 1.0;
    material.magnetisation = nullptr;
  }
  return air;
}

} // namespace post
