// Materials looked up, then exact forms.
#include "cases/axial.hpp"

namespace cases
{

namespace
{

std::complex<double> law(const solver::Material& material, double frequency)
{
  return frequency > 0.0 ? solver::permeability(material, frequency)
                         : std::complex<double>(material.permeability);
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

} // namespace cases
