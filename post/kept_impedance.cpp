// The span's impedance, the wire's own resistance, proximity from the field in plain sections.
#include "post/kept_impedance.hpp"

#include <numbers>

namespace post
{

KeptImpedance kept_impedance(const solver::Problem& problem, std::vector<std::string> varied,
                             const std::vector<std::vector<std::complex<double>>>& points,
                             int threads)
{
  KeptImpedance made{solver::impedance_model(problem, std::move(varied), points, threads), {}, {}};
  for (const mesh::Winding& winding : problem.scene.windings)
  {
    made.windings.push_back(winding.name);
    made.own.push_back(own_loss(problem, winding, made.model.fixed.frequency));
  }
  return made;
}

FrequencyResult at(const KeptImpedance& kept, std::span<const std::complex<double>> permeability)
{
  const solver::HarmonicState state = solver::state(kept.model, permeability);
  const solver::SpanNumbers numbers = solver::at(kept.model.span, state);
  const double omega = 2.0 * std::numbers::pi * state.frequency;
  FrequencyResult made;
  made.frequency = state.frequency;
  made.accuracy_met = numbers.accuracy_met(state.frequency);
  made.unknowns = kept.model.unknowns;
  for (std::size_t w = 0; w < kept.windings.size(); ++w)
  {
    const auto i = static_cast<Eigen::Index>(w);
    double near = 0.0;
    for (std::size_t v = 0; v < kept.own.size(); ++v)
      if (kept.own[v].proximity_factor > 0.0)
        near += kept.own[v].proximity_factor *
                solver::strand_field(kept.model.span, numbers, static_cast<int>(v), i, i).real();
    WindingImpedance one;
    one.name = kept.windings[w];
    one.omega = omega;
    one.wire_resistance = kept.own[w].wire;
    one.skin_resistance = kept.own[w].skin;
    if (near > 0.0)
      one.proximity_resistance = near;
    one.resistance = numbers.impedance(i, i).real() + kept.own[w].wire.value_or(0.0) +
                     kept.own[w].skin.value_or(0.0) + near;
    one.inductance = numbers.impedance(i, i).imag() / omega;
    one.disc = omega * numbers.error_energy[i];
    made.windings.push_back(std::move(one));
  }
  return made;
}

} // namespace post
