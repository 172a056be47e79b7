// Eigen's LDL^T, given a complex number it takes for a real one, so that it conjugates nothing.
#include "solver/symmetric_factor.hpp"

#include "solver/block_ordering.hpp"
#include "solver/sparse_pattern.hpp"

#include <Eigen/SparseCholesky>

#include <stdexcept>

namespace solver
{

namespace
{

using Complex = std::complex<double>;

/// A complex number without a conjugate of its own.
struct Plain
{
  Complex value;
  Plain() = default;
  Plain(double real) : value(real) {}
  explicit Plain(Complex given) : value(given) {}
  Plain& operator+=(const Plain& other)
  {
    value += other.value;
    return *this;
  }
  Plain& operator-=(const Plain& other)
  {
    value -= other.value;
    return *this;
  }
  Plain& operator*=(const Plain& other)
  {
    value = product(value, other.value);
    return *this;
  }
  Plain& operator/=(const Plain& other)
  {
    value /= other.value;
    return *this;
  }
  /// Without the checks for infinity that std::complex makes.
  static Complex product(const Complex& a, const Complex& b)
  {
    return {a.real() * b.real() - a.imag() * b.imag(), a.real() * b.imag() + a.imag() * b.real()};
  }
  friend Plain operator+(Plain a, const Plain& b) { return a += b; }
  friend Plain operator*(Plain a, const Plain& b) { return a *= b; }
  friend Plain operator/(Plain a, const Plain& b) { return a /= b; }
  friend bool operator==(const Plain& a, const Plain& b) { return a.value == b.value; }
  friend bool operator!=(const Plain& a, const Plain& b) { return a.value != b.value; }
  // Eigen's other factorisation, compiled beside but never run, compares and takes roots.
  friend bool operator<=(const Plain& a, const Plain& b)
  {
    return a.value.real() <= b.value.real();
  }
  friend Plain sqrt(const Plain& a) { return Plain(std::sqrt(a.value)); }
};

} // namespace

} // namespace solver

namespace Eigen
{
template <> struct NumTraits<solver::Plain> : GenericNumTraits<double>
{
  using Real = solver::Plain;
  using NonInteger = solver::Plain;
  using Nested = solver::Plain;
  using Literal = double;
  enum
  {
    IsComplex = 0,
    IsInteger = 0,
    IsSigned = 1,
    RequireInitialization = 1,
    ReadCost = 2,
    AddCost = 2,
    MulCost = 6
  };
};
} // namespace Eigen

namespace solver
{

namespace
{

using Matrix = Eigen::SparseMatrix<Plain>;

Matrix plain(const Eigen::SparseMatrix<Complex>& from)
{
  return from.unaryExpr([](const Complex& x) { return Plain(x); });
}

} // namespace

struct SymmetricFactor::Parts
{
  Eigen::SparseMatrix<Complex> matrix;
  Eigen::SimplicialLDLT<Matrix, Eigen::Lower, BlockOrdering> ldlt;
  int orderings = 0; ///< The last one for the pattern of `matrix`.

  Eigen::MatrixXcd solved(const Eigen::MatrixXcd& b) const
  {
    using Dense = Eigen::Matrix<Plain, Eigen::Dynamic, Eigen::Dynamic>;
    const Dense x = ldlt.solve(Dense(b.unaryExpr([](const Complex& v) { return Plain(v); })));
    return x.unaryExpr([](const Plain& v) { return v.value; });
  }
};

SymmetricFactor::SymmetricFactor() : _parts(std::make_unique<Parts>()) {}
SymmetricFactor::~SymmetricFactor() = default;
SymmetricFactor::SymmetricFactor(SymmetricFactor&&) noexcept = default;
SymmetricFactor& SymmetricFactor::operator=(SymmetricFactor&&) noexcept = default;

void SymmetricFactor::compute(const Eigen::SparseMatrix<Complex>& lower)
{
  Parts& parts = *_parts;
  Eigen::SparseMatrix<Complex> given = lower;
  given.makeCompressed();
  const Matrix A = plain(given);
  if (parts.orderings == 0 || !same_pattern(given, parts.matrix))
  {
    parts.ldlt.analyzePattern(A);
    ++parts.orderings;
  }
  parts.matrix = given;
  parts.ldlt.factorize(A);
  if (parts.ldlt.info() != Eigen::Success)
    throw std::runtime_error(
        "factorisation failed: a degenerate mesh, or material properties too far apart");
}

int SymmetricFactor::orderings() const
{
  return _parts->orderings;
}

Eigen::MatrixXcd SymmetricFactor::solve(const Eigen::MatrixXcd& b) const
{
  const Parts& parts = *_parts;
  Eigen::MatrixXcd x = parts.solved(b);
  // The whole matrix from its lower triangle; selfadjointView would conjugate.
  Eigen::MatrixXcd product = parts.matrix * x;
  product += parts.matrix.transpose() * x;
  product -= parts.matrix.diagonal().asDiagonal() * x;
  x += parts.solved(b - product);
  return x;
}

} // namespace solver
