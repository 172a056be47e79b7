// Materials looked up, then exact forms.
#include "cases/axial.hpp"

#include "mesh/layout.hpp"

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

} // namespace

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
