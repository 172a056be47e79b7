// Both sides of a toroid's core, the disc, refinement where it is wide.
#include "solver/toroid.hpp"

#include "solver/adaptivity.hpp"
#include "solver/floors.hpp"
#include "solver/harmonic.hpp"
#include "solver/harmonic_mesh.hpp"
#include "solver/memory.hpp"
#include "solver/toroid_mesh.hpp"

#include <cmath>
#include <stdexcept>
#include <utility>

namespace solver
{

namespace
{

constexpr double two_pi = 2.0 * std::numbers::pi;

MeshSize size_of(const ToroidCore& core, const mesh::Mesh& mesh)
{
  return {mesh.triangles.size(), order_for(core.accuracy), 1, true};
}

/// @return Shares of both residuals, relative to the form.
Eigen::VectorXd solve_on_mesh(ToroidCore& core, const mesh::Mesh& mesh)
{
  core.space = space(mesh, order_for(core.accuracy));
  ToroidMesh found = toroid_mesh(core);
  core.share = std::move(found.share);
  core.unknowns = found.unknowns;
  constexpr double to_one_turn = 1.0 / (two_pi * two_pi);
  core.impedance = found.form * to_one_turn;
  core.region_resistance = std::move(found.region_loss);
  for (double& part : core.region_resistance)
    part *= to_one_turn;
  // j conj a(e, conj e) is of the disc's kind: permeability in place of reluctivity.
  core.disc = to_one_turn * error_bound(std::sqrt(found.zeta.sum()), std::sqrt(found.eta.sum()),
                                        loss_cosine(core.permeability));
  core.accuracy_met = core.disc / std::abs(core.impedance);
  if (!std::isfinite(core.accuracy_met))
    throw std::runtime_error("the current in a toroid's core is not finite: sizes too far apart");
  core.accuracy_reached = core.accuracy_met <= core.accuracy;
  return (found.eta + found.zeta) / std::abs(found.form);
}

/// A finer mesh that does not fold and that memory can hold, where there is one.
bool refine(ToroidCore& core, Eigen::VectorXd& indicator)
{
  ToroidCore next = core;
  ++next.refinements;
  core.limit = solved_finer(core.space, indicator, core.conductivity, core.accuracy / 1.5,
                            [&](const mesh::Mesh& mesh)
                            {
                              std::string lacking = MemoryShare::lacking(size_of(core, mesh));
                              if (lacking.empty())
                                indicator = solve_on_mesh(next, mesh);
                              return lacking;
                            });
  if (!core.limit.empty())
    return false;
  core = std::move(next);
  return true;
}

} // namespace

ToroidCore solve_toroid(const Problem& problem, const mesh::Layout& layout,
                        const mesh::Mesh& coarse, double frequency)
{
  if (!(frequency > 0.0))
    throw std::invalid_argument("a frequency must be positive");
  ToroidCore core;
  core.frequency = frequency;
  core.accuracy = problem.accuracy;
  const Harmonic materials = harmonic_of(problem, layout, frequency);
  core.permeability = materials.permeability;
  core.conductivity = materials.conductivity;
  const MemoryShare share;
  MemoryShare::require(size_of(core, coarse));
  Eigen::VectorXd indicator = solve_on_mesh(core, coarse);
  for (std::vector<double> widths; !core.accuracy_reached;)
  {
    widths.push_back(core.accuracy_met);
    core.limit = floor_met(core.refinements, core.unknowns, widths);
    if (!core.limit.empty() || !refine(core, indicator))
      break;
  }
  return core;
}

} // namespace solver
