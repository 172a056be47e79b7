// Both factors from the impedance of the strand's own current.
#include "post/strands.hpp"

#include "post/axial.hpp"
#include "solver/problem.hpp"

#include <cmath>

namespace post
{

StrandLoss strand_loss(double diameter, double conductivity, double frequency)
{
  constexpr double two_pi = 2.0 * std::numbers::pi;
  const WireResult own = wire_at({{0.5 * diameter, 1.0, conductivity}}, frequency);
  const double omega = two_pi * frequency;
  const std::complex<double> Z{own.resistance, omega * own.inductance};
  // Z' = j omega mu0 J0(z) / (-2 pi z J1(z)), so z J1 / J0 needs no other function.
  const std::complex<double> ratio = std::complex<double>(0.0, omega * solver::mu0) / (two_pi * Z);
  const double at_rest = 1.0 / (conductivity * 0.25 * std::numbers::pi * diameter * diameter);
  return {own.resistance / at_rest, two_pi * std::abs(ratio.real())};
}

} // namespace post
