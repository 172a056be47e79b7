// psi, the field beside it, phi; then residuals, energies and losses element by element.
#include "solver/harmonic_passes.hpp"

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

Passes::Passes(const Harmonic& given, Kept* kept, HarmonicFactors* factors)
    : _s(given), _space(given.space), _omega(two_pi * given.frequency),
      _triangles(static_cast<int>(given.space.mesh.triangles.size())),
      _elements(_triangles + static_cast<int>(given.space.exteriors.size())),
      _windings(static_cast<Eigen::Index>(given.problem.scene.windings.size())),
      _count(_windings + (given.problem.background ? 1 : 0)), _kept(kept), _factors(factors)
{
  find_solid_turns();
}

OnMesh Passes::run()
{
  solve_flux();
  find_eddy_currents();
  collect_fields();
  solve_potential();
  sum_residuals();
  return std::move(_made);
}

Eigen::MatrixXcd Passes::impedance_under_bias(const std::vector<Eigen::MatrixXd>& tangent)
{
  _tangent = &tangent;
  solve_flux();
  return j_unit * _omega * _made.linkage;
}

Complex Passes::mu(int element) const
{
  return mu0 * (element < _triangles ? _s.permeability[_space.mesh.triangles[element].region]
                                     : Complex(1.0));
}

double Passes::sigma(int element) const
{
  if (solid_wire(element))
    return conductivity(material(_s.problem, "copper"), _s.problem.temperature);
  return element < _triangles ? _s.conductivity[_space.mesh.triangles[element].region] : 0.0;
}

int Passes::solid(int element) const
{
  return element < _triangles ? _turn[element] : -1;
}

bool Passes::solid_wire(int element) const
{
  const int conductor = element < _triangles ? _space.mesh.triangles[element].conductor : -1;
  return conductor >= 0 && _solid[conductor] >= 0;
}

Gather Passes::gather(int element) const
{
  return element < _triangles ? triangle_gather(_space, element)
                              : exterior_gather(_space, element - _triangles);
}

ElementTable Passes::table(int element) const
{
  return element < _triangles ? triangle_table(_space, element, Care::bracketing)
                              : exterior_table(_space, element - _triangles, Care::bracketing);
}

Eigen::MatrixXd Passes::local(const Gather& at, const Eigen::MatrixXcd& global) const
{
  Eigen::MatrixXd part(at.index.size(), 2 * _count);
  for (std::size_t i = 0; i < at.index.size(); ++i)
  {
    part.row(i).head(_count) = at.sign[i] * global.row(at.index[i]).real();
    part.row(i).tail(_count) = at.sign[i] * global.row(at.index[i]).imag();
  }
  return part;
}

void Passes::solve_potential()
{
  std::vector<double> weight;
  for (int k = 0; k < _triangles; ++k)
    weight.push_back(std::abs(mu(k)));
  const Equation<double> equation(_space, Weight::times_r, weight, mu0);
  Factor own;
  Factor& factor = _factors ? _factors->potential : own;
  factor.compute(equation.matrix());
  const Eigen::MatrixXd found = equation.expanded(factor.solve(equation.reduced(_load)), _load);
  _made.field = found.leftCols(_count) + j_unit * found.rightCols(_count);
  _made.unknowns += equation.unknowns();
}

void Passes::sum_residuals()
{
  _made.eta = Eigen::MatrixXd::Zero(_elements, _count);
  const std::size_t regions = _s.permeability.size();
  _made.region_energy.assign(regions, Eigen::VectorXcd::Zero(_count));
  _made.region_loss.assign(regions, Eigen::VectorXd::Zero(_count));
  _made.winding_loss = Eigen::MatrixXd::Zero(_count, _count);
  _made.strand_field.assign(_windings, Eigen::MatrixXcd::Zero(_windings, _windings));
  Eigen::MatrixXcd form = Eigen::MatrixXcd::Zero(_count, _count);
  for (int k = 0; k < _elements; ++k)
  {
    const ElementTable at = table(k);
    const Gather gathered = gather(k);
    const ElementTable::Gradients phi = at.gradients(local(gathered, _made.field));
    const Eigen::MatrixXcd& X = _field[k];
    for (std::size_t c = 0; c < at.points.size(); ++c)
    {
      const ElementPoint& x = at.points[c];
      const auto row = static_cast<Eigen::Index>(c);
      for (Eigen::Index w = 0; w < _count; ++w)
      {
        const Complex s = X(2 * row, w) - Complex(phi.d_s(w, row), phi.d_s(_count + w, row));
        const Complex z = X(2 * row + 1, w) - Complex(phi.d_z(w, row), phi.d_z(_count + w, row));
        _made.eta(k, w) +=
            two_pi * std::abs(mu(k)) * x.weight * (2.0 * x.s * std::norm(s) + 0.5 * std::norm(z));
      }
    }
    const Eigen::MatrixXd psi = local(gathered, _made.flux);
    const ElementTable::Gradients by = at.gradients(psi);
    const Eigen::MatrixXd values = at.shapes->value.transpose() * psi;
    const Products plain = products(k, at, by, values, 0.0);
    sum_form(k, plain, form);
    sum_losses(k, _count > _windings ? products(k, at, by, values, *_s.problem.background) : plain);
    sum_strands(k, at, by);
    if (_kept)
      record(k, at, by, values, phi);
  }
  if (_kept)
    _kept->linkage = _made.linkage;
  // l(u) alone errs by the rounding of the solved matrix's integrals in the first order.
  const Eigen::MatrixXcd both = _made.linkage + _made.linkage.transpose();
  _made.linkage = both - 0.5 * (form + form.transpose()); // symmetric to the last bit
}

