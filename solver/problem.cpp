// Looking a material up by name, the two built-in ones included.
#include "solver/problem.hpp"

#include "solver/interpolation.hpp"

#include <cmath>
#include <stdexcept>

namespace solver
{

std::complex<double> permeability(const Material& material, double frequency)
{
  if (material.table.empty())
    return {material.permeability, -material.imaginary};
  constexpr double round_off = 1e-12;
  if (frequency < material.table.front().frequency * (1.0 - round_off) ||
      frequency > material.table.back().frequency * (1.0 + round_off))
    throw std::out_of_range("the permeability table does not reach this frequency");
  std::vector<double> x, real, imaginary;
  for (const Dispersion& row : material.table)
  {
    x.push_back(std::log(row.frequency));
    real.push_back(row.real);
    imaginary.push_back(row.imaginary);
  }
  if (x.size() == 1)
    return {real[0], -imaginary[0]};
  const double at = std::log(frequency);
  return {monotone_cubic(x, real, at), -monotone_cubic(x, imaginary, at)};
}

double conductivity(const Material& material, double temperature)
{
  return material.conductivity /
         (1.0 + material.temperature_coefficient * (temperature - material.reference_temperature));
}

const Material& material(const Problem& problem, const std::string& name)
{
  // Still air at 20 degC conducts 0.026 W/(m K), copper 390: handbook values, from memory.
  static const Material air{.thermal_conductivity = 0.026};
  // Annealed copper at 20 degC: 58 MS/m, 0.00393 per kelvin and 8890 kg/m^3 [IEC 60028, from
  // memory].
  static const Material copper{.permeability = 1.0,
                               .conductivity = 58e6,
                               .temperature_coefficient = 0.00393,
                               .density = 8890.0,
                               .thermal_conductivity = 390.0};

  if (const auto found = problem.materials.find(name); found != problem.materials.end())
  {
    return found->second;
  }
  if (name == "air")
  {
    return air;
  }
  if (name == "copper")
  {
    return copper;
  }
  throw std::invalid_argument("no material is named \"" + name + "\"");
}

} // namespace solver
