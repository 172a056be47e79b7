// The sparse equation with inner functions eliminated, real and complex, against the whole matrix.
#include "interpolant.hpp"

#include <Eigen/SparseLU>

#include <catch2/catch.hpp>

#include <algorithm>
#include <complex>

using namespace solver;
using Complex = std::complex<double>;

namespace
{

Eigen::MatrixXd random_loads(const Space& space, Weight weight, int columns)
{
  std::srand(5); // what Eigen draws from
  Eigen::MatrixXd made = Eigen::MatrixXd::Random(space.count, columns);
  for (int i = 0; i < space.count; ++i)
    if (weight == Weight::over_r && space.on_axis[i])
      made.row(i).setZero();
  return made;
}

/// 2 + cos k on triangle k: another coefficient for each.
std::vector<double> uneven(const Space& space)
{
  std::vector<double> made;
  for (std::size_t k = 0; k < space.mesh.triangles.size(); ++k)
    made.push_back(2.0 + std::cos(static_cast<double>(k)));
  return made;
}

Eigen::SparseMatrix<Complex> full(const Eigen::SparseMatrix<Complex>& lower)
{
  Eigen::SparseMatrix<Complex> upper = lower.triangularView<Eigen::StrictlyLower>();
  return Eigen::SparseMatrix<Complex>(lower + Eigen::SparseMatrix<Complex>(upper.transpose()));
}

Eigen::MatrixXcd solved(const Equation<Complex>& equation, const Eigen::MatrixXcd& loads)
{
  const Eigen::SparseMatrix<Complex> A = full(equation.matrix());
  Eigen::SparseLU<Eigen::SparseMatrix<Complex>> lu(A);
  REQUIRE(lu.info() == Eigen::Success);
  return equation.expanded(lu.solve(equation.reduced(loads)), loads);
}

Space small_space(int scene, int order)
{
  return space(mesh::coarse_mesh(mesh::layout(scenes::all()[scene].scene)), order);
}

/// Core lossy, the rest real: mu' - j mu''.
std::vector<Complex> lossy(const Space& space, double imaginary)
{
  std::vector<Complex> made;
  for (const mesh::Triangle& t : space.mesh.triangles)
    made.push_back(t.region > 0 ? Complex{80.0, -imaginary} : Complex{1.0, 0.0});
  return made;
}

} // namespace

TEST_CASE("solving gives back what the whole matrix was applied to", "[equation]")
{
  for (const int scene : {0, 6})
    for (const int order : {1, 2, 3, 6})
      for (const Weight weight : {Weight::over_r, Weight::times_r})
      {
        CAPTURE(scene, order, static_cast<int>(weight));
        const Space s = small_space(scene, order);
        const std::vector<double> coefficient = uneven(s);
        const Eigen::MatrixXd x = random_loads(s, weight, 2);
        Eigen::MatrixXd loads = whole_matrix(s, weight, coefficient, 3.0) * x;
        const Equation<double> equation(s, weight, coefficient, 3.0);
        const Eigen::MatrixXd back =
            equation.expanded(Factor(equation.matrix()).solve(equation.reduced(loads)), loads);
        // Condition of the matrix: 1e4 or so at order 6 beside the thin elements at a coating.
        CHECK((back - x).cwiseAbs().maxCoeff() < 1e-9);
        int held = 0;
        for (const bool axis : s.on_axis)
          held += weight == Weight::over_r && axis;
        CHECK(equation.unknowns() == s.count - held);
      }
}

TEST_CASE("inner functions are eliminated, so the sparse system is the skeleton's", "[equation]")
{
  const Space s = small_space(0, 6);
  const std::vector<double> coefficient = uneven(s);
  const Equation<double> equation(s, Weight::times_r, coefficient, 1.0);
  const auto triangles = static_cast<int>(s.mesh.triangles.size());
  const auto rays = static_cast<int>(s.exteriors.size());
  CHECK(equation.matrix().rows() ==
        s.count - triangles * bubble_count(6) - rays * (6 - 1) * (s.ray_order - 1));
}

TEST_CASE("a complex constant coefficient gives as many times the real matrix", "[equation]")
{
  const Space s = small_space(0, 4);
  const std::vector<double> plain = uneven(s);
  const Complex c{0.3, -1.7};
  std::vector<Complex> turned;
  for (const double value : plain)
    turned.push_back(c * value);
  for (const Weight weight : {Weight::over_r, Weight::times_r})
  {
    const Equation<double> real(s, weight, plain, 2.0);
    const Equation<Complex> complex(s, weight, turned, 2.0 * c);
    const Eigen::MatrixXcd expected = c * Eigen::MatrixXd(real.matrix()).cast<Complex>();
    const Eigen::MatrixXcd found(complex.matrix());
    REQUIRE(found.rows() == expected.rows());
    CHECK((found - expected).cwiseAbs().maxCoeff() < 1e-12 * expected.cwiseAbs().maxCoeff());
  }
}

TEST_CASE("a complex solve with real coefficients is the real solution", "[equation]")
{
  const Space s = small_space(0, 3);
  const std::vector<Complex> complex = lossy(s, 0.0);
  std::vector<double> real;
  for (const Complex& value : complex)
    real.push_back(value.real());
  const Eigen::MatrixXd loads = random_loads(s, Weight::over_r, 1);
  const Equation<double> plain(s, Weight::over_r, real, 1.0);
  const Equation<Complex> turned(s, Weight::over_r, complex, 1.0);
  const Eigen::MatrixXd x =
      plain.expanded(Factor(plain.matrix()).solve(plain.reduced(loads)), loads);
  const Eigen::MatrixXcd y = solved(turned, loads.cast<Complex>());
  CHECK((y - x.cast<Complex>()).cwiseAbs().maxCoeff() < 1e-10 * x.cwiseAbs().maxCoeff());
}

TEST_CASE("a lossy region's solution satisfies the whole complex symmetric equation", "[equation]")
{
  const Space s = small_space(0, 3);
  const std::vector<Complex> coefficient = lossy(s, 30.0);
  std::vector<double> real, imaginary;
  for (const Complex& value : coefficient)
  {
    real.push_back(value.real());
    imaginary.push_back(value.imag());
  }
  const Eigen::MatrixXcd loads = random_loads(s, Weight::times_r, 1).cast<Complex>();
  const Equation<Complex> equation(s, Weight::times_r, coefficient, Complex{1.0, 0.0});
  const Eigen::MatrixXcd x = solved(equation, loads);
  const Eigen::MatrixXcd residual =
      whole_matrix(s, Weight::times_r, real, 1.0) * x +
      Complex{0.0, 1.0} * (whole_matrix(s, Weight::times_r, imaginary, 0.0) * x) - loads;
  CHECK(residual.cwiseAbs().maxCoeff() < 1e-10 * loads.cwiseAbs().maxCoeff());
  // Lossy, so the solution itself is complex.
  CHECK(x.imag().cwiseAbs().maxCoeff() > 1e-3 * x.real().cwiseAbs().maxCoeff());
}
