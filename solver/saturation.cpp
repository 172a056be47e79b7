// Newton's method on both sides of one mesh, bracket of the coenergy, refinement; then a list.
#include "solver/saturation.hpp"

#include "mesh/mesher.hpp"
#include "solver/adaptivity.hpp"
#include "solver/at_once.hpp"
#include "solver/factor.hpp"
#include "solver/floors.hpp"
#include "solver/memory.hpp"
#include "solver/minimum.hpp"
#include "solver/saturation_sums.hpp"
#include "solver/sides.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <stdexcept>

namespace solver
{

namespace
{

/// Share of the energy below which a step of Newton's method is the last: far below the gap. The
/// flux side, where the next current begins, settles further: the field side's knees cost steps.
double settled(const Problem& problem, Side side)
{
  return std::max(1e-13, (side == Side::flux ? 1e-5 : 1e-3) * problem.accuracy);
}

std::vector<RegionLaw> laws(const Problem& problem, const mesh::Layout& layout)
{
  std::vector<RegionLaw> list;
  for (const mesh::Region& region : layout.regions)
  {
    const Material& of = material(problem, region.material);
    list.push_back({of.permeability, of.magnetisation.get()});
  }
  return list;
}

std::shared_ptr<const Stage> stage(const Problem& problem, const mesh::Layout& layout,
                                   const mesh::Mesh& mesh, double geometry_error)
{
  auto made = std::make_shared<Stage>();
  made->layout = layout;
  made->laws = laws(problem, layout);
  made->space = space(mesh, order_for(problem.accuracy));
  made->sources =
      sources(made->space, layout, static_cast<int>(problem.scene.windings.size()), std::nullopt);
  made->unit = unit_matrices(made->space);
  made->geometry_error = geometry_error;
  return made;
}

/// H of the flux side wherever there is a curve.
CurvedFields strengths(const ConvexEnergy& energy, const Eigen::VectorXd& psi)
{
  ConvexEnergy::Curves at = energy.state(psi).curves;
  for (std::size_t k = 0; k < at.X.size(); ++k)
    for (Eigen::Index c = 0; c < at.X[k].cols(); ++c)
      if (const double b = at.X[k].col(c).norm(); b > 0.0)
        at.X[k].col(c) *= at.at[k][static_cast<std::size_t>(c)].first / b;
  return at.X;
}

/// Factors whose orderings serve every field on one space.
struct Factors
{
  Factor flux, field;
};

/// Both sides on the stage and the bracket between them.
void solve_on_stage(Saturated& s, const Saturated* start, Factors& factors)
{
  const Stage& on = *s.stage;
  const double B0 = s.problem.background.value_or(0.0);
  Eigen::VectorXd from = Eigen::VectorXd::Zero(on.space.count);
  if (start && start->stage == s.stage)
    from = start->flux + start->flux_response * (s.currents - start->currents);
  const ConvexEnergy flux({on.space, on.layout, on.laws, on.sources, B0, on.unit.over_r},
                          s.currents, Side::flux);
  Minimum psi =
      minimum(flux, std::move(from), {}, settled(s.problem, Side::flux), 60, factors.flux);
  const ConvexEnergy field({on.space, on.layout, on.laws, on.sources, B0, on.unit.times_r},
                           s.currents, Side::field);
  Minimum phi = minimum(field, Eigen::VectorXd::Zero(on.space.count), strengths(flux, psi.values),
                        settled(s.problem, Side::field), 15, factors.field);
  s.flux = std::move(psi.values);
  s.flux_response = std::move(psi.responses);
  s.potential = std::move(phi.values);
  s.decrements = std::move(psi.decrements);
  s.steps = std::move(psi.steps);
  s.iterations += static_cast<int>(s.decrements.size() + phi.decrements.size());
  s.unknowns = psi.unknowns + phi.unknowns;
  sum_up(s, phi.responses);
  const double middle = std::abs(0.5 * (s.lower + s.upper));
  s.accuracy_met = middle > 0.0 ? 0.5 * (s.upper - s.lower) / middle : 0.0;
  if (!std::isfinite(s.accuracy_met))
    throw std::runtime_error("the saturating field is not finite: materials too far apart");
  s.accuracy_reached = s.accuracy_met + round_off + on.geometry_error <= s.problem.accuracy;
}

/// A finer mesh that does not fold and that memory can hold, where there is one.
bool refine(Saturated& s, Factors& factors)
{
  const Stage& on = *s.stage;
  std::vector<double> contrast;
  for (const RegionLaw& law : on.laws)
    contrast.push_back(law.permeability);
  Saturated next = s;
  ++next.refinements;
  s.limit = solved_finer(
      on.space, s.gap / std::abs(0.5 * (s.lower + s.upper)), contrast, 2.0 * s.problem.accuracy,
      [&](const mesh::Mesh& mesh)
      {
        std::string lacking = MemoryShare::lacking(
            {mesh.triangles.size(), order_for(s.problem.accuracy), on.sources.size()});
        if (lacking.empty())
        {
          next.stage = stage(s.problem, on.layout, mesh, on.geometry_error);
          factors = {};
          solve_on_stage(next, nullptr, factors);
        }
        return lacking;
      });
  if (!s.limit.empty())
    return false;
  s = std::move(next);
  return true;
}

void refine_until_reached(Saturated& s, const Saturated* start, Factors& factors)
{
  solve_on_stage(s, start, factors);
  for (std::vector<double> widths; !s.accuracy_reached;)
  {
    widths.push_back(s.accuracy_met);
    s.limit = floor_met(s.refinements, s.unknowns, widths);
    if (!s.limit.empty() || !refine(s, factors))
      return;
  }
}

Saturated solved(const Problem& problem, const Eigen::VectorXd& currents, const Saturated* start,
                 Factors& factors, const mesh::Mesh* begin = nullptr)
{
  if (problem.scene.windings.empty() && !problem.background)
    throw std::invalid_argument("nothing to solve: no winding and no background field");
  Saturated s;
  s.problem = problem;
  s.currents = currents;
  if (start)
    s.stage = start->stage;
  else
  {
    const mesh::Layout layout = mesh::layout(problem.scene);
    const mesh::Mesh mesh = begin ? *begin : mesh::coarse_mesh(layout);
    s.stage = stage(problem, layout, mesh, curve_error(mesh));
  }
  refine_until_reached(s, start, factors);
  return s;
}

} // namespace

bool saturates(const Problem& problem)
{
  const mesh::Layout layout = mesh::layout(problem.scene);
  return std::any_of(layout.regions.begin(), layout.regions.end(),
                     [&problem](const mesh::Region& region)
                     { return material(problem, region.material).magnetisation != nullptr; });
}

Saturated solve_saturated(const Problem& problem, const Eigen::VectorXd& currents,
                          const Saturated* start)
{
  Factors factors;
  return solved(problem, currents, start, factors);
}

std::vector<Saturated> saturation_curve(const Problem& problem,
                                        const std::vector<Eigen::VectorXd>& currents, int threads,
                                        const mesh::Mesh* mesh)
{
  std::vector<std::size_t> order(currents.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b)
                   { return currents[a].norm() < currents[b].norm(); });
  std::vector<Saturated> all(currents.size());
  if (all.empty())
    return all;
  // The mesh is refined for the largest current; what lies below seldom needs more.
  Factors factors;
  all[order.back()] = solved(problem, currents[order.back()], nullptr, factors, mesh);
  if (all.size() == 1)
    return all;
  // Always two runs, so that the numbers do not depend on the threads: one up from the smallest
  // current, one down from the largest. The way up has the knees of curves, which cost steps.
  const std::size_t last = all.size() - 1, up = (2 * last + 4) / 5;
  at_once(2, threads,
          [&](std::size_t run)
          {
            Factors own;
            const Saturated* before = &all[order[last]];
            for (std::size_t i = 0; i < (run == 0 ? up : last - up); ++i)
            {
              const std::size_t at = order[run == 0 ? i : last - 1 - i];
              all[at] = solved(problem, currents[at], before, own);
              before = &all[at];
            }
          });
  return all;
}

} // namespace solver
