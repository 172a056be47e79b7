// Solutions on one mesh, the inner products of what they keep, and fields joined from them.
#include "solver/harmonic_model.hpp"

#include "solver/at_once.hpp"

#include <algorithm>
#include <cmath>

namespace solver
{

namespace
{

using Complex = std::complex<double>;
constexpr double two_pi = 2.0 * std::numbers::pi;

} // namespace

HarmonicModel::HarmonicModel(Harmonic base)
    : _base(std::move(base)), _factors(std::make_unique<FactorPool>())
{
  _span.sources = static_cast<Eigen::Index>(_base.sources.size());
  const std::vector<int> group = element_groups(_base, _span.groups);
  _elements.resize(_span.groups.size());
  for (std::size_t k = 0; k < group.size(); ++k)
    _elements[static_cast<std::size_t>(group[k])].push_back(static_cast<int>(k));
  _span.products.resize(_span.groups.size());
}

double HarmonicModel::bytes_kept(const Harmonic& base)
{
  double points = 0.0;
  for (std::size_t k = 0; k < base.space.mesh.triangles.size(); ++k)
    points += static_cast<double>(
        triangle_table(base.space, static_cast<int>(k), Care::bracketing).points.size());
  return points * 12.0 * sizeof(double) * static_cast<double>(base.sources.size());
}

void HarmonicModel::add(std::span<const double> frequencies, int threads)
{
  std::vector<HarmonicState> states;
  for (const double f : frequencies)
    states.push_back({f, harmonic_of(_base.problem, _base.layout, f).permeability});
  add(states, threads);
}

void HarmonicModel::add(std::span<const HarmonicState> states, int threads)
{
  const std::size_t before = _span.states.size(), all = before + states.size();
  _kept.resize(all);
  _flux.resize(all);
  _field.resize(all);
  at_once(states.size(), threads,
          [&](std::size_t i)
          {
            Harmonic given = harmonic_of(_base.problem, _base.layout, states[i].frequency);
            given.permeability = states[i].permeability;
            given.space = _base.space;
            OnMesh found;
            _factors->lend([&](HarmonicFactors& factors)
                           { found = on_mesh(given, &_kept[before + i], &factors); });
            _flux[before + i] = std::move(found.flux);
            _field[before + i] = std::move(found.field);
          });
  for (std::size_t i = 0; i < states.size(); ++i)
  {
    _span.states.push_back(states[i]);
    _span.linkage.push_back(_kept[before + i].linkage);
  }
  join(before, threads);
}

SpanProducts HarmonicModel::products(std::size_t group, std::size_t a, std::size_t b) const
{
  const Eigen::Index n = 4 * _span.sources;
  SpanProducts sum{Eigen::MatrixXd::Zero(n, n), Eigen::MatrixXd::Zero(n, n)};
  for (const int k : _elements[group])
  {
    const auto e = static_cast<std::size_t>(k);
    sum.magnetic.noalias() += _kept[a].magnetic[e].transpose() * _kept[b].magnetic[e];
    if (e < _kept[a].eddy.size() && _kept[a].eddy[e].size() > 0)
      sum.eddy.noalias() += _kept[a].eddy[e].transpose() * _kept[b].eddy[e];
  }
  return sum;
}

void HarmonicModel::join(std::size_t from, int threads)
{
  const Eigen::Index n = 4 * _span.sources,
                     all = n * static_cast<Eigen::Index>(_span.states.size());
  for (SpanProducts& of : _span.products)
  {
    of.magnetic.conservativeResize(all, all);
    of.eddy.conservativeResize(all, all);
  }
  at_once(_span.groups.size() * _span.states.size(), threads,
          [&](std::size_t task)
          {
            const std::size_t g = task % _span.groups.size(), a = task / _span.groups.size();
            for (std::size_t b = std::max(a, from); b < _span.states.size(); ++b)
            {
              const SpanProducts part = products(g, a, b);
              const auto i = static_cast<Eigen::Index>(a) * n, j = static_cast<Eigen::Index>(b) * n;
              _span.products[g].magnetic.block(i, j, n, n) = part.magnetic;
              _span.products[g].magnetic.block(j, i, n, n) = part.magnetic.transpose();
              _span.products[g].eddy.block(i, j, n, n) = part.eddy;
              _span.products[g].eddy.block(j, i, n, n) = part.eddy.transpose();
            }
          });
}

void HarmonicModel::sum_losses(Harmonic& made, const SpanNumbers& by) const
{
  const double omega = two_pi * made.frequency;
  const auto windings = static_cast<Eigen::Index>(made.problem.scene.windings.size());
  made.region_energy.assign(made.permeability.size(), Eigen::VectorXcd::Zero(_span.sources));
  made.region_loss.assign(made.permeability.size(), Eigen::VectorXd::Zero(_span.sources));
  made.winding_loss = Eigen::MatrixXd::Zero(_span.sources, _span.sources);
  made.strand_field.assign(static_cast<std::size_t>(windings),
                           Eigen::MatrixXcd::Zero(windings, windings));
  for (std::size_t g = 0; g < _span.groups.size(); ++g)
  {
    const auto region = static_cast<std::size_t>(_span.groups[g].region);
    const Complex nu = 1.0 / (mu0 * made.permeability[region]);
    for (Eigen::Index i = 0; i < windings; ++i)
    {
      const std::vector<Eigen::Index> own = flux_columns(_span, i);
      const Eigen::VectorXcd& c = by.weights[static_cast<std::size_t>(i)].flux;
      const Eigen::MatrixXd B = _span.products[g].magnetic(own, own),
                            E = _span.products[g].eddy(own, own);
      made.region_energy[region][i] += nu * (c.transpose() * B * c).value();
      const double loss =
          0.5 * omega * (nu.imag() * c.dot(B * c).real() + omega * c.dot(E * c).real());
      if (_span.groups[g].solid)
        made.winding_loss(_span.groups[g].winding, i) += loss;
      else
        made.region_loss[region][i] += loss;
    }
  }
  for (Eigen::Index v = 0; v < windings; ++v)
    for (Eigen::Index i = 0; i < windings; ++i)
      for (Eigen::Index j = 0; j < windings; ++j)
        made.strand_field[static_cast<std::size_t>(v)](i, j) =
            strand_field(_span, by, static_cast<int>(v), i, j);
}

void HarmonicModel::add_fields(Harmonic& made, const SpanNumbers& by) const
{
  made.space = _base.space;
  made.sources = _base.sources;
  made.flux = Eigen::MatrixXcd::Zero(_base.flux.rows(), _span.sources);
  made.field = made.flux;
  const auto sum = [](const Eigen::VectorXcd& x, const Eigen::VectorXcd& weights, std::size_t k)
  {
    const auto at = 2 * static_cast<Eigen::Index>(k);
    return Eigen::VectorXcd(weights[at] * x.real() + weights[at + 1] * x.imag());
  };
  for (std::size_t k = 0; k < _kept.size(); ++k)
    for (Eigen::Index w = 0; w < _span.sources; ++w)
    {
      const SpanWeights& of = by.weights[static_cast<std::size_t>(w)];
      made.flux.col(w) += sum(_flux[k].col(w), of.flux, k);
      made.field.col(w) += sum(_field[k].col(w), of.field, k);
    }
}

Harmonic HarmonicModel::joined(double frequency, bool fields) const
{
  Harmonic made = harmonic_of(_base.problem, _base.layout, frequency);
  SpanNumbers by = solver::at(_span, {frequency, made.permeability});
  made.impedance = std::move(by.impedance);
  made.error_energy = std::move(by.error_energy);
  made.unknowns = _base.unknowns;
  made.refinements = _base.refinements;
  judge(made);
  if (!fields)
    return made;
  sum_losses(made, by);
  add_fields(made, by);
  return made;
}

Harmonic HarmonicModel::at(double frequency) const
{
  return joined(frequency, true);
}
Harmonic HarmonicModel::numbers_at(double frequency) const
{
  return joined(frequency, false);
}

} // namespace solver
