// What lies inside each winding, then exact forms, or the field where it conducts.
#include "cases/axial.hpp"
#include "cases/toroid_core.hpp"

#include "mesh/layout.hpp"
#include "mesh/mesher.hpp"
#include "post/toroid_bias.hpp"
#include "solver/at_once.hpp"
#include "solver/toroid.hpp"

#include <algorithm>
#include <cmath>

namespace cases
{

namespace
{

using Complex = std::complex<double>;
constexpr double two_pi = 2.0 * std::numbers::pi;

/// int mu / r over all sections [m], mu relative.
template <class Law> auto section_integral(const std::vector<CoreSection>& sections, const Law& law)
{
  auto sum = 0.0 * law(sections.front().material);
  for (const CoreSection& one : sections)
  {
    const auto mu = law(one.material);
    sum += (one.in_place_of ? mu - law(*one.in_place_of) : mu) * post::toroid_integral(one.outline);
  }
  return sum;
}

post::BiasWinding at_bias(const Toroid& toroid, const post::ToroidAtBias& at, double current)
{
  const double low = 1.0 - at.relative_error, high = 1.0 + at.relative_error;
  const double L = current == 0.0 ? at.incremental_inductance : at.flux_linkage / current;
  post::BiasWinding one;
  one.name = toroid.name;
  one.current = current;
  one.secant_inductance = {L, low * L, high * L};
  one.flux_linkage = {L * current, std::min(low * L * current, high * L * current),
                      std::max(low * L * current, high * L * current)};
  one.incremental_inductance = at.incremental_inductance;
  return one;
}

post::ToroidAtBias at_current(double turns, const mesh::Outline& section,
                              const solver::Material& material, double I)
{
  if (material.magnetisation)
  {
    return post::toroid_at_bias(section, turns, I, *material.magnetisation);
  }
  const double L =
      post::toroid("", turns, post::toroid_integral(section), material.permeability, 0.0)
          .inductance;
  return {L * I, L, 0.5 * L * I * I, 0.5 * L * I * I, 0.0};
}

/// Sections add up, what they take the place of taken off: H = N I / (2 pi r) in all.
post::ToroidAtBias at_current(double turns, const std::vector<CoreSection>& sections,
                              const solver::Problem& problem, double I)
{
  post::ToroidAtBias sum;
  double parts = 0.0;
  const auto add = [&](const mesh::Outline& outline, const std::string& name, double sign)
  {
    const post::ToroidAtBias one = at_current(turns, outline, solver::material(problem, name), I);
    sum.flux_linkage += sign * one.flux_linkage;
    sum.incremental_inductance += sign * one.incremental_inductance;
    sum.coenergy += sign * one.coenergy;
    sum.stored_energy += sign * one.stored_energy;
    sum.peak_flux_density = std::max(sum.peak_flux_density, one.peak_flux_density);
    parts += one.coenergy;
  };
  for (const CoreSection& one : sections)
  {
    add(one.outline, one.material, 1.0);
    if (one.in_place_of)
    {
      add(one.outline, *one.in_place_of, -1.0);
    }
  }
  // Each part errs by so much of itself, not of their sum.
  sum.relative_error = post::toroid_quadrature * (sum.coenergy > 0.0 ? parts / sum.coenergy : 1.0);
  return sum;
}

/// Exact: at rest, where nothing conducts, and in tubes of one material.
std::optional<Complex> exact_integral(const mesh::Scene& core,
                                      const std::vector<CoreSection>& sections,
                                      const solver::Problem& problem, double frequency)
{
  const auto law = [&](const std::string& name)
  {
    const solver::Material& of = solver::material(problem, name);
    return frequency > 0.0 ? solver::permeability(of, frequency) : Complex(of.permeability);
  };
  const auto sigma = [&](const std::string& name)
  { return solver::conductivity(solver::material(problem, name), problem.temperature); };
  if (frequency == 0.0 || std::ranges::none_of(sections, [&](const CoreSection& one)
                                               { return sigma(one.material) > 0.0; }))
  {
    return section_integral(sections, law);
  }
  const auto* tube = std::get_if<mesh::Tube>(&core.parts.front().shape);
  if (sections.size() > 1 || tube == nullptr)
  {
    return std::nullopt;
  }
  const std::string& material = sections.front().material;
  const Complex mu = law(material), j_omega{0.0, two_pi * frequency};
  return mu * post::conducting_toroid_integral(0.5 * tube->inner_diameter,
                                               0.5 * tube->outer_diameter, tube->length,
                                               j_omega * solver::mu0 * mu * sigma(material));
}

post::ToroidResult from_field(const Toroid& toroid, const mesh::Layout& layout,
                              const solver::ToroidCore& core)
{
  const double n2 = toroid.turns * toroid.turns, omega = two_pi * core.frequency;
  post::ToroidResult made;
  made.name = toroid.name;
  made.turns = toroid.turns;
  made.resistance = n2 * core.impedance.real();
  made.inductance = n2 * core.impedance.imag() / omega;
  made.disc = n2 * core.disc;
  made.accuracy_met = core.accuracy_met;
  made.accuracy_reached = core.accuracy_reached;
  made.limit = core.limit;
  for (std::size_t g = 1; g < layout.regions.size(); ++g)
  {
    made.by_body.emplace_back(layout.regions[g].name, n2 * core.region_resistance[g]);
  }
  return made;
}

/// One toroid at all frequencies.
std::vector<post::ToroidResult> over_frequency(const Toroid& toroid, const solver::Problem& problem,
                                               std::span<const double> frequencies, int threads)
{
  const mesh::Scene core = toroid_core(toroid, problem.scene);
  const mesh::Layout layout = mesh::layout(core);
  const std::vector<CoreSection> all = core_sections(layout);
  std::vector<post::ToroidResult> list(frequencies.size());
  std::vector<std::size_t> left;
  for (std::size_t i = 0; i < frequencies.size(); ++i)
  {
    if (const auto integral = exact_integral(core, all, problem, frequencies[i]))
    {
      list[i] = post::toroid(toroid.name, toroid.turns, *integral, 1.0, frequencies[i]);
    }
    else
    {
      left.push_back(i);
    }
  }
  if (left.empty())
  {
    return list;
  }
  const mesh::Mesh mesh = mesh::coarse_mesh(layout);
  solver::at_once(left.size(), threads,
                  [&](std::size_t i)
                  {
                    list[left[i]] = from_field(
                        toroid, layout,
                        solver::solve_toroid(problem, layout, mesh, frequencies[left[i]]));
                  });
  return list;
}

} // namespace

void add_toroids(const std::vector<Toroid>& toroids, const solver::Problem& problem,
                 post::BiasCurve& curve)
{
  if (toroids.empty())
  {
    return;
  }
  const std::vector<solver::Bias> points = post::working_points(problem);
  if (curve.points.empty())
  {
    for (const solver::Bias& bias : points)
    {
      curve.points.emplace_back();
      curve.points.back().current = bias.current;
    }
  }
  for (const Toroid& toroid : toroids)
  {
    const std::vector<CoreSection> core =
        core_sections(mesh::layout(toroid_core(toroid, problem.scene)));
    for (std::size_t i = 0; i < curve.points.size(); ++i)
    {
      const double I = points[i].current;
      const post::ToroidAtBias at = at_current(toroid.turns, core, problem, I);
      post::BiasPoint& point = curve.points[i];
      point.windings.push_back(at_bias(toroid, at, I));
      point.stored_energy += at.stored_energy;
      point.coenergy.value += at.coenergy;
      point.coenergy.lower += at.coenergy * (1.0 - at.relative_error);
      point.coenergy.upper += at.coenergy * (1.0 + at.relative_error);
    }
  }
}

std::vector<std::vector<post::ToroidResult>> toroid_results(const std::vector<Toroid>& toroids,
                                                            const solver::Problem& problem,
                                                            std::span<const double> frequencies,
                                                            int threads)
{
  std::vector<std::vector<post::ToroidResult>> list(frequencies.size());
  for (const Toroid& toroid : toroids)
  {
    const std::vector<post::ToroidResult> one =
        over_frequency(toroid, problem, frequencies, threads);
    for (std::size_t i = 0; i < list.size(); ++i)
    {
      list[i].push_back(one[i]);
    }
  }
  return list;
}

} // namespace cases
