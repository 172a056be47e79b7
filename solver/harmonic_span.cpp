// Small dense systems at each state; norms of both residuals with what rounding may hide in them.
#include "solver/harmonic_span.hpp"

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
template <class Matrix, class Right> Right solution(const Matrix& A, const Right& b)
{
  Eigen::VectorXd scale = A.diagonal().cwiseAbs().cwiseSqrt();
  for (double& one : scale)
    one = one > 0.0 ? 1.0 / one : 0.0;
  Eigen::CompleteOrthogonalDecomposition<Matrix> factor(A.rows(), A.cols());
  factor.setThreshold(1e-13);
  factor.compute(scale.asDiagonal() * A * scale.asDiagonal());
  return scale.asDiagonal() * factor.solve(scale.asDiagonal() * b);
}

enum class Side
{
  flux,
  field
};

/// The columns of one source, one side, in the order of SpanWeights.
std::vector<Eigen::Index> columns(const HarmonicSpan& span, Side side, Eigen::Index source)
{
  std::vector<Eigen::Index> list;
  const Eigen::Index first = side == Side::flux ? 0 : 2;
  for (std::size_t k = 0; k < span.states.size(); ++k)
    for (const Eigen::Index part : {first, first + 1})
      list.push_back((4 * static_cast<Eigen::Index>(k) + part) * span.sources + source);
  return list;
}

Complex permeability(const HarmonicSpan& span, const HarmonicState& at, std::size_t group)
{
  return mu0 * at.permeability[static_cast<std::size_t>(span.groups[group].region)];
}

/// a(u_i, u_j) of two sources' columns.
Eigen::MatrixXcd form(const HarmonicSpan& span, const HarmonicState& at, Eigen::Index i,
                      Eigen::Index j)
{
  const std::vector<Eigen::Index> rows = columns(span, Side::flux, i),
                                  across = columns(span, Side::flux, j);
  const auto m = static_cast<Eigen::Index>(rows.size());
  Eigen::MatrixXcd sum = Eigen::MatrixXcd::Zero(m, m);
  for (std::size_t g = 0; g < span.groups.size(); ++g)
  {
    sum += 1.0 / permeability(span, at, g) * span.products[g].magnetic(rows, across);
    sum += j_unit * two_pi * at.frequency * span.products[g].eddy(rows, across);
  }
  return sum;
}

/// l_i of source j's columns [H].
Eigen::VectorXd linkage(const HarmonicSpan& span, Eigen::Index i, Eigen::Index j)
{
  Eigen::VectorXd list(2 * static_cast<Eigen::Index>(span.states.size()));
  for (std::size_t k = 0; k < span.states.size(); ++k)
  {
    const Complex l = span.linkage[k](i, j);
    list.segment<2>(2 * static_cast<Eigen::Index>(k)) << l.real(), l.imag();
  }
  return list;
}

Eigen::VectorXcd flux_weights(const HarmonicSpan& span, const HarmonicState& at,
                              Eigen::Index source)
{
  return solution<Eigen::MatrixXcd, Eigen::VectorXcd>(
      form(span, at, source, source), linkage(span, source, source).cast<Complex>());
}

/// How far apart two states are, in octaves and what compares to them.
double apart(const HarmonicState& a, const HarmonicState& b)
{
  double sum = std::abs(std::log(a.frequency / b.frequency));
  for (std::size_t g = 0; g < a.permeability.size(); ++g)
    sum += std::abs(std::log(a.permeability[g] / b.permeability[g]));
  return sum;
}

/// Fields that least fall short of nu b and of its eddy currents, the weights' sum one.
Eigen::VectorXcd field_weights(const HarmonicSpan& span, const HarmonicState& at,
                               Eigen::Index source, const Eigen::VectorXcd& flux)
{
  const std::vector<Eigen::Index> own = columns(span, Side::field, source),
                                  other = columns(span, Side::flux, source);
  const auto m = static_cast<Eigen::Index>(own.size());
  const double omega = two_pi * at.frequency;
  Eigen::MatrixXd K = Eigen::MatrixXd::Zero(m, m); // real, unlike its right-hand side
  Eigen::VectorXcd right = Eigen::VectorXcd::Zero(m);
  for (std::size_t g = 0; g < span.groups.size(); ++g)
  {
    const Complex mu = permeability(span, at, g);
    const SpanProducts& of = span.products[g];
    K += std::abs(mu) * of.magnetic(own, own) + of.eddy(own, own) / omega;
    right += std::abs(mu) / mu * (of.magnetic(own, other) * flux);
    right += j_unit * (of.eddy(own, other) * flux);
  }
  // Real parts carry the source's current, imaginary ones none: start from the nearest snapshot,
  // vary by what carries none.
  std::size_t nearest = 0;
  for (std::size_t k = 1; k < span.states.size(); ++k)
    if (apart(span.states[k], at) < apart(span.states[nearest], at))
      nearest = k;
  const Eigen::Index start = 2 * static_cast<Eigen::Index>(nearest);
  Eigen::MatrixXd vary = Eigen::MatrixXd::Zero(m, m - 1);
  for (Eigen::Index i = 0, column = 0; i < m; ++i)
    if (i != start)
    {
      vary(i, column) = 1.0;
      vary(start, column++) = i % 2 == 0 ? -1.0 : 0.0;
    }
  const Eigen::VectorXcd pull = vary.transpose() * (right - K.col(start));
  Eigen::MatrixXd parts(m - 1, 2);
  parts << pull.real(), pull.imag();
  const Eigen::MatrixXd free =
      solution<Eigen::MatrixXd, Eigen::MatrixXd>(vary.transpose() * K * vary, parts);
  return Eigen::VectorXcd::Unit(m, start) + vary * (free.col(0) + j_unit * free.col(1));
}

