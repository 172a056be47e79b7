// Materials looked up, then exact forms.
#include "cases/axial.hpp"

#include "mesh/layout.hpp"
#include "post/toroid_bias.hpp"

#include <algorithm>

namespace cases
{

namespace
{

std::complex<double> law(const solver::Material& material, double frequency)
{
  return frequency > 0.0 ? solver::permeability(material, frequency)
                         : std::complex<double>(material.permeability);
}

/// int 1/r of the part's section, eddy currents in it counted.
std::complex<double> section_integral(const mesh::Part& part, const solver::Material& material,
                                      double temperature, double frequency)
{
  const double sigma = solver::conductivity(material, temperature);
  const auto* tube = std::get_if<mesh::Tube>(&part.shape);
  if (frequency == 0.0 || sigma == 0.0 || tube == nullptr)
  {
    return post::toroid_integral(mesh::outline(part));
  }
  const std::complex<double> j_omega{0.0, 2.0 * std::numbers::pi * frequency};
  return post::conducting_toroid_integral(0.5 * tube->inner_diameter, 0.5 * tube->outer_diameter,
                                          tube->length,
                                          j_omega * solver::mu0 * law(material, frequency) * sigma);
}

post::BiasWinding at_bias(const Toroid& toroid, const post::ToroidAtBias& at, double current)
{
  constexpr double low = 1.0 - post::toroid_quadrature, high = 1.0 + post::toroid_quadrature;
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

post::ToroidAtBias at_current(const Toroid& toroid, const mesh::Part& part,
                              const solver::Material& material, double I)
{
  const mesh::Outline section = mesh::outline(part);
  if (material.magnetisation)
  {
    return post::toroid_at_bias(section, toroid.turns, I, *material.magnetisation);
  }
  const double L = post::toroid(toroid.name, toroid.turns, post::toroid_integral(section),
                                material.permeability, 0.0)
                       .inductance;
  return {L * I, L, 0.5 * L * I * I, 0.5 * L * I * I, 0.0};
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
  for (std::size_t i = 0; i < curve.points.size(); ++i)
  {
    for (const Toroid& toroid : toroids)
    {
      const auto part = std::ranges::find(problem.scene.parts, toroid.around, &mesh::Part::name);
      const solver::Material& material = solver::material(problem, part->material);
      const double I = points[i].current;
      const post::ToroidAtBias at = at_current(toroid, *part, material, I);
      post::BiasPoint& point = curve.points[i];
      point.windings.push_back(at_bias(toroid, at, I));
      point.stored_energy += at.stored_energy;
      point.coenergy.value += at.coenergy;
      point.coenergy.lower += at.coenergy * (1.0 - post::toroid_quadrature);
      point.coenergy.upper += at.coenergy * (1.0 + post::toroid_quadrature);
    }
  }
}

std::vector<post::WireResult> wire_results(const std::vector<StraightWire>& wires,
                                           const solver::Problem& problem, double frequency)
{
  std::vector<post::WireResult> list;
  for (const StraightWire& wire : wires)
  {
    const auto layer = [&](const std::string& name, double radius)
    {
      const solver::Material& material = solver::material(problem, name);
      return post::WireLayer{radius, law(material, frequency),
                             solver::conductivity(material, problem.temperature)};
    };
    double radius = 0.5 * wire.diameter;
    std::vector<post::WireLayer> layers = {layer(wire.material, radius)};
    for (const mesh::Coating& coating : wire.coatings)
    {
      radius += coating.thickness;
      layers.push_back(layer(coating.material, radius));
    }
    list.push_back(frequency > 0.0 ? post::wire_at(layers, frequency) : post::wire_at_rest(layers));
    list.back().name = wire.name;
    list.back().length = wire.length;
  }
  return list;
}

std::vector<post::ToroidResult> toroid_results(const std::vector<Toroid>& toroids,
                                               const solver::Problem& problem, double frequency)
{
  std::vector<post::ToroidResult> list;
  for (const Toroid& toroid : toroids)
  {
    const auto part = std::ranges::find(problem.scene.parts, toroid.around, &mesh::Part::name);
    const solver::Material& material = solver::material(problem, part->material);
    list.push_back(post::toroid(toroid.name, toroid.turns,
                                section_integral(*part, material, problem.temperature, frequency),
                                law(material, frequency), frequency));
  }
  return list;
}

} // namespace cases
