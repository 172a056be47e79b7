// The field beside the flux function: every current made polynomial and carried to the axis.
#include "solver/harmonic_passes.hpp"

#include "solver/circulation.hpp"
#include "solver/eddy_field.hpp"
#include "solver/section_field.hpp"

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

Complex Passes::driven(const Eigen::MatrixXd& psi, Eigen::Index point, double s, Eigen::Index w,
                       int turn) const
{
  Complex value(psi(point, w), psi(point, _count + w));
  if (w == _windings)
    value += 0.5 * *_s.problem.background * s;
  return turn >= 0 ? value - _constant(turn, w) : value;
}

Eigen::MatrixXcd Passes::densities(const ElementTable& at, const Eigen::MatrixXd& psi, double sigma,
                                   int turn) const
{
  const Eigen::MatrixXd values = at.shapes->value.transpose() * psi; // points by 2 fields
  Eigen::MatrixXcd q(values.rows(), _count);
  for (Eigen::Index c = 0; c < q.rows(); ++c)
  {
    const Complex scale = j_unit * _omega * sigma / (2.0 * at.points[c].s);
    for (Eigen::Index w = 0; w < _count; ++w)
      q(c, w) = scale * driven(values, c, at.points[c].s, w, turn);
  }
  return q;
}

void Passes::find_eddy_currents()
{
  _made.zeta = Eigen::MatrixXd::Zero(_elements, _count);
  _density.resize(_triangles);
  bool any = false;
  std::vector<std::vector<Eigen::Vector3cd>> own(
      _count, std::vector<Eigen::Vector3cd>(_triangles, Eigen::Vector3cd::Zero()));
  for (int k = 0; k < _triangles; ++k)
  {
    if (sigma(k) == 0.0)
      continue;
    any = true;
    const ElementTable at = table(k);
    const Eigen::MatrixXcd q = densities(at, local(gather(k), _made.flux), sigma(k), solid(k));
    Eigen::MatrixXcd by_area = q;
    for (Eigen::Index c = 0; c < q.rows(); ++c)
      by_area.row(c) /= at.points[c].gradient.determinant();
    _density[k] = density_coefficients(at, by_area);
    const Eigen::VectorXd& integral = eddy_table(at).integral;
    for (Eigen::Index w = 0; w < _count; ++w)
      own[w][k][1] = (integral.transpose() * _density[k].col(w)).value();
    const Eigen::MatrixXcd kept = at.shapes->value.transpose() * _density[k];
    for (Eigen::Index c = 0; c < q.rows(); ++c)
    {
      const ElementPoint& x = at.points[c];
      _made.zeta.row(k) += two_pi * x.weight * 2.0 * x.s / (_omega * sigma(k)) *
                           (kept.row(c) * x.gradient.determinant() - q.row(c)).cwiseAbs2();
    }
  }
  for (Eigen::Index w = 0; w < _count && any; ++w)
    _offset.push_back(eddy_offsets(_space, own[w]));
}

Eigen::MatrixXcd Passes::field(int k, const ElementTable& at)
{
  const auto points = static_cast<Eigen::Index>(at.points.size());
  const Gather gathered = gather(k);
  Eigen::MatrixXcd X(2 * points, _count);
  const ElementTable::Gradients psi = at.gradients(local(gathered, _made.flux));
  const Complex nu = 1.0 / mu(k);
  for (Eigen::Index c = 0; c < points; ++c)
    for (Eigen::Index w = 0; w < _count; ++w)
    {
      X(2 * c, w) = nu * Complex(psi.d_z(w, c), psi.d_z(_count + w, c)) / (2.0 * at.points[c].s);
      X(2 * c + 1, w) = -2.0 * nu * Complex(psi.d_s(w, c), psi.d_s(_count + w, c));
      if (w == _windings)
        X(2 * c + 1, w) += (1.0 / mu0 - nu) * *_s.problem.background;
    }
  if (k < _triangles)
    add_carried(k, at, X);
  return X;
}

void Passes::add_carried(int k, const ElementTable& at, Eigen::MatrixXcd& X) const
{
  const auto points = static_cast<Eigen::Index>(at.points.size());
  Eigen::MatrixXd offset = Eigen::MatrixXd::Zero(at.shapes->value.rows(), 2 * _count);
  for (Eigen::Index w = 0; w < _count; ++w)
  {
    Eigen::Vector3cd sum = _made.sources[w].offset[k].cast<Complex>();
    if (!_offset.empty())
      sum += _offset[w][k];
    offset.col(w).head<3>() = sum.real();
    offset.col(_count + w).head<3>() = sum.imag();
  }
  const ElementTable::Gradients carried = at.gradients(offset);
  const int conductor = _space.mesh.triangles[k].conductor;
  const bool eddy = _density[k].size() > 0;
  const Eigen::MatrixXcd E_1 =
      eddy ? Eigen::MatrixXcd(eddy_table(at).E_1.transpose() * _density[k]) : Eigen::MatrixXcd();
  const Eigen::MatrixXcd E_2 =
      eddy ? Eigen::MatrixXcd(eddy_table(at).E_2.transpose() * _density[k]) : Eigen::MatrixXcd();
  for (Eigen::Index c = 0; c < points; ++c)
  {
    const ElementPoint& x = at.points[c];
    for (Eigen::Index w = 0; w < _count; ++w)
    {
      X(2 * c, w) -= Complex(carried.d_s(w, c), carried.d_s(_count + w, c));
      X(2 * c + 1, w) -= Complex(carried.d_z(w, c), carried.d_z(_count + w, c));
      if (eddy)
      {
        X(2 * c, w) += x.gradient(0, 0) * E_1(c, w) + x.gradient(0, 1) * E_2(c, w);
        X(2 * c + 1, w) += x.gradient(1, 0) * E_1(c, w) + x.gradient(1, 1) * E_2(c, w);
      }
      if (conductor < 0 || _made.sources[w].ampere_turns[conductor] == 0.0)
        continue;
      const Eigen::Vector2d h = section_field(_s.layout.conductors[conductor],
                                              _made.sources[w].ampere_turns[conductor], x.s, x.z);
      X(2 * c, w) += h[0];
      X(2 * c + 1, w) += h[1];
    }
  }
}

void Passes::collect_fields()
{
  _load = Eigen::MatrixXd::Zero(_space.count, 2 * _count);
  _field.reserve(_elements);
  for (int k = 0; k < _elements; ++k)
  {
    const ElementTable at = table(k);
    _field.push_back(field(k, at));
    const Eigen::MatrixXcd& X = _field.back();
    const auto points = static_cast<Eigen::Index>(at.points.size());
    const Gather gathered = gather(k);
    Eigen::VectorXd a(points), b(points);
    for (Eigen::Index f = 0; f < 2 * _count; ++f)
    {
      for (Eigen::Index c = 0; c < points; ++c)
      {
        const ElementPoint& x = at.points[c];
        const Complex s = X(2 * c, f % _count), z = X(2 * c + 1, f % _count);
        const double weight = two_pi * std::abs(mu(k)) * x.weight;
        a[c] = weight * 2.0 * x.s * (f < _count ? s.real() : s.imag());
        b[c] = weight * 0.5 * (f < _count ? z.real() : z.imag());
      }
      const Eigen::VectorXd local = at.tested(a, b);
      for (std::size_t i = 0; i < gathered.index.size(); ++i)
        _load(gathered.index[i], f) += gathered.sign[i] * local[static_cast<Eigen::Index>(i)];
    }
  }
}

} // namespace solver
