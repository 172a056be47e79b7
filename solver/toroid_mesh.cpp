// i with its values held where nothing conducts, then an electric field whose curl carries the flux
// of i away, then both residuals.
#include "solver/toroid_mesh.hpp"

#include "solver/circulation.hpp"
#include "solver/eddy_field.hpp"
#include "solver/equation.hpp"
#include "solver/factor.hpp"
#include "solver/gather.hpp"
#include "solver/symmetric_factor.hpp"
#include "solver/toroid_parts.hpp"

#include <Eigen/LU>

#include <cmath>

namespace solver
{

namespace
{

using Complex = std::complex<double>;
constexpr double two_pi = 2.0 * std::numbers::pi;
constexpr Complex j_unit{0.0, 1.0};

/// Everything the passes share.
struct Given
{
  const ToroidCore& core;
  const Space& space;
  int triangles, elements;
  double omega;
  ToroidParts parts;

  Complex mu(int k) const { return mu0 * core.permeability[space.mesh.triangles[k].region]; }
  double sigma(int k) const { return core.conductivity[space.mesh.triangles[k].region]; }
  /// Where the electric field counts: conductors, and bodies they enclose.
  bool active(int k) const { return parts.conducts[k] || parts.body[k] > 0; }
};

/// An element's matrix where it has no say: its own inner functions, eliminated first, at zero.
template <class Scalar>
Eigen::Matrix<Scalar, Eigen::Dynamic, Eigen::Dynamic> idle(const Given& g, int k)
{
  using Matrix = Eigen::Matrix<Scalar, Eigen::Dynamic, Eigen::Dynamic>;
  const Gather at =
      k < g.triangles ? triangle_gather(g.space, k) : exterior_gather(g.space, k - g.triangles);
  const auto n = static_cast<Eigen::Index>(at.index.size());
  Matrix K = Matrix::Zero(n, n);
  if (k < g.triangles)
    K.diagonal().tail(n - Eigen::Index{3} * g.space.order).setOnes();
  else
    K.setIdentity();
  return K;
}

Eigen::MatrixXcd form_matrix(const Given& g, int k)
{
  Eigen::MatrixXcd K = j_unit * g.omega * g.mu(k) * triangle_reaction(g.space, k).cast<Complex>();
  if (g.parts.conducts[k])
    K += triangle_matrix(g.space, k, Weight::over_r).cast<Complex>() / g.sigma(k);
  return K;
}

/// Degrees of freedom in and on what conducts, or does not.
std::vector<bool> degrees_of(const Given& g, bool conducts)
{
  std::vector<bool> list(g.space.count, false);
  for (int k = 0; k < g.triangles; ++k)
    if (g.parts.conducts[k] == conducts)
      for (const int i : triangle_gather(g.space, k).index)
        list[i] = true;
  for (std::size_t x = 0; x < g.space.exteriors.size() && !conducts; ++x)
    for (const int i : exterior_gather(g.space, static_cast<int>(x)).index)
      list[i] = true;
  return list;
}

/// Solutions for each body that does not conduct at 1 and the others at 0, the outside first, then
/// joined so that none of the enclosed ones has a flux of its own.
void solve_current(const Given& g, ToroidMesh& made)
{
  Eigen::MatrixXcd lift = Eigen::MatrixXcd::Zero(g.space.count, g.parts.bodies);
  for (std::size_t v = 0; v < g.parts.vertex_body.size(); ++v)
    if (g.parts.vertex_body[v] >= 0)
      lift(static_cast<Eigen::Index>(v), g.parts.vertex_body[v]) = 1.0;
  std::vector<Eigen::MatrixXcd> K(g.triangles);
  Eigen::MatrixXcd loads = Eigen::MatrixXcd::Zero(g.space.count, g.parts.bodies);
  for (int k = 0; k < g.triangles; ++k)
  {
    if (!g.parts.counts[k])
      continue;
    K[k] = form_matrix(g, k);
    if (!g.parts.conducts[k])
      continue; // no function of its own
    const Gather at = triangle_gather(g.space, k);
    scatter(at, -K[k] * gathered(at, lift), loads);
  }
  const Equation<Complex> equation(
      g.space, degrees_of(g, false),
      [&](int k) { return k < g.triangles && g.parts.conducts[k] ? K[k] : idle<Complex>(g, k); });
  SymmetricFactor factor;
  factor.compute(equation.matrix());
  const Eigen::MatrixXcd u = lift + equation.expanded(factor.solve(equation.reduced(loads)), loads);
  Eigen::MatrixXcd between = Eigen::MatrixXcd::Zero(u.cols(), u.cols());
  for (int k = 0; k < g.triangles; ++k)
    if (g.parts.counts[k])
    {
      const Eigen::MatrixXcd local = gathered(triangle_gather(g.space, k), u);
      between += local.transpose() * K[k] * local;
    }
  const Eigen::Index enclosed = u.cols() - 1;
  made.share = u.col(0);
  if (enclosed > 0)
    made.share -= u.rightCols(enclosed) * between.bottomRightCorner(enclosed, enclosed)
                                              .partialPivLu()
                                              .solve(between.col(0).tail(enclosed));
  made.unknowns = equation.unknowns();
}

/// Coefficients, one column for each of the real and imaginary parts.
Eigen::MatrixXd parts_of(const Eigen::VectorXcd& u)
{
  Eigen::MatrixXd both(u.size(), 2);
  both << u.real(), u.imag();
  return both;
}

/// The flux of i as a density per reference area in each active triangle, and its zeta.
std::vector<Eigen::VectorXcd> densities(const Given& g, ToroidMesh& made)
{
  std::vector<Eigen::VectorXcd> density(g.triangles);
  made.zeta = Eigen::VectorXd::Zero(g.elements);
  for (int k = 0; k < g.triangles; ++k)
  {
    if (!g.active(k))
      continue;
    const ElementTable at = triangle_table(g.space, k, Care::bracketing);
    const Eigen::VectorXcd u = gathered(triangle_gather(g.space, k), made.share);
    Eigen::VectorXcd q = at.shapes->value.transpose() * u, by_area = q;
    for (Eigen::Index c = 0; c < q.size(); ++c)
    {
      q[c] *= j_unit * g.omega * g.mu(k) / (2.0 * at.points[c].s);
      by_area[c] = q[c] / at.points[c].gradient.determinant();
    }
    density[k] = density_coefficients(at, by_area);
    const Eigen::VectorXcd kept = at.shapes->value.transpose() * density[k];
    for (Eigen::Index c = 0; c < q.size(); ++c)
    {
      const ElementPoint& x = at.points[c];
      made.zeta[k] += two_pi * x.weight * 2.0 * x.s / (g.omega * std::abs(g.mu(k))) *
                      std::norm(kept[c] * x.gradient.determinant() - q[c]);
    }
  }
  return density;
}

/// Less the electric field of i, plus one with the curl that densities ask for: points by (s, z).
Eigen::MatrixX2cd mismatch(const Given& g, int k, const ElementTable& at,
                           const Eigen::VectorXcd& share, const Eigen::VectorXcd& density,
                           const Eigen::Vector3cd& offset)
{
  const ElementTable::Gradients i =
      at.gradients(parts_of(gathered(triangle_gather(g.space, k), share)));
  Eigen::VectorXcd vertices = Eigen::VectorXcd::Zero(at.shapes->value.rows());
  vertices.head<3>() = offset;
  const ElementTable::Gradients carried = at.gradients(parts_of(vertices));
  const Eigen::VectorXcd E_1 = eddy_table(at).E_1.transpose() * density,
                         E_2 = eddy_table(at).E_2.transpose() * density;
  Eigen::MatrixX2cd X(at.points.size(), 2);
  for (Eigen::Index c = 0; c < X.rows(); ++c)
  {
    const ElementPoint& x = at.points[c];
    X(c, 0) = Complex(i.d_z(0, c), i.d_z(1, c)) / (2.0 * x.s * g.sigma(k)) -
              Complex(carried.d_s(0, c), carried.d_s(1, c)) + x.gradient(0, 0) * E_1[c] +
              x.gradient(0, 1) * E_2[c];
    X(c, 1) = -2.0 / g.sigma(k) * Complex(i.d_s(0, c), i.d_s(1, c)) -
              Complex(carried.d_z(0, c), carried.d_z(1, c)) + x.gradient(1, 0) * E_1[c] +
              x.gradient(1, 1) * E_2[c];
  }
  return X;
}

/// The potential that takes most off the mismatch, one fixed vertex in each conducting body.
Eigen::MatrixXd solve_potential(const Given& g, const std::vector<Eigen::MatrixX2cd>& X,
                                ToroidMesh& made)
{
  Eigen::MatrixXd load = Eigen::MatrixXd::Zero(g.space.count, 2);
  for (int k = 0; k < g.triangles; ++k)
  {
    if (!g.parts.conducts[k])
      continue;
    const ElementTable at = triangle_table(g.space, k, Care::bracketing);
    Eigen::VectorXcd a(X[k].rows()), b(X[k].rows());
    for (Eigen::Index c = 0; c < a.size(); ++c)
    {
      const double weight = two_pi * g.sigma(k) * at.points[c].weight;
      a[c] = weight * 2.0 * at.points[c].s * X[k](c, 0);
      b[c] = weight * 0.5 * X[k](c, 1);
    }
    Eigen::MatrixXd part(at.shapes->value.rows(), 2);
    part << at.tested(a.real(), b.real()), at.tested(a.imag(), b.imag());
    scatter(triangle_gather(g.space, k), part, load);
  }
  std::vector<bool> held = degrees_of(g, true);
  held.flip();
  for (const int v : g.parts.fixed)
    held[v] = true;
  const Equation<double> equation(
      g.space, held,
      [&](int k)
      {
        return k < g.triangles && g.parts.conducts[k]
                   ? Eigen::MatrixXd(g.sigma(k) * triangle_matrix(g.space, k, Weight::times_r))
                   : idle<double>(g, k);
      });
  made.unknowns += equation.unknowns();
  return equation.expanded(Factor(equation.matrix()).solve(equation.reduced(load)), load);
}

void sum_eta(const Given& g, const std::vector<Eigen::MatrixX2cd>& X, const Eigen::MatrixXd& phi,
             ToroidMesh& made)
{
  made.eta = Eigen::VectorXd::Zero(g.elements);
  for (int k = 0; k < g.triangles; ++k)
  {
    if (!g.parts.conducts[k])
      continue;
    const ElementTable at = triangle_table(g.space, k, Care::bracketing);
    const ElementTable::Gradients by = at.gradients(gathered(triangle_gather(g.space, k), phi));
    for (Eigen::Index c = 0; c < X[k].rows(); ++c)
    {
      const ElementPoint& x = at.points[c];
      const Complex s = X[k](c, 0) - Complex(by.d_s(0, c), by.d_s(1, c)),
                    z = X[k](c, 1) - Complex(by.d_z(0, c), by.d_z(1, c));
      made.eta[k] +=
          two_pi * g.sigma(k) * x.weight * (2.0 * x.s * std::norm(s) + 0.5 * std::norm(z));
    }
  }
}

/// a(u, u), and what each region loses: the real part of a(u, conj u).
void sum_forms(const Given& g, ToroidMesh& made)
{
  made.region_loss.assign(g.core.permeability.size(), 0.0);
  for (int k = 0; k < g.triangles; ++k)
  {
    if (!g.parts.counts[k])
      continue;
    const ElementTable at = triangle_table(g.space, k, Care::bracketing);
    const Eigen::VectorXcd local = gathered(triangle_gather(g.space, k), made.share);
    const ElementTable::Gradients by = at.gradients(parts_of(local));
    const Eigen::VectorXcd values = at.shapes->value.transpose() * local;
    const double rho = g.parts.conducts[k] ? 1.0 / g.sigma(k) : 0.0;
    const Complex pull = j_unit * g.omega * g.mu(k);
    double& loss = made.region_loss[g.space.mesh.triangles[k].region];
    for (Eigen::Index c = 0; c < values.size(); ++c)
    {
      const ElementPoint& x = at.points[c];
      const Complex s(by.d_s(0, c), by.d_s(1, c)), z(by.d_z(0, c), by.d_z(1, c)), u = values[c];
      made.form += two_pi * x.weight *
                   (rho * (2.0 * s * s + z * z / (2.0 * x.s)) + pull * u * u / (2.0 * x.s));
      loss += two_pi * x.weight *
              (rho * (2.0 * std::norm(s) + std::norm(z) / (2.0 * x.s)) +
               pull.real() * std::norm(u) / (2.0 * x.s));
    }
  }
}

} // namespace

ToroidMesh toroid_mesh(const ToroidCore& core)
{
  const auto triangles = static_cast<int>(core.space.mesh.triangles.size());
  const Given g{core,
                core.space,
                triangles,
                triangles + static_cast<int>(core.space.exteriors.size()),
                two_pi * core.frequency,
                toroid_parts(core.space, core.conductivity)};
  ToroidMesh made;
  solve_current(g, made);
  const std::vector<Eigen::VectorXcd> density = densities(g, made);
  std::vector<Eigen::Vector3cd> own(triangles, Eigen::Vector3cd::Zero());
  for (int k = 0; k < triangles; ++k)
    if (density[k].size() > 0)
    {
      const ElementTable at = triangle_table(g.space, k, Care::bracketing);
      own[k][1] = eddy_table(at).integral.cast<Complex>().dot(density[k]);
    }
  const std::vector<Eigen::Vector3cd> offset = eddy_offsets(g.space, own);
  std::vector<Eigen::MatrixX2cd> X(triangles);
  for (int k = 0; k < triangles; ++k)
    if (g.parts.conducts[k])
      X[k] = mismatch(g, k, triangle_table(g.space, k, Care::bracketing), made.share, density[k],
                      offset[k]);
  sum_eta(g, X, solve_potential(g, X, made), made);
  sum_forms(g, made);
  return made;
}

} // namespace solver
