// Looking a material up by name, the two built-in ones included.
#include "solver/problem.hpp"

#include <stdexcept>

namespace solver
{

const Material& material(const Problem& problem, const std::string& name)
{
  static const Material air{};
  // Annealed copper at 20 degC: 58 MS/m and 8890 kg/m^3 [IEC 60028, from memory].
  static const Material copper{.permeability = 1.0, .conductivity = 58e6, .density = 8890.0};

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
