// Points of a sweep from solutions and from reduced models.
#include "post/sweep.hpp"

#include "post/quantities.hpp"
#include "solver/solution.hpp"
#include "solver/solve.hpp"

#include <algorithm>
#include <future>

namespace post
{

namespace
{

/// A winding with its inductance in air; the inductance itself is left for a point to fill.
WindingResult fixed_part(const solver::Problem& problem, const mesh::Winding& winding,
                         const Bounded& air)
{
  WindingResult made;
  made.name = winding.name;
  made.turns = series_turns(winding);
  made.air_inductance = air;
  if (const std::optional<Wire> drawn = wire(problem, winding))
  {
    made.wire_length = drawn->length;
    made.dc_resistance = drawn->dc_resistance;
  }
  return made;
}

/// Whether the model itself answers for air: all that is magnetic is varied, from 1 or below.
bool holds_air(const solver::Problem& problem, const std::vector<solver::VariedMaterial>& varied)
{
  const auto is_open = [&](const std::string& name)
  {
    return std::any_of(varied.begin(), varied.end(),
                       [&](const solver::VariedMaterial& one)
                       { return one.material == name && one.from <= 1.0 && one.to >= 1.0; });
  };
  return std::all_of(problem.materials.begin(), problem.materials.end(),
                     [&](const auto& entry)
                     { return entry.second.permeability == 1.0 || is_open(entry.first); }) &&
         std::all_of(varied.begin(), varied.end(),
                     [&](const solver::VariedMaterial& one) { return is_open(one.material); });
}

std::vector<Bounded> in_air(const solver::Solution& air, std::size_t windings)
{
  std::vector<Bounded> list;
  for (std::size_t w = 0; w < windings; ++w)
  {
    const auto j = static_cast<Eigen::Index>(w);
    const double lower = air.bracket.lower[j], gap = air.bracket.gap(j, j);
    list.push_back({lower + 0.5 * gap, lower, lower + gap});
  }
  return list;
}

std::vector<Bounded> in_air(const solver::ReducedModel& model)
{
  const std::vector<double> ones(model.varied.size(), 1.0);
  std::vector<Bounded> list;
  for (const solver::ReducedWinding& winding : model.windings)
  {
    const solver::ReducedInductance L = solver::inductance(winding, ones);
    list.push_back({L.value(), L.lower, L.upper});
  }
  return list;
}

} // namespace

KeptModel kept_model(const solver::Problem& problem, std::vector<solver::VariedMaterial> varied,
                     int threads)
{
  const solver::Problem empty = in_air(problem);
  const bool from_model = holds_air(problem, varied);
  std::future<solver::Solution> air;
  if (!from_model)
    air = std::async(threads > 1 ? std::launch::async : std::launch::deferred, solver::solve,
                     std::cref(empty), 1);
  KeptModel made;
  made.accuracy_asked = problem.accuracy;
  made.model = solver::reduced_model(problem, std::move(varied), threads);
  const std::size_t windings = problem.scene.windings.size();
  const std::vector<Bounded> alone = from_model ? in_air(made.model) : in_air(air.get(), windings);
  for (std::size_t w = 0; w < windings; ++w)
    made.windings.push_back(fixed_part(problem, problem.scene.windings[w], alone[w]));
  return made;
}

SweptPoint at(const KeptModel& kept, std::span<const std::complex<double>> permeability)
{
  std::vector<double> real;
  for (const std::complex<double>& mu : permeability)
    real.push_back(mu.real());
  SweptPoint point;
  point.modelled = true;
  point.geometry_error = kept.model.geometry_error;
  for (std::size_t w = 0; w < kept.windings.size(); ++w)
  {
    const solver::ReducedInductance L = solver::inductance(kept.model.windings[w], real);
    WindingResult one = kept.windings[w];
    one.inductance = {L.value(), L.lower, L.upper};
    one.apparent_permeability = one.inductance.value / one.air_inductance.value;
    one.inductance_per_turn_squared = one.inductance.value / (one.turns * one.turns);
    for (std::size_t q = 0; q < kept.model.varied.size(); ++q)
      one.shares.emplace_back(kept.model.varied[q].material, L.slope[q] / L.value());
    point.accuracy_met =
        std::max(point.accuracy_met, 0.5 * (L.upper - L.lower) / one.inductance.value);
    point.windings.push_back(std::move(one));
  }
  point.accuracy_reached = point.accuracy_met + point.geometry_error <= kept.accuracy_asked;
  if (kept.impedance)
  {
    Result there;
    there.frequencies = {at(*kept.impedance, permeability)};
    point.accuracy_reached =
        point.accuracy_reached && there.frequencies.front().accuracy_met <= kept.accuracy_asked;
    point.quantities = swept_quantities(there);
  }
  return point;
}

SweptPoint at(const KeptModel& kept, std::span<const double> permeability)
{
  const std::vector<std::complex<double>> same(permeability.begin(), permeability.end());
  return at(kept, same);
}

SweptPoint swept_point(const Result& result)
{
  SweptPoint point;
  point.accuracy_reached = result.accuracy_reached;
  point.accuracy_met = result.accuracy_met;
  point.geometry_error = result.geometry_error;
  point.windings = result.windings;
  point.mutual = result.mutual;
  point.quantities = swept_quantities(result);
  for (const FrequencyResult& at : result.frequencies)
    point.accuracy_reached = point.accuracy_reached && at.accuracy_reached;
  for (const BiasPoint& at : result.bias.points)
    point.accuracy_reached = point.accuracy_reached && at.accuracy_reached;
  return point;
}

} // namespace post
