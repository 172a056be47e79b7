// Offline: mesh, snapshots, small matrices. Online: two small systems.
#include "solver/reduced_model.hpp"

#include "solver/adaptivity.hpp"
#include "solver/bracket.hpp"
#include "solver/sides.hpp"
#include "solver/solution.hpp"
#include "solver/solve.hpp"

#include <Eigen/Cholesky>
#include <Eigen/QR>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

namespace solver
{

namespace
{

using Values = std::vector<double>; ///< Permeabilities, one a varied material.

Problem with(Problem problem, const std::vector<VariedMaterial>& varied, const Values& at)
{
  for (std::size_t q = 0; q < varied.size(); ++q)
    problem.materials[varied[q].material].permeability = at[q];
  return problem;
}

/// Logarithmic grid over the ranges, `count` values a material.
std::vector<Values> grid(const std::vector<VariedMaterial>& varied, int count)
{
  std::vector<Values> all = {{}};
  for (const VariedMaterial& one : varied)
  {
    std::vector<Values> longer;
    for (const Values& start : all)
      for (int i = 0; i < count; ++i)
      {
        Values next = start;
        next.push_back(one.from * std::pow(one.to / one.from, i / (count - 1.0)));
        longer.push_back(std::move(next));
      }
    all = std::move(longer);
  }
  return all;
}

/// Index of the varied material of each region, counted from 1; 0 for what stays fixed.
std::vector<std::size_t> groups(const Solution& s, const std::vector<VariedMaterial>& varied)
{
  std::vector<std::size_t> list;
  for (const mesh::Region& region : s.layout.regions)
  {
    std::size_t q = 0;
    while (q < varied.size() && varied[q].material != region.material)
      ++q;
    list.push_back(q == varied.size() ? 0 : q + 1);
  }
  return list;
}

/// Columns that span the same, orthonormal as vectors; directions lost in round-off dropped.
Eigen::MatrixXd orthonormal(const Eigen::MatrixXd& columns)
{
  Eigen::ColPivHouseholderQR<Eigen::MatrixXd> qr(columns);
  qr.setThreshold(1e-12);
  const Eigen::Index rank = columns.isZero(0.0) ? 0 : qr.rank();
  return qr.householderQ() * Eigen::MatrixXd::Identity(columns.rows(), rank);
}

/// Both fields for one set of permeabilities.
struct Snapshot
{
  Values at;
  Eigen::MatrixXd flux, potential;
};

/// The snapshots of one mesh and what they add up to.
class Family
{
public:
  /// @param known  Snapshots there are already.
  Family(const Solution& solution, const std::vector<VariedMaterial>& varied, int threads,
         std::vector<Snapshot> known)
      : _solution(solution), _varied(varied), _groups(groups(solution, varied)),
        _sources(sources(solution.space, solution.layout,
                         static_cast<int>(solution.problem.scene.windings.size()), {})),
        _shared{solution.space, solution.layout, _sources,
                solution.unit
                    ? solution.unit
                    : std::make_shared<const UnitElements>(unit_elements(solution.space, threads))},
        _factors(solution.factors ? solution.factors : std::make_shared<SideFactors>()),
        _threads(threads), _known(std::move(known))
  {
    const Values ones(_groups.size(), 1.0); // without a background loads know no permeability
    for (const Source& source : _sources)
      _loads.push_back(flux_load(solution.space, solution.layout, source, ones));
  }

  void add(const Values& at)
  {
    const auto known = std::ranges::find(_known, at, &Snapshot::at);
    if (known != _known.end())
    {
      _snapshots.push_back(*known);
      return;
    }
    Values permeability = _solution.permeability;
    for (std::size_t g = 0; g < permeability.size(); ++g)
      if (_groups[g] > 0)
        permeability[g] = at[_groups[g] - 1];
    Sides sides = both_sides(_shared, permeability, _threads, *_factors);
    _snapshots.push_back({at, std::move(sides.flux), std::move(sides.potential)});
  }

