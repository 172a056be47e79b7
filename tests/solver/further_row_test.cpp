// A further row of the operator table entering from outside: eddy currents in a conducting ball,
// with nothing but an element-matrix function of its own.
#include "mesh/mesher.hpp"
#include "mesh/refine.hpp"
#include "solver/equation.hpp"
#include "solver/problem.hpp"

#include <Eigen/SparseLU>

#include <catch2/catch.hpp>

#include <complex>
#include <numbers>

using Complex = std::complex<double>;
using Matrix = solver::Equation<Complex>::Matrix;

namespace
{

/// 2 pi int u v / (2 s) ds dz over one triangle: the reaction term of weight 1/r.
Eigen::MatrixXd reaction(const solver::Space& space, int triangle)
{
  const solver::ElementTable table =
      solver::triangle_table(space, triangle, solver::Care::bracketing);
  Eigen::VectorXd w(table.points.size());
  for (std::size_t i = 0; i < table.points.size(); ++i)
    w[static_cast<Eigen::Index>(i)] = std::numbers::pi * table.points[i].weight / table.points[i].s;
  return table.shapes->value * w.asDiagonal() * table.shapes->value.transpose();
}

/// 2 pi int psi0 v / (2 s) ds dz over the ball, psi0 = B0 s / 2 the uniform field.
Eigen::VectorXd uniform_field_load(const solver::Space& space, double B0)
{
  Eigen::VectorXd load = Eigen::VectorXd::Zero(space.count);
  for (int k = 0; k < static_cast<int>(space.mesh.triangles.size()); ++k)
  {
    if (space.mesh.triangles[k].region == 0)
      continue;
    const solver::ElementTable table = solver::triangle_table(space, k, solver::Care::bracketing);
    Eigen::VectorXd local = Eigen::VectorXd::Zero(table.shapes->value.rows());
    for (std::size_t i = 0; i < table.points.size(); ++i)
      local += std::numbers::pi * table.points[i].weight * 0.5 * B0 *
               table.shapes->value.col(static_cast<Eigen::Index>(i));
    const solver::Gather gather = solver::triangle_gather(space, k);
    for (std::size_t i = 0; i < gather.index.size(); ++i)
      load[gather.index[i]] += gather.sign[i] * local[static_cast<Eigen::Index>(i)];
  }
  return load;
}

/// Dipole factor D of a non-magnetic ball of radius a with omega mu0 sigma a^2 = x2 in a uniform
/// field: beyond it psi = B0 D a^3 r^2 / (2 rho^3), so at its equator psi = B0 D a^2 / 2.
Complex dipole_factor(double x2)
{
  const double a = 1e-2, B0 = 1.0;
  mesh::Scene scene;
  scene.parts.push_back({"ball", mesh::Ring{0.0, 2.0 * a}, "copper", 0.0, std::nullopt});
  mesh::Mesh mesh = mesh::coarse_mesh(mesh::layout(scene));
  for (int round = 0; round < 3; ++round)
    mesh = mesh::refined(mesh, {std::vector<int>(mesh.triangles.size(), 1),
                                std::vector<int>(mesh.vertices.size(), 0)});
  const solver::Space space = solver::space(std::move(mesh), 7);
  const Complex c{0.0, x2 / (solver::mu0 * a * a)}; // j omega sigma
  const std::vector<Complex> nu(space.mesh.triangles.size(), 1.0 / solver::mu0);
  const auto diffusion = solver::diffusion<Complex>(space, solver::Weight::over_r, nu, nu[0]);
  const auto eddy = [&](int element)
  {
    Matrix K = diffusion(element);
    if (element < static_cast<int>(nu.size()) && space.mesh.triangles[element].region > 0)
      K += c * reaction(space, element).cast<Complex>();
    return K;
  };
  const solver::Equation<Complex> equation(
      space, solver::held_by_symmetry(space, solver::Weight::over_r), eddy);
  const Matrix load = -c * uniform_field_load(space, B0).cast<Complex>();
  Eigen::SparseMatrix<Complex> upper = equation.matrix().triangularView<Eigen::StrictlyLower>();
  const Eigen::SparseMatrix<Complex> A =
      equation.matrix() + Eigen::SparseMatrix<Complex>(upper.transpose());
  Eigen::SparseLU<Eigen::SparseMatrix<Complex>> lu(A);
  const Matrix psi = equation.expanded(lu.solve(equation.reduced(load)), load);
  for (std::size_t v = 0; v < space.mesh.vertices.size(); ++v)
    if (std::abs(space.mesh.vertices[v].z) < 1e-12 &&
        std::abs(space.mesh.vertices[v].r() - a) < 1e-12)
      return psi(static_cast<Eigen::Index>(v), 0) * 2.0 / (B0 * a * a);
  FAIL("no vertex at the equator");
  return 0.0;
}

} // namespace

TEST_CASE("eddy currents in a ball enter by an element matrix of their own", "[equation]")
{
  // Smythe, Static and Dynamic Electricity; Wait, Geophysics 16, 666 (1951): D = (2 - G)/(1 + G),
  // G = u j0(u)/j1(u) - 1, u = a sqrt(-j omega mu0 sigma); 8 digits computed from it.
  const Complex mild = dipole_factor(1.0), strong = dipole_factor(9.0);
  CAPTURE(mild, strong);
  // 1e-6: order 7 on a mesh bisected three times, field smooth in ball and air.
  CHECK(std::abs(mild - Complex(-0.00628572, -0.06603817)) < 1e-6);
  CHECK(std::abs(strong - Complex(-0.28437616, -0.34652225)) < 1e-6);
}