/// Squared norms of both residuals, round-off counted: eta^2, zeta^2.
Eigen::Vector2d residuals(const HarmonicSpan& span, const HarmonicState& at, Eigen::Index source,
                          const SpanWeights& by)
{
  const double omega = two_pi * at.frequency;
  std::vector<Eigen::Index> both = columns(span, Side::flux, source);
  const std::vector<Eigen::Index> fields = columns(span, Side::field, source);
  both.insert(both.end(), fields.begin(), fields.end());
  Eigen::VectorXcd x(both.size());
  Eigen::Vector2d sum(0.0, 0.0);
  for (std::size_t g = 0; g < span.groups.size(); ++g)
  {
    const Complex mu = permeability(span, at, g);
    x << -by.flux / mu, by.field;
    sum[0] += std::abs(mu) * energy(span.products[g].magnetic(both, both), x);
    x << -j_unit * omega * by.flux, by.field;
    sum[1] += energy(span.products[g].eddy(both, both), x) / omega;
  }
  return sum;
}

} // namespace

double SpanNumbers::accuracy_met(double frequency) const
{
  double worst = 0.0;
  for (Eigen::Index i = 0; i < error_energy.size(); ++i)
    worst = std::max(worst, two_pi * frequency * error_energy[i] / std::abs(impedance(i, i)));
  return worst;
}

SpanNumbers at(const HarmonicSpan& span, const HarmonicState& state)
{
  if (span.states.empty())
    throw std::logic_error("a model without a solution has nothing to join");
  SpanNumbers made;
  const Eigen::Index n = span.sources;
  const double cosine = loss_cosine(state.permeability);
  made.error_energy.resize(n);
  for (Eigen::Index w = 0; w < n; ++w)
  {
    const Eigen::VectorXcd flux = flux_weights(span, state, w);
    made.weights.push_back({flux, field_weights(span, state, w, flux)});
    const Eigen::Vector2d squares = residuals(span, state, w, made.weights.back());
    made.error_energy[w] = error_bound(std::sqrt(squares[0]), std::sqrt(squares[1]), cosine);
  }
  made.impedance.resize(n, n);
  for (Eigen::Index i = 0; i < n; ++i)
    for (Eigen::Index j = 0; j < n; ++j)
    {
      const Eigen::VectorXcd &u = made.weights[static_cast<std::size_t>(i)].flux,
                             &v = made.weights[static_cast<std::size_t>(j)].flux;
      const Complex twice = (v.transpose() * linkage(span, i, j)).value() +
                            (u.transpose() * linkage(span, j, i)).value();
      made.impedance(i, j) = j_unit * two_pi * state.frequency *
                             (twice - (u.transpose() * form(span, state, i, j) * v).value());
    }
  return made;
}

std::vector<Eigen::Index> flux_columns(const HarmonicSpan& span, Eigen::Index source)
{
  return columns(span, Side::flux, source);
}

Complex strand_field(const HarmonicSpan& span, const SpanNumbers& numbers, int winding,
                     Eigen::Index i, Eigen::Index j)
{
  Complex sum = 0.0;
  const std::vector<Eigen::Index> own = flux_columns(span, i), other = flux_columns(span, j);
  for (std::size_t g = 0; g < span.groups.size(); ++g)
    if (span.groups[g].winding == winding && span.groups[g].plain)
      sum += numbers.weights[static_cast<std::size_t>(j)].flux.dot(
                 span.products[g].magnetic(other, own) *
                 numbers.weights[static_cast<std::size_t>(i)].flux) /
             (mu0 * mu0);
  return sum;
}

} // namespace solver