  ReducedWinding winding(std::size_t w) const
  {
    const Snapshot& first = _snapshots.front();
    const auto n = static_cast<Eigen::Index>(_snapshots.size()),
               column = static_cast<Eigen::Index>(w);
    Eigen::MatrixXd flux(first.flux.rows(), n), change(first.potential.rows(), n - 1);
    for (Eigen::Index i = 0; i < n; ++i)
    {
      flux.col(i) = _snapshots[i].flux.col(column);
      if (i > 0)
        change.col(i - 1) = _snapshots[i].potential.col(column) - first.potential.col(column);
    }
    flux = orthonormal(flux);
    const Eigen::MatrixXd changes = n > 1 ? orthonormal(change) : change;
    Eigen::MatrixXd potential(first.potential.rows(), changes.cols() + 1);
    potential << first.potential.col(column), changes;
    return filled(w, flux, potential);
  }

private:
  /// Region by region energies of the spanning fields, gathered by material.
  ReducedWinding filled(std::size_t w, const Eigen::MatrixXd& flux,
                        const Eigen::MatrixXd& potential) const
  {
    const Eigen::Index n = std::max(flux.cols(), potential.cols());
    Eigen::MatrixXd psi = Eigen::MatrixXd::Zero(flux.rows(), n),
                    phi = Eigen::MatrixXd::Zero(flux.rows(), n);
    psi.leftCols(flux.cols()) = flux;
    phi.leftCols(potential.cols()) = potential;
    Source none = _sources[w]; // only the first potential comes with the current
    std::fill(none.ampere_turns.begin(), none.ampere_turns.end(), 0.0);
    std::fill(none.offset.begin(), none.offset.end(), Eigen::Vector3d::Zero());
    std::vector<Source> carried(static_cast<std::size_t>(n), none);
    carried.front() = _sources[w];
    const Values ones(_groups.size(), 1.0);
    const Bracket energies = bracket(_solution.space, _solution.layout, carried, ones, psi, phi,
                                     Eigen::MatrixXd::Zero(psi.rows(), n), _threads);
    ReducedWinding made;
    made.name = _solution.problem.scene.windings[w].name;
    made.load = flux.transpose() * _loads[w];
    made.flux.assign(_varied.size() + 1, Eigen::MatrixXd::Zero(flux.cols(), flux.cols()));
    made.field.assign(_varied.size() + 1,
                      Eigen::MatrixXd::Zero(potential.cols(), potential.cols()));
    for (std::size_t g = 0; g < _groups.size(); ++g)
    {
      const double mu = _groups[g] == 0 ? _solution.permeability[g] : 1.0;
      made.flux[_groups[g]] += energies.region_flux[g].topLeftCorner(flux.cols(), flux.cols()) / mu;
      made.field[_groups[g]] +=
          energies.region_field[g].topLeftCorner(potential.cols(), potential.cols()) * mu;
    }
    return made;
  }

