// Complex symmetric systems: solved, solved again on the same pattern, refused where singular.
#include "solver/symmetric_factor.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>

using solver::SymmetricFactor;

namespace
{

using Complex = std::complex<double>;
using Sparse = Eigen::SparseMatrix<Complex>;

double even(std::mt19937& random)
{
  return std::ldexp(static_cast<double>(random()), -32);
}

/// Lower triangle of A + j C, both diagonally dominant with positive diagonals; the pattern
/// depends on the first seed alone.
Sparse system(int n, unsigned pattern, unsigned values)
{
  std::mt19937 where(pattern), what(values);
  std::vector<Eigen::Triplet<Complex>> entries;
  Eigen::VectorXcd diagonal = Eigen::VectorXcd::Constant(n, Complex(1e-3, 1e-3));
  for (int i = 1; i < n; ++i)
    for (int k = 0; k < 4; ++k)
    {
      const int j = static_cast<int>(where() % static_cast<unsigned>(i));
      const Complex value(even(what) - 0.5, 30.0 * (even(what) - 0.5));
      entries.emplace_back(i, j, value);
      const Complex size(std::abs(value.real()), std::abs(value.imag()));
      diagonal[i] += size;
      diagonal[j] += size;
    }
  for (int i = 0; i < n; ++i)
    entries.emplace_back(i, i, diagonal[i]);
  Sparse lower(n, n);
  lower.setFromTriplets(entries.begin(), entries.end());
  return lower;
}

Eigen::MatrixXcd whole(const Sparse& lower)
{
  Eigen::MatrixXcd A = lower;
  for (Eigen::Index i = 0; i < A.rows(); ++i)
    for (Eigen::Index j = 0; j < i; ++j)
      A(j, i) = A(i, j);
  return A;
}

Eigen::MatrixXcd right_hand_sides(Eigen::Index n)
{
  std::mt19937 random(5);
  Eigen::MatrixXcd b(n, 3);
  for (Eigen::Index i = 0; i < b.size(); ++i)
    b(i) = {even(random) - 0.5, even(random) - 0.5};
  return b;
}

double residual(const Sparse& lower, const SymmetricFactor& factor)
{
  const Eigen::MatrixXcd b = right_hand_sides(lower.rows());
  return (whole(lower) * factor.solve(b) - b).norm() / b.norm();
}

} // namespace

TEST_CASE("complex symmetric systems are solved to round-off, nothing conjugated", "[factor]")
{
  for (const unsigned seed : {1U, 2U, 3U, 4U, 5U})
    for (const int n : {1, 2, 17, 300})
    {
      CAPTURE(seed, n);
      const Sparse lower = system(n, seed, seed);
      SymmetricFactor factor;
      factor.compute(lower);
      CHECK(residual(lower, factor) < 1e-13);
    }
}

TEST_CASE("a factor serves a second matrix, of the same pattern or another", "[factor]")
{
  const Sparse first = system(200, 1, 1), same_pattern = system(200, 1, 9),
               same_size = system(200, 7, 7), smaller = system(90, 3, 3);
  SymmetricFactor factor;
  for (const Sparse* one : {&first, &same_pattern, &same_size, &smaller, &first})
  {
    factor.compute(*one);
    CHECK(residual(*one, factor) < 1e-13);
  }
}

TEST_CASE("another pattern with as many entries is ordered anew", "[factor]")
{
  // An arrow and a chain: five unknowns and nine entries each.
  Sparse arrow(5, 5), chain(5, 5);
  for (int i = 0; i < 5; ++i)
  {
    arrow.insert(i, i) = chain.insert(i, i) = Complex(4.0, 1.0);
    if (i > 0)
    {
      arrow.insert(i, 0) = Complex(-1.0, 0.5);
      chain.insert(i, i - 1) = Complex(-1.0, 0.5);
    }
  }
  SymmetricFactor factor;
  for (const Sparse* one : {&arrow, &chain, &arrow})
  {
    factor.compute(*one);
    CHECK(residual(*one, factor) < 1e-14);
  }
}

TEST_CASE("a vanishing pivot throws", "[factor]")
{
  Sparse singular = system(20, 1, 1);
  for (Sparse::InnerIterator entry(singular, 0); entry; ++entry)
    entry.valueRef() = 0.0;
  CHECK(whole(singular).row(0).isZero(0.0));
  SymmetricFactor factor;
  CHECK_THROWS_AS(factor.compute(singular), std::runtime_error);
}