Passes::Products Passes::products(int k, const ElementTable& at, ElementTable::Gradients by,
                                  Eigen::MatrixXd values, double background) const
{
  const auto points = static_cast<Eigen::Index>(at.points.size());
  Eigen::VectorXd weight(points), over_2s(points), s(points);
  for (Eigen::Index c = 0; c < points; ++c)
  {
    const ElementPoint& x = at.points[static_cast<std::size_t>(c)];
    s[c] = x.s;
    weight[c] = two_pi * x.weight;
    over_2s[c] = weight[c] / (2.0 * x.s);
  }
  if (background != 0.0)
    by.d_s.row(_windings).array() += 0.5 * background;
  Products made;
  made.gradients = 2.0 * (by.d_s * weight.asDiagonal() * by.d_s.transpose());
  made.gradients += by.d_z * over_2s.asDiagonal() * by.d_z.transpose();
  if (sigma(k) == 0.0)
    return made;
  if (background != 0.0)
    values.col(_windings) += 0.5 * background * s;
  if (const int turn = solid(k); turn >= 0)
  {
    values.leftCols(_count).rowwise() -= _constant.row(turn).real();
    values.rightCols(_count).rowwise() -= _constant.row(turn).imag();
  }
  made.values = values.transpose() * over_2s.asDiagonal() * values;
  return made;
}

void Passes::sum_form(int k, const Products& of, Eigen::MatrixXcd& form) const
{
  // (a + j b)(a + j b)^T from the products of real and imaginary parts
  const auto joined = [n = _count](const Eigen::MatrixXd& parts) -> Eigen::MatrixXcd
  {
    return parts.topLeftCorner(n, n) - parts.bottomRightCorner(n, n) +
           j_unit * (parts.topRightCorner(n, n) + parts.bottomLeftCorner(n, n));
  };
  form += 1.0 / mu(k) * joined(of.gradients);
  if (of.values.size() > 0)
    form += j_unit * _omega * sigma(k) * joined(of.values);
}

void Passes::sum_losses(int k, const Products& of)
{
  const std::size_t region = k < _triangles ? _space.mesh.triangles[k].region : 0;
  const Complex nu = 1.0 / mu(k);
  for (Eigen::Index w = 0; w < _count; ++w)
  {
    const Eigen::Index v = _count + w; // of the imaginary part
    const auto norm = [w, v](const Eigen::MatrixXd& parts) { return parts(w, w) + parts(v, v); };
    const Complex square(of.gradients(w, w) - of.gradients(v, v), 2.0 * of.gradients(w, v));
    _made.region_energy[region][w] += nu * square;
    double loss = 0.5 * _omega * nu.imag() * norm(of.gradients);
    if (of.values.size() > 0)
      loss += 0.5 * _omega * _omega * sigma(k) * norm(of.values);
    if (solid_wire(k))
      _made.winding_loss(_s.layout.conductors[_space.mesh.triangles[k].conductor].winding, w) +=
          loss;
    else
      _made.region_loss[region][w] += loss;
  }
}

OnMesh on_mesh(const Harmonic& given, Kept* kept, HarmonicFactors* factors)
{
  return Passes(given, kept, factors).run();
}

Eigen::MatrixXcd impedance_under_bias(const Harmonic& given,
                                      const std::vector<Eigen::MatrixXd>& tangent)
{
  return Passes(given).impedance_under_bias(tangent);
}

} // namespace solver