  const Solution& _solution;
  const std::vector<VariedMaterial>& _varied;
  std::vector<std::size_t> _groups;
  std::vector<Source> _sources;
  Shared _shared;
  std::shared_ptr<SideFactors> _factors;
  int _threads;
  std::vector<Snapshot> _known, _snapshots;
  std::vector<Eigen::VectorXd> _loads; ///< One a winding.
};

/// Largest relative half-width of any winding at one set of permeabilities.
double half_width(const ReducedModel& model, const Values& at)
{
  double worst = 0.0;
  for (const ReducedWinding& winding : model.windings)
  {
    const ReducedInductance L = inductance(winding, at);
    worst = std::max(worst, 0.5 * (L.upper - L.lower) / L.value());
  }
  return worst;
}

/// Snapshots to begin with: Chebyshev points of one material, else the corners and the middle.
std::vector<Values> first_snapshots(const std::vector<VariedMaterial>& varied)
{
  if (varied.size() > 1)
  {
    std::vector<Values> corners = grid(varied, 2);
    Values middle;
    for (const VariedMaterial& one : varied)
      middle.push_back(std::sqrt(one.from * one.to));
    corners.push_back(middle);
    return corners;
  }
  const double ratio = std::log(varied[0].to / varied[0].from);
  const int count = std::clamp(static_cast<int>(ratio) / 2 + 2, 3, 6);
  std::vector<Values> list;
  for (int i = 0; i < count; ++i)
    list.push_back({varied[0].from *
                    std::exp(ratio * 0.5 * (1.0 - std::cos(std::numbers::pi * i / (count - 1))))});
  return list;
}

void check(const Problem& problem, const std::vector<VariedMaterial>& varied)
{
  if (problem.scene.windings.empty())
    throw std::invalid_argument("a reduced model needs a winding");
  if (varied.empty())
    throw std::invalid_argument("a reduced model needs a material to vary");
  for (const VariedMaterial& one : varied)
  {
    if (problem.materials.find(one.material) == problem.materials.end())
      throw std::invalid_argument("there is no material \"" + one.material + "\" to vary");
    if (!(one.from > 0.0 && one.to > one.from))
      throw std::invalid_argument("the range of \"" + one.material + "\" is empty");
  }
}

/// Builds windings from `chosen` snapshots and adds those where the bracket is widest.
///
/// Ends with the accuracy reached, or with a snapshot whose own bracket is too wide: that one.
/// @param known  Snapshots on the solution's mesh there are already.
Values widen(ReducedModel& model, const Solution& solution, std::vector<Values>& chosen,
             std::vector<Snapshot> known, double accuracy, int threads)
{
  constexpr std::size_t most_snapshots = 60;
  const std::vector<Values> tried = grid(model.varied, model.varied.size() == 1   ? 41
                                                       : model.varied.size() == 2 ? 11
                                                                                  : 6);
  Family family(solution, model.varied, threads, std::move(known));
  for (const Values& at : chosen)
    family.add(at);
  while (true)
  {
    model.windings.clear();
    for (std::size_t w = 0; w < solution.problem.scene.windings.size(); ++w)
      model.windings.push_back(family.winding(w));
    model.accuracy_met = 0.0;
    Values widest;
    for (const Values& at : tried)
      if (const double width = half_width(model, at); width > model.accuracy_met)
      {
        model.accuracy_met = width;
        widest = at;
      }
    model.snapshots = static_cast<int>(chosen.size());
    model.accuracy_reached = model.accuracy_met + model.geometry_error <= accuracy;
    if (model.accuracy_reached || chosen.size() >= most_snapshots ||
        std::find(chosen.begin(), chosen.end(), widest) != chosen.end())
      return widest;
    chosen.push_back(widest);
    family.add(widest);
  }
}

} // namespace

ReducedModel reduced_model(const Problem& given, std::vector<VariedMaterial> varied, int threads)
{
  check(given, varied);
  Problem problem = given;
  problem.background.reset();
  problem.accuracy = 0.7 * given.accuracy; // the rest is for what the snapshots leave
  ReducedModel model;
  model.varied = std::move(varied);
  // The mesh serves the ends of the ranges, which are the extremes of contrast.
  const std::vector<Values> ends = grid(model.varied, 2);
  Solution solution = solve(with(problem, model.varied, ends.back()), threads);
  std::vector<Snapshot> known = {{ends.back(), solution.flux, solution.potential}};
  for (std::size_t i = 0; i + 1 < ends.size(); ++i)
  {
    const std::size_t before = solution.space.mesh.triangles.size();
    solution = solve_from(with(problem, model.varied, ends[i]), solution, threads);
    if (solution.space.mesh.triangles.size() != before)
      known.clear(); // they are of a coarser mesh
    known.push_back({ends[i], solution.flux, solution.potential});
  }
  model.geometry_error = solution.geometry_error;
  std::vector<Values> chosen = first_snapshots(model.varied);
  for (int meshes = 0; meshes < 5; ++meshes)
  {
    const Values widest =
        widen(model, solution, chosen, std::exchange(known, {}), given.accuracy, threads);
    model.unknowns = solution.unknowns;
    if (model.accuracy_reached)
      break;
    const std::size_t before = solution.space.mesh.triangles.size();
    solution = solve_from(with(problem, model.varied, widest), solution, threads);
    if (solution.space.mesh.triangles.size() == before)
      break; // the mesh has met its floor
  }
  return model;
}

ReducedInductance inductance(const ReducedWinding& winding, std::span<const double> permeability)
{
  if (permeability.size() + 1 != winding.flux.size())
    throw std::invalid_argument("one permeability a varied material is needed");
  Eigen::MatrixXd F = winding.flux[0], G = winding.field[0];
  for (std::size_t q = 0; q < permeability.size(); ++q)
  {
    F += winding.flux[q + 1] / permeability[q];
    G += winding.field[q + 1] * permeability[q];
  }
  const Eigen::VectorXd c = F.ldlt().solve(winding.load);
  const Eigen::Index m = G.rows() - 1;
  Eigen::VectorXd v = Eigen::VectorXd::Ones(m + 1);
  if (m > 0)
    v.tail(m) = -G.bottomRightCorner(m, m).ldlt().solve(G.col(0).tail(m));
  // Evaluated for the coefficients at hand, so that an inexact solve only widens the bracket.
  ReducedInductance made{2.0 * winding.load.dot(c) - c.dot(F * c), v.dot(G * v), {}};
  for (std::size_t q = 0; q < permeability.size(); ++q)
    made.slope.push_back(0.5 * (c.dot(winding.flux[q + 1] * c) / permeability[q] +
                                v.dot(winding.field[q + 1] * v) * permeability[q]));
  return made;
}

} // namespace solver
