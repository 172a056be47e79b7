// The options of `mix`; main.cpp declares them and help.cpp prints them from this one list.
#include "cases/mix.hpp"

#include <array>

namespace cases
{

std::span<const MixOption> mix_options()
{
  static constexpr std::array<MixOption, 10> options = {{
      {"--particle", "MU", "relative permeability of a particle, mu'"},
      {"--effective", "MU", "relative permeability of the powder as a whole, mu'"},
      {"--imaginary", "MU", "mu'' of whichever of these two is given (mu' - j mu'')"},
      {"--packing", "SHARE", "filled share of the volume: 0.6 or \"60 %\""},
      {"--tap-density", "RHO", "density of the powder as it lies: \"2.9 g/cm3\""},
      {"--grain-density", "RHO", "density of a particle, pores not counted as air"},
      {"--mass", "M", "mass of the powder, or of it with its vessel: \"29 g\""},
      {"--tare", "M", "mass of the empty vessel, taken off --mass"},
      {"--volume", "V", "volume the powder fills: \"10 cm3\""},
      {"--rule", "NAME", "only this rule"},
  }};
  return options;
}

} // namespace cases
