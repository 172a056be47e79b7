// The flux function: one complex system, solid turns closed by one constant each.
#include "solver/harmonic_passes.hpp"

#include "solver/circulation.hpp"
#include "solver/equation.hpp"
#include "solver/symmetric_factor.hpp"

#include <Eigen/LU>

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

void Passes::solid_loads(Eigen::MatrixXd& loads, Eigen::VectorXd& whole) const
{
  for (int k = 0; k < _triangles; ++k)
  {
    const int turn = solid(k);
    if (turn < 0)
      continue;
    const ElementTable at = table(k);
    const Gather gathered = gather(k);
    for (std::size_t c = 0; c < at.points.size(); ++c)
    {
      const ElementPoint& x = at.points[c];
      const double weight = two_pi * x.weight * sigma(k) / (2.0 * x.s);
      whole[turn] += weight;
      for (std::size_t i = 0; i < gathered.index.size(); ++i)
        loads(gathered.index[i], turn) +=
            weight * gathered.sign[i] *
            at.shapes->value(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(c));
    }
  }
}

void Passes::close_turns(const Eigen::MatrixXcd& loads, const Eigen::MatrixXd& turn_loads,
                         const Eigen::VectorXd& whole, const Eigen::VectorXcd& driven_turns,
                         const Eigen::MatrixXcd& found)
{
  const Eigen::MatrixXcd free = found.leftCols(_count), by_turn = found.rightCols(_turns);
  _made.flux = free;
  _made.linkage = loads.transpose() * free;
  if (_turns == 0)
    return;
  const Eigen::MatrixXcd turns = turn_loads.cast<Complex>();
  const Complex j_omega = j_unit * _omega;
  Eigen::MatrixXcd A = -j_omega * (turns.transpose() * by_turn);
  A.diagonal() += whole.cast<Complex>();
  Eigen::MatrixXcd push = two_pi / j_omega * _current.cast<Complex>() + turns.transpose() * free;
  if (_count > _windings)
    push.col(_windings) += driven_turns;
  _constant = A.partialPivLu().solve(push);
  _made.flux += j_omega * by_turn * _constant;
  _made.linkage = loads.transpose() * _made.flux;
  _made.linkage += two_pi * _current.transpose() * _constant;
  if (_count > _windings)
    _made.linkage.row(_windings) += j_omega * driven_turns.transpose() * _constant;
}

Eigen::VectorXcd Passes::background_load(double B0, Eigen::VectorXcd& turns) const
{
  Eigen::VectorXcd load = Eigen::VectorXcd::Zero(_space.count);
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
      turns[solid(k)] -= 0.25 * B0 * sigma(k) * weight.sum();
  }
  return load;
}

void Passes::solve_flux()
{
  Eigen::MatrixXcd loads = Eigen::MatrixXcd::Zero(_space.count, _count);
  Eigen::VectorXcd driven_turns = Eigen::VectorXcd::Zero(_turns);
  const std::vector<double> ones(_s.permeability.size(), 1.0);
  for (Eigen::Index w = 0; w < _windings; ++w)
    loads.col(w) = flux_load(_space, _s.layout, _made.sources[w], ones).cast<Complex>();
  if (_count > _windings)
    loads.col(_windings) = background_load(*_s.problem.background, driven_turns);
  const Equation<Complex> equation(
      _space, held_on_axis(_space, Weight::over_r),
      [this](int k)
      {
        if (k >= _triangles)
          return Eigen::MatrixXcd(
              (1.0 / mu0) *
              exterior_matrix(_space, k - _triangles, Weight::over_r).cast<Complex>());
        Eigen::MatrixXcd K =
            (1.0 / mu(k)) * triangle_matrix(_space, k, Weight::over_r).cast<Complex>();
        if (sigma(k) > 0.0)
          K += j_unit * _omega * sigma(k) * triangle_reaction(_space, k).cast<Complex>();
        return K;
      });
  SymmetricFactor factor;
  factor.compute(equation.matrix());
  Eigen::MatrixXd turn_loads = Eigen::MatrixXd::Zero(_space.count, _turns);
  Eigen::VectorXd whole = Eigen::VectorXd::Zero(_turns);
  solid_loads(turn_loads, whole);
  Eigen::MatrixXcd all(_space.count, _count + _turns);
  all << loads, turn_loads.cast<Complex>();
  close_turns(loads, turn_loads, whole, driven_turns,
              equation.expanded(factor.solve(equation.reduced(all)), all));
  _made.unknowns = equation.unknowns();
}

} // namespace solver
