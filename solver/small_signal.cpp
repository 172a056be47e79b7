// A ripple about a bias: the harmonic problem, with each curve's tangent in place of its
// reluctivity.
#include "solver/saturation.hpp"

#include "solver/harmonic_mesh.hpp"

#include <stdexcept>

namespace solver
{

Eigen::MatrixXcd small_signal(const Saturated& bias, double frequency)
{
  if (!(frequency > 0.0))
    throw std::invalid_argument("a frequency must be positive");
  const Stage& on = *bias.stage;
  Harmonic given = harmonic_of(bias.problem, on.layout, frequency);
  given.problem.background.reset(); // it does not ripple
  given.space = on.space;
  const ConvexEnergy energy({on.space, on.layout, on.laws, on.sources,
                             bias.problem.background.value_or(0.0), on.unit.over_r},
                            bias.currents, Side::flux);
  const ConvexEnergy::Expansion at = energy.expansion(energy.state(bias.flux));
  std::vector<Eigen::MatrixXd> tangent;
  for (std::size_t k = 0; k < on.space.mesh.triangles.size(); ++k)
  {
    const bool curved =
        on.laws[static_cast<std::size_t>(on.space.mesh.triangles[k].region)].curve != nullptr;
    tangent.push_back(curved ? energy.matrix(static_cast<int>(k), at) : Eigen::MatrixXd());
  }
  return impedance_under_bias(given, tangent);
}

} // namespace solver
