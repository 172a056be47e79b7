// The potential, then the charges it draws, then the flux function of a D with those charges.
#include "solver/electric_mesh.hpp"

#include "solver/circulation.hpp"
#include "solver/equation.hpp"
#include "solver/factor.hpp"
#include "solver/gather.hpp"

#include <Eigen/LU>

#include <cmath>
#include <numbers>

namespace solver
{

namespace
{

constexpr double two_pi = 2.0 * std::numbers::pi;

/// Everything the passes share.
struct Given
{
  const ElectricProblem& problem;
  const Space& space;
  int triangles, elements;
  std::vector<int> electrode;        ///< One a triangle.
  std::vector<int> vertex_electrode; ///< -1 between them.

  bool inside_electrode(int k) const { return k < triangles && electrode[k] >= 0; }
  double permittivity(int k) const
  {
    return epsilon0 * (k < triangles ? problem.permittivity[space.mesh.triangles[k].region] : 1.0);
  }
  Gather gather(int k) const
  {
    return k < triangles ? triangle_gather(space, k) : exterior_gather(space, k - triangles);
  }
  ElementTable table(int k, Care care) const
  {
    return k < triangles ? triangle_table(space, k, care)
                         : exterior_table(space, k - triangles, care);
  }
};

Given given(const ElectricProblem& problem, const Space& space)
{
  const auto triangles = static_cast<int>(space.mesh.triangles.size());
  Given g{problem,
          space,
          triangles,
          triangles + static_cast<int>(space.exteriors.size()),
          electrodes(space.mesh, problem),
          std::vector<int>(space.mesh.vertices.size(), -1)};
  for (int k = 0; k < triangles; ++k)
    for (const int v : space.mesh.triangles[k].vertices)
      if (g.electrode[k] >= 0)
        g.vertex_electrode[v] = g.electrode[k];
  return g;
}

/// Element matrices with the material's coefficient; an electrode's inside has no say, and only its
/// own inner functions, eliminated before any is held, are kept at zero.
std::vector<Eigen::MatrixXd> matrices(const Given& g, Weight weight)
{
  std::vector<Eigen::MatrixXd> list;
  for (int k = 0; k < g.elements; ++k)
  {
    const double eps = g.permittivity(k);
    const double coefficient = weight == Weight::times_r ? eps : 1.0 / eps;
    const auto size = static_cast<Eigen::Index>(g.gather(k).index.size());
    Eigen::MatrixXd K = Eigen::MatrixXd::Zero(size, size);
    if (g.inside_electrode(k))
      K.diagonal().tail(size - Eigen::Index{3} * g.space.order).setOnes();
    else
      K = coefficient * (k < g.triangles ? triangle_matrix(g.space, k, weight)
                                         : exterior_matrix(g.space, k - g.triangles, weight));
    list.push_back(std::move(K));
  }
  return list;
}

/// The sum of all elements' K times u.
Eigen::MatrixXd applied(const Given& g, const std::vector<Eigen::MatrixXd>& K,
                        const Eigen::MatrixXd& u)
{
  Eigen::MatrixXd sum = Eigen::MatrixXd::Zero(u.rows(), u.cols());
  for (int k = 0; k < g.elements; ++k)
  {
    const Gather at = g.gather(k);
    if (!g.inside_electrode(k))
      scatter(at, K[k] * gathered(at, u), sum);
  }
  return sum;
}

Eigen::MatrixXd solved(const Given& g, const std::vector<Eigen::MatrixXd>& K,
                       const std::vector<bool>& held, const Eigen::MatrixXd& loads, int& unknowns)
{
  const Equation<double> equation(g.space, held, [&](int k) { return K[k]; });
  unknowns += equation.unknowns();
  const Factor factor(equation.matrix());
  return equation.expanded(factor.solve(equation.reduced(loads)), loads);
}

/// Degrees of freedom inside electrodes and on their surface.
std::vector<bool> held_potential(const Given& g)
{
  std::vector<bool> held(g.space.count, false);
  for (int k = 0; k < g.triangles; ++k)
    if (g.electrode[k] >= 0)
      for (const int i : g.gather(k).index)
        held[i] = true;
  return held;
}

/// Degrees of freedom on the axis, and those that only electrodes have.
std::vector<bool> held_flux(const Given& g)
{
  std::vector<bool> held(g.space.count, true);
  for (int k = 0; k < g.elements; ++k)
    if (!g.inside_electrode(k))
      for (const int i : g.gather(k).index)
        held[i] = false;
  for (int i = 0; i < g.space.count; ++i)
    held[i] = held[i] || g.space.on_axis[i];
  return held;
}

/// All held potentials, then all floating groups, case by case: electrodes by columns.
Eigen::MatrixXd columns(const ElectricProblem& problem)
{
  Eigen::Index count = 0;
  for (const ElectricCase& one : problem.cases)
    count += 1 + one.floating.cols();
  Eigen::MatrixXd all(problem.cases.front().held.size(), count);
  Eigen::Index at = 0;
  for (const ElectricCase& one : problem.cases)
  {
    all.col(at++) = one.held;
    all.middleCols(at, one.floating.cols()) = one.floating;
    at += one.floating.cols();
  }
  return all;
}

/// Columns to cases: the potential of each floating group that leaves it no charge.
Eigen::MatrixXd combination(const ElectricProblem& problem, const Eigen::MatrixXd& charge)
{
  const auto cases = static_cast<Eigen::Index>(problem.cases.size());
  Eigen::MatrixXd made = Eigen::MatrixXd::Zero(charge.cols(), cases);
  Eigen::Index at = 0;
  for (Eigen::Index c = 0; c < cases; ++c)
  {
    const Eigen::MatrixXd& floating = problem.cases[c].floating;
    const Eigen::Index groups = floating.cols();
    made(at, c) = 1.0;
    if (groups > 0)
    {
      const Eigen::MatrixXd own = floating.transpose() * charge.middleCols(at + 1, groups);
      const Eigen::VectorXd drawn = floating.transpose() * charge.col(at);
      made.col(c).segment(at + 1, groups) = -own.partialPivLu().solve(drawn);
    }
    at += 1 + groups;
  }
  return made;
}

void solve_potential(const Given& g, ElectricMesh& made)
{
  const std::vector<Eigen::MatrixXd> K = matrices(g, Weight::times_r);
  const Eigen::MatrixXd all = columns(g.problem);
  Eigen::MatrixXd lift = Eigen::MatrixXd::Zero(g.space.count, all.cols());
  for (std::size_t v = 0; v < g.vertex_electrode.size(); ++v)
    if (g.vertex_electrode[v] >= 0)
      lift.row(static_cast<Eigen::Index>(v)) = all.row(g.vertex_electrode[v]);
  const Eigen::MatrixXd u =
      lift + solved(g, K, held_potential(g), -applied(g, K, lift), made.unknowns);
  // The charge is a(u, w), w any function that is 1 on the electrode: the sum of its hats.
  const Eigen::MatrixXd drawn = applied(g, K, u);
  Eigen::MatrixXd charge = Eigen::MatrixXd::Zero(all.rows(), all.cols());
  for (std::size_t v = 0; v < g.vertex_electrode.size(); ++v)
    if (g.vertex_electrode[v] >= 0)
      charge.row(g.vertex_electrode[v]) += drawn.row(static_cast<Eigen::Index>(v));
  const Eigen::MatrixXd to_cases = combination(g.problem, charge);
  made.potential = u * to_cases;
  made.voltage = all * to_cases;
  made.charge = charge * to_cases;
}

/// Flux function of a unit charge at the box's middle [C / 2 pi], less its value on the axis
/// beside.
double point_flux(double s, double z, bool above)
{
  const double R = std::hypot(std::sqrt(s), z);
  return (above ? s / (R + z) : -s / (R - z)) / (2.0 * two_pi * R);
}

bool above(const Space& space, mesh::Edge e)
{
  return space.mesh.vertices[e.a].z + space.mesh.vertices[e.b].z > 2.0 * space.mesh.box.middle;
}

/// The edge's ends, as point_flux() has them.
std::array<double, 2> end_fluxes(const Space& space, mesh::Edge e)
{
  const auto at = [&](int v)
  {
    const mesh::Vertex& x = space.mesh.vertices[v];
    return point_flux(x.s, x.z - space.mesh.box.middle, above(space, e));
  };
  return {at(e.a), at(e.b)};
}

/// Charges carried through the triangles to the box, which they leave as if they sat in its middle.
std::vector<Eigen::Vector3d> carried(const Given& g, const Eigen::VectorXd& charge)
{
  const auto& triangles = g.space.mesh.triangles;
  std::vector<Eigen::Vector3d> step(triangles.size(), Eigen::Vector3d::Zero());
  std::vector<bool> placed(charge.size(), false);
  mesh::EdgeMap<bool> outer;
  for (const mesh::Edge& e : g.space.mesh.outer)
    outer.emplace(e, true);
  for (int k = 0; k < g.triangles; ++k)
  {
    if (const int own = g.electrode[k]; own >= 0 && !placed[own])
    {
      placed[own] = true;
      step[k][0] = charge[own] / two_pi;
    }
    for (int i = 0; i < 3; ++i)
    {
      const int a = triangles[k].vertices[i], b = triangles[k].vertices[(i + 1) % 3];
      const mesh::Edge e = mesh::edge(a, b);
      if (!outer.contains(e))
        continue;
      const auto [at_a, at_b] = end_fluxes(g.space, e);
      step[k][i] = charge.sum() * (a == e.a ? at_b - at_a : at_a - at_b);
    }
  }
  return flux_offsets(g.space, step);
}

/// Gradient of the carried flux function at the points of a ray element, for a unit charge in all:
/// a point charge's at infinity, its trace on the box made linear between the edge's ends.
Eigen::Matrix2Xd outward(const Given& g, int exterior, const ElementTable& table)
{
  const mesh::Edge e = g.space.exteriors[exterior].edge;
  const std::array<double, 2> ends = end_fluxes(g.space, e);
  Eigen::Matrix2Xd made(2, static_cast<Eigen::Index>(table.points.size()));
  for (Eigen::Index c = 0; c < made.cols(); ++c)
  {
    const ElementPoint& x = table.points[c];
    const double z = x.z - g.space.mesh.box.middle, R = std::hypot(std::sqrt(x.s), z);
    const double t = table.shapes->value(0, c) + table.shapes->value(1, c);
    const double value = point_flux(x.s, z, above(g.space, e));
    const Eigen::Vector2d point =
        Eigen::Vector2d(0.5 * z, -x.s) / (2.0 * two_pi * R * R * R); // of -z / R
    made.col(c) = (1.0 - t) * point;
    for (int i = 0; i < 2; ++i)
      made.col(c) += (ends[i] - value) * x.gradient *
                     Eigen::Vector2d(table.shapes->d1(i, c), table.shapes->d2(i, c));
  }
  return made;
}

using Offsets = std::vector<std::vector<Eigen::Vector3d>>; // cases by triangles

void solve_flux(const Given& g, const Offsets& offset, ElectricMesh& made)
{
  const std::vector<Eigen::MatrixXd> K = matrices(g, Weight::over_r);
  const Eigen::Index cases = made.charge.cols();
  Eigen::MatrixXd load = Eigen::MatrixXd::Zero(g.space.count, cases);
  for (int k = 0; k < g.elements; ++k)
  {
    if (g.inside_electrode(k))
      continue;
    Eigen::MatrixXd part(K[k].rows(), cases);
    if (k < g.triangles)
      for (Eigen::Index c = 0; c < cases; ++c)
        part.col(c) = -K[k].leftCols<3>() * offset[c][k];
    else
    {
      const ElementTable table = g.table(k, Care::solving);
      const Eigen::Matrix2Xd out = outward(g, k - g.triangles, table);
      Eigen::VectorXd a(out.cols()), b(out.cols());
      for (Eigen::Index q = 0; q < out.cols(); ++q)
      {
        const ElementPoint& x = table.points[q];
        a[q] = -two_pi / epsilon0 * x.weight * 2.0 * out(0, q);
        b[q] = -two_pi / epsilon0 * x.weight * out(1, q) / (2.0 * x.s);
      }
      part = table.tested(a, b) * made.charge.colwise().sum();
    }
    scatter(g.gather(k), part, load);
  }
  made.flux = solved(g, K, held_flux(g), load, made.unknowns);
}

/// int eps |E|^2 and int |D - eps E|^2 / eps of one element.
void add_sums(const Given& g, int k, const Offsets& offset, ElectricMesh& made)
{
  const Gather at = g.gather(k);
  const ElementTable table = g.table(k, Care::bracketing);
  const Eigen::Index cases = made.charge.cols();
  Eigen::MatrixXd psi_local = gathered(at, made.flux);
  for (Eigen::Index c = 0; c < cases && k < g.triangles; ++c)
    psi_local.col(c).head<3>() += offset[c][k];
  const ElementTable::Gradients psi = table.gradients(psi_local),
                                u = table.gradients(gathered(at, made.potential));
  const Eigen::Matrix2Xd out = k < g.triangles ? Eigen::Matrix2Xd::Zero(2, u.d_s.cols()).eval()
                                               : outward(g, k - g.triangles, table);
  const Eigen::VectorXd total = made.charge.colwise().sum();
  const double eps = g.permittivity(k);
  for (Eigen::Index q = 0; q < u.d_s.cols(); ++q)
  {
    const ElementPoint& x = table.points[q];
    for (Eigen::Index c = 0; c < cases; ++c)
    {
      // D_r = -psi_z / r, D_z = 2 psi_s; E_r = -2 r u_s, E_z = -u_z; dV = pi ds dz.
      const double r = std::sqrt(x.s), weight = 0.5 * two_pi * x.weight;
      const double D_r = -(psi.d_z(c, q) + total[c] * out(1, q)) / r,
                   D_z = 2.0 * (psi.d_s(c, q) + total[c] * out(0, q));
      const double E_r = -2.0 * r * u.d_s(c, q), E_z = -u.d_z(c, q);
      const double off_r = D_r - eps * E_r, off_z = D_z - eps * E_z;
      made.energy[c] += weight * eps * (E_r * E_r + E_z * E_z);
      made.gap(k, c) += weight / eps * (off_r * off_r + off_z * off_z);
    }
  }
}

} // namespace

ElectricMesh electric_mesh(const ElectricProblem& problem, const Space& space)
{
  const Given g = given(problem, space);
  ElectricMesh made;
  solve_potential(g, made);
  Offsets offset;
  for (Eigen::Index c = 0; c < made.charge.cols(); ++c)
    offset.push_back(carried(g, made.charge.col(c)));
  solve_flux(g, offset, made);
  made.energy = Eigen::VectorXd::Zero(made.charge.cols());
  made.gap = Eigen::MatrixXd::Zero(g.elements, made.charge.cols());
  for (int k = 0; k < g.elements; ++k)
    if (!g.inside_electrode(k))
      add_sums(g, k, offset, made);
  return made;
}

} // namespace solver
