// Inner products of what the snapshots keep; small dense systems at each frequency.
#include "solver/harmonic_model.hpp"

#include "solver/at_once.hpp"

#include <Eigen/LU>
#include <Eigen/QR>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace solver
{

namespace
{

using Complex = std::complex<double>;
constexpr double two_pi = 2.0 * std::numbers::pi;
constexpr Complex j_unit{0.0, 1.0};

/// x^H M x of a symmetric M, and what rounding of M may have changed it by.
double energy(const Eigen::MatrixXd& M, const Eigen::VectorXcd& x)
{
  constexpr double rounding = 1e-14; // of sums over elements, relative to the two norms
  const double norms = x.cwiseAbs().dot(M.diagonal().cwiseMax(0.0).cwiseSqrt());
  return std::max(0.0, x.dot(M * x).real()) + rounding * norms * norms;
}

/// A solution of a nearly singular symmetric system, its diagonal scaled to one: columns that
/// depend on others get no weight of their own.
Eigen::VectorXcd solution(const Eigen::MatrixXcd& A, const Eigen::VectorXcd& b)
{
  Eigen::VectorXd scale = A.diagonal().cwiseAbs().cwiseSqrt();
  for (double& one : scale)
    one = one > 0.0 ? 1.0 / one : 0.0;
  Eigen::CompleteOrthogonalDecomposition<Eigen::MatrixXcd> factor(A.rows(), A.cols());
  factor.setThreshold(1e-13);
  factor.compute(scale.asDiagonal() * A * scale.asDiagonal());
  return scale.asDiagonal() * factor.solve(scale.asDiagonal() * b);
}

} // namespace

HarmonicModel::HarmonicModel(Harmonic base)
    : _base(std::move(base)), _factors(std::make_unique<FactorPool>()),
      _count(static_cast<Eigen::Index>(_base.sources.size()))
{
  const std::vector<int> group = element_groups(_base, _groups);
  _elements.resize(_groups.size());
  for (std::size_t k = 0; k < group.size(); ++k)
    _elements[static_cast<std::size_t>(group[k])].push_back(static_cast<int>(k));
  _products.resize(_groups.size());
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
  const std::size_t before = _frequencies.size();
  _frequencies.insert(_frequencies.end(), frequencies.begin(), frequencies.end());
  _kept.resize(_frequencies.size());
  _flux.resize(_frequencies.size());
  _field.resize(_frequencies.size());
  at_once(frequencies.size(), threads,
          [&](std::size_t i)
          {
            Harmonic given = harmonic_of(_base.problem, _base.layout, frequencies[i]);
            given.space = _base.space;
            OnMesh found;
            _factors->lend([&](HarmonicFactors& factors)
                           { found = on_mesh(given, &_kept[before + i], &factors); });
            _flux[before + i] = std::move(found.flux);
            _field[before + i] = std::move(found.field);
          });
  join(before, threads);
}

HarmonicModel::Products HarmonicModel::products(std::size_t group, std::size_t a,
                                                std::size_t b) const
{
  Products sum{Eigen::MatrixXd::Zero(4 * _count, 4 * _count),
               Eigen::MatrixXd::Zero(4 * _count, 4 * _count)};
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
  const Eigen::Index n = 4 * _count, all = n * static_cast<Eigen::Index>(_frequencies.size());
  for (Products& of : _products)
  {
    of.magnetic.conservativeResize(all, all);
    of.eddy.conservativeResize(all, all);
  }
  at_once(_groups.size() * _frequencies.size(), threads,
          [&](std::size_t task)
          {
            const std::size_t g = task % _groups.size(), a = task / _groups.size();
            for (std::size_t b = std::max(a, from); b < _frequencies.size(); ++b)
            {
              const Products part = products(g, a, b);
              const auto i = static_cast<Eigen::Index>(a) * n, j = static_cast<Eigen::Index>(b) * n;
              _products[g].magnetic.block(i, j, n, n) = part.magnetic;
              _products[g].magnetic.block(j, i, n, n) = part.magnetic.transpose();
              _products[g].eddy.block(i, j, n, n) = part.eddy;
              _products[g].eddy.block(j, i, n, n) = part.eddy.transpose();
            }
          });
}

std::vector<Eigen::Index> HarmonicModel::columns(Side side, Eigen::Index source) const
{
  std::vector<Eigen::Index> list;
  const Eigen::Index first = side == Side::flux ? 0 : 2;
  for (std::size_t k = 0; k < _frequencies.size(); ++k)
    for (const Eigen::Index part : {first, first + 1})
      list.push_back((4 * static_cast<Eigen::Index>(k) + part) * _count + source);
  return list;
}

Eigen::MatrixXcd HarmonicModel::form(const Harmonic& at, Eigen::Index i, Eigen::Index j) const
{
  const std::vector<Eigen::Index> rows = columns(Side::flux, i), across = columns(Side::flux, j);
  const auto m = static_cast<Eigen::Index>(rows.size());
  Eigen::MatrixXcd sum = Eigen::MatrixXcd::Zero(m, m);
  for (std::size_t g = 0; g < _groups.size(); ++g)
  {
    const Complex nu = 1.0 / (mu0 * at.permeability[static_cast<std::size_t>(_groups[g].region)]);
    sum += nu * _products[g].magnetic(rows, across);
    sum += j_unit * two_pi * at.frequency * _products[g].eddy(rows, across);
  }
  return sum;
}

Eigen::VectorXd HarmonicModel::linkage(Eigen::Index i, Eigen::Index j) const
{
  Eigen::VectorXd list(2 * static_cast<Eigen::Index>(_kept.size()));
  for (std::size_t k = 0; k < _kept.size(); ++k)
  {
    const Complex l = _kept[k].linkage(i, j);
    list.segment<2>(2 * static_cast<Eigen::Index>(k)) << l.real(), l.imag();
  }
  return list;
}

Eigen::VectorXcd HarmonicModel::flux_weights(const Harmonic& at, Eigen::Index source) const
{
  return solution(form(at, source, source), linkage(source, source).cast<Complex>());
}

Eigen::VectorXcd HarmonicModel::field_weights(const Harmonic& at, Eigen::Index source,
                                              const Eigen::VectorXcd& flux) const
{
  const std::vector<Eigen::Index> own = columns(Side::field, source),
                                  other = columns(Side::flux, source);
  const auto m = static_cast<Eigen::Index>(own.size());
  const double omega = two_pi * at.frequency;
  Eigen::MatrixXcd K = Eigen::MatrixXcd::Zero(m, m);
  Eigen::VectorXcd right = Eigen::VectorXcd::Zero(m);
  for (std::size_t g = 0; g < _groups.size(); ++g)
  {
    const Complex mu = mu0 * at.permeability[static_cast<std::size_t>(_groups[g].region)];
    K += std::abs(mu) * _products[g].magnetic(own, own) + _products[g].eddy(own, own) / omega;
    right += std::abs(mu) / mu * (_products[g].magnetic(own, other) * flux);
    right += j_unit * (_products[g].eddy(own, other) * flux);
  }
  // Real parts carry the source's current, imaginary ones none: start from the nearest snapshot,
  // vary by what carries none.
  Eigen::Index start = 0;
  for (Eigen::Index k = 1; 2 * k < m; ++k)
    if (std::abs(std::log(_frequencies[static_cast<std::size_t>(k)] / at.frequency)) <
        std::abs(std::log(_frequencies[static_cast<std::size_t>(start / 2)] / at.frequency)))
      start = 2 * k;
  Eigen::MatrixXd vary = Eigen::MatrixXd::Zero(m, m - 1);
  for (Eigen::Index i = 0, column = 0; i < m; ++i)
    if (i != start)
    {
      vary(i, column) = 1.0;
      vary(start, column++) = i % 2 == 0 ? -1.0 : 0.0;
    }
  const Eigen::VectorXcd free =
      solution(vary.transpose() * K * vary, vary.transpose() * (right - K.col(start)));
  return Eigen::VectorXcd(Eigen::VectorXcd::Unit(m, start) + vary * free);
}

Eigen::Vector2d HarmonicModel::residuals(const Harmonic& at, Eigen::Index source,
                                         const Weights& by) const
{
  const double omega = two_pi * at.frequency;
  std::vector<Eigen::Index> both = columns(Side::flux, source);
  const std::vector<Eigen::Index> fields = columns(Side::field, source);
  both.insert(both.end(), fields.begin(), fields.end());
  Eigen::VectorXcd x(both.size());
  Eigen::Vector2d sum(0.0, 0.0);
  for (std::size_t g = 0; g < _groups.size(); ++g)
  {
    const Complex mu = mu0 * at.permeability[static_cast<std::size_t>(_groups[g].region)];
    x << -by.flux / mu, by.field;
    sum[0] += std::abs(mu) * energy(_products[g].magnetic(both, both), x);
    x << -j_unit * omega * by.flux, by.field;
    sum[1] += energy(_products[g].eddy(both, both), x) / omega;
  }
  return sum;
}

void HarmonicModel::sum_losses(Harmonic& made, const std::vector<Weights>& by) const
{
  const double omega = two_pi * made.frequency;
  const auto windings = static_cast<Eigen::Index>(made.problem.scene.windings.size());
  made.region_energy.assign(made.permeability.size(), Eigen::VectorXcd::Zero(_count));
  made.region_loss.assign(made.permeability.size(), Eigen::VectorXd::Zero(_count));
  made.winding_loss = Eigen::MatrixXd::Zero(_count, _count);
  made.strand_field.assign(static_cast<std::size_t>(windings),
                           Eigen::MatrixXcd::Zero(windings, windings));
  for (std::size_t g = 0; g < _groups.size(); ++g)
  {
    const auto region = static_cast<std::size_t>(_groups[g].region);
    const auto winding = static_cast<std::size_t>(std::max(0, _groups[g].winding));
    const bool strands = _groups[g].winding >= 0 && std::holds_alternative<mesh::Block>(
                                                        made.problem.scene.windings[winding].build);
    const Complex nu = 1.0 / (mu0 * made.permeability[region]);
    for (Eigen::Index i = 0; i < windings; ++i)
    {
      const std::vector<Eigen::Index> own = columns(Side::flux, i);
      const Eigen::VectorXcd& c = by[static_cast<std::size_t>(i)].flux;
      const Eigen::MatrixXd B = _products[g].magnetic(own, own), E = _products[g].eddy(own, own);
      made.region_energy[region][i] += nu * (c.transpose() * B * c).value();
      const double loss =
          0.5 * omega * (nu.imag() * c.dot(B * c).real() + omega * c.dot(E * c).real());
      if (_groups[g].solid)
        made.winding_loss(_groups[g].winding, i) += loss;
      else
        made.region_loss[region][i] += loss;
      for (Eigen::Index j = 0; strands && j < windings; ++j)
      {
        const Eigen::MatrixXd between = _products[g].magnetic(columns(Side::flux, j), own);
        made.strand_field[winding](i, j) +=
            by[static_cast<std::size_t>(j)].flux.dot(between * c) / (mu0 * mu0);
      }
    }
  }
}

void HarmonicModel::add_fields(Harmonic& made, const std::vector<Weights>& by) const
{
  made.space = _base.space;
  made.sources = _base.sources;
  made.flux = Eigen::MatrixXcd::Zero(_base.flux.rows(), _count);
  made.field = made.flux;
  const auto sum = [](const Eigen::VectorXcd& x, const Eigen::VectorXcd& weights, std::size_t k)
  {
    const auto at = 2 * static_cast<Eigen::Index>(k);
    return Eigen::VectorXcd(weights[at] * x.real() + weights[at + 1] * x.imag());
  };
  for (std::size_t k = 0; k < _kept.size(); ++k)
    for (Eigen::Index w = 0; w < _count; ++w)
    {
      const Weights& of = by[static_cast<std::size_t>(w)];
      made.flux.col(w) += sum(_flux[k].col(w), of.flux, k);
      made.field.col(w) += sum(_field[k].col(w), of.field, k);
    }
}

Harmonic HarmonicModel::joined(double frequency, bool fields) const
{
  if (_frequencies.empty())
    throw std::logic_error("a model without a solution has nothing to join");
  Harmonic made = harmonic_of(_base.problem, _base.layout, frequency);
  std::vector<Weights> by;
  const double cosine = loss_cosine(made.permeability);
  made.error_energy.resize(_count);
  for (Eigen::Index w = 0; w < _count; ++w)
  {
    const Eigen::VectorXcd flux = flux_weights(made, w);
    by.push_back({flux, field_weights(made, w, flux)});
    const Eigen::Vector2d squares = residuals(made, w, by.back());
    made.error_energy[w] = error_bound(std::sqrt(squares[0]), std::sqrt(squares[1]), cosine);
  }
  made.impedance.resize(_count, _count);
  for (Eigen::Index i = 0; i < _count; ++i)
    for (Eigen::Index j = 0; j < _count; ++j)
    {
      const Eigen::VectorXcd &u = by[static_cast<std::size_t>(i)].flux,
                             &v = by[static_cast<std::size_t>(j)].flux;
      const Complex twice =
          (v.transpose() * linkage(i, j)).value() + (u.transpose() * linkage(j, i)).value();
      made.impedance(i, j) =
          j_unit * two_pi * frequency * (twice - (u.transpose() * form(made, i, j) * v).value());
    }
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
