// The flux function: one complex system, solid turns closed by one constant each, an unknown like
// psi.
#include "solver/harmonic_passes.hpp"

#include "solver/circulation.hpp"
#include "solver/equation.hpp"
#include "solver/factor_pool.hpp"

#include <cmath>

namespace solver
{

namespace
{

using Complex = std::complex<double>;
constexpr double two_pi = 2.0 * std::numbers::pi;
constexpr Complex j_unit{0.0, 1.0};

} // namespace

bool Passes::parallel(int winding) const
{
  const auto* turns = std::get_if<mesh::RoundTurns>(&_s.problem.scene.windings[winding].build);
  return turns && turns->parallel;
}

void Passes::find_solid_turns()
{
  const std::vector<mesh::Conductor>& conductors = _s.layout.conductors;
  for (std::size_t c = 0; c < conductors.size(); ++c)
  {
    const auto* round = std::get_if<mesh::RoundSection>(&conductors[c].section);
    const bool is = round && round->strand == mesh::Strand::solid;
    // Turns in parallel share one voltage, and so one constant.
    const bool shared = is && c > 0 && conductors[c - 1].winding == conductors[c].winding &&
                        parallel(conductors[c].winding);
    _solid.push_back(shared ? _solid.back() : is ? _turns++ : -1);
  }
  find_turns();
  for (Eigen::Index w = 0; w < _windings; ++w)
  {
    Source source;
    for (std::size_t c = 0; c < conductors.size(); ++c)
      source.ampere_turns.push_back(
          conductors[c].winding == w && _solid[c] < 0 ? conductors[c].turns : 0.0);
    source.offset = current_offsets(_space, _s.layout, source.ampere_turns);
    _made.sources.push_back(std::move(source));
  }
  if (_count > _windings)
    _made.sources.push_back(background_source(_space, _s.layout, *_s.problem.background));
  _current = Eigen::MatrixXd::Zero(_turns, _count);
  for (std::size_t c = 0; c < conductors.size(); ++c)
    if (_solid[c] >= 0)
      _current(_solid[c], conductors[c].winding) += conductors[c].turns;
}

Eigen::VectorXcd Passes::background_load(double B0) const
{
  Eigen::VectorXcd load = Eigen::VectorXcd::Zero(_space.count + _turns);
  for (int k = 0; k < _triangles; ++k)
  {
    const Complex pull = (1.0 / mu(k) - 1.0 / mu0) * B0;
    if (pull == 0.0 && sigma(k) == 0.0)
      continue;
    const ElementTable at = table(k);
    const auto points = static_cast<Eigen::Index>(at.points.size());
    Eigen::VectorXd weight(points);
    for (Eigen::Index c = 0; c < points; ++c)
      weight[c] = -two_pi * at.points[static_cast<std::size_t>(c)].weight;
    const Eigen::VectorXd bent = at.tested(weight, Eigen::VectorXd::Zero(points));
    const Eigen::VectorXd plain = at.shapes->value * weight;
    const Complex eddy = j_unit * _omega * sigma(k) * 0.25 * B0;
    const Gather gathered = gather(k);
    for (std::size_t i = 0; i < gathered.index.size(); ++i)
    {
      const auto row = static_cast<Eigen::Index>(i);
      load[gathered.index[i]] += gathered.sign[i] * (pull * bent[row] + eddy * plain[row]);
    }
    if (solid(k) >= 0)
      load[_space.count + solid(k)] -= eddy * weight.sum();
  }
  return load;
}

Eigen::MatrixXcd Passes::flux_matrix(int k) const
{
  if (k >= _triangles)
    return (1.0 / mu0) * exterior_matrix(_space, k - _triangles, Weight::over_r).cast<Complex>();
  const bool bent = _tangent && (*_tangent)[k].size() > 0;
  const Complex nu = bent ? 1.0 : 1.0 / mu(k);
  const Eigen::MatrixXd diffusion =
      bent ? (*_tangent)[k] : triangle_matrix(_space, k, Weight::over_r);
  if (sigma(k) == 0.0)
    return nu * diffusion.cast<Complex>();
  const Eigen::Index n = diffusion.rows(), constant = solid(k) >= 0 ? 1 : 0;
  Eigen::MatrixXd reaction(n + constant, n + constant); // of (psi - w) (v - w_v)
  reaction.topLeftCorner(n, n) = triangle_reaction(_space, k);
  if (constant > 0)
  {
    // The constant one is the sum of the three vertex functions.
    const Eigen::VectorXd whole = reaction.topLeftCorner(n, 3).rowwise().sum();
    reaction.col(n).head(n) = -whole;
    reaction.row(n).head(n) = -whole.transpose();
    reaction(n, n) = whole.head<3>().sum();
  }
  Eigen::MatrixXcd K = j_unit * _omega * sigma(k) * reaction.cast<Complex>();
  K.topLeftCorner(n, n) += nu * diffusion.cast<Complex>();
  return K;
}

void Passes::solve_flux()
{
  Eigen::MatrixXcd loads = Eigen::MatrixXcd::Zero(_space.count + _turns, _count);
  const std::vector<double> ones(_s.permeability.size(), 1.0);
  for (Eigen::Index w = 0; w < _windings; ++w)
    loads.col(w).head(_space.count) =
        flux_load(_space, _s.layout, _made.sources[w], ones).cast<Complex>();
  if (_count > _windings)
    loads.col(_windings) = background_load(*_s.problem.background);
  loads.bottomRows(_turns) += two_pi * _current.cast<Complex>();
  const Equation<Complex> equation(
      _space, held_by_symmetry(_space, Weight::over_r), [this](int k) { return flux_matrix(k); },
      Constants{_turn, _turns});
  SymmetricFactor own;
  SymmetricFactor& factor = _factors ? _factors->flux : own;
  factor.compute(equation.matrix());
  const Eigen::MatrixXcd found = equation.expanded(factor.solve(equation.reduced(loads)), loads);
  _made.flux = found.topRows(_space.count);
  _constant = found.bottomRows(_turns);
  _made.linkage = loads.transpose() * found;
  _made.unknowns = equation.unknowns();
}

} // namespace solver
