// Sparse Cholesky, kept out of the header: Eigen's factorisations are slow to compile.
#include "solver/factor.hpp"

#include <Eigen/SparseCholesky>

#include <algorithm>
#include <stdexcept>

namespace solver
{

namespace
{

/// Both compressed.
bool same_pattern(const Eigen::SparseMatrix<double>& a, const Eigen::SparseMatrix<double>& b)
{
  return a.rows() == b.rows() && a.nonZeros() == b.nonZeros() &&
         std::equal(a.outerIndexPtr(), a.outerIndexPtr() + a.outerSize(), b.outerIndexPtr()) &&
         std::equal(a.innerIndexPtr(), a.innerIndexPtr() + a.nonZeros(), b.innerIndexPtr());
}

} // namespace

struct Factor::Parts
{
  Eigen::SparseMatrix<double> matrix;
  Eigen::SimplicialLLT<Eigen::SparseMatrix<double>, Eigen::Lower> cholesky;
  bool ordered = false; ///< For the pattern of `matrix`.
};

Factor::Factor() : _parts(std::make_unique<Parts>()) {}

Factor::Factor(const Eigen::SparseMatrix<double>& lower) : Factor()
{
  compute(lower);
}

void Factor::compute(const Eigen::SparseMatrix<double>& lower)
{
  Parts& parts = *_parts;
  if (!parts.ordered || !same_pattern(lower, parts.matrix))
    parts.cholesky.analyzePattern(lower);
  parts.ordered = true;
  parts.matrix = lower;
  parts.cholesky.factorize(parts.matrix);
  if (parts.cholesky.info() != Eigen::Success)
    throw std::runtime_error(
        "factorisation failed: a degenerate mesh, or permeabilities too far apart");
}

Factor::~Factor() = default;
Factor::Factor(Factor&&) noexcept = default;
Factor& Factor::operator=(Factor&&) noexcept = default;

Eigen::MatrixXd Factor::solve(const Eigen::MatrixXd& right_hand_sides) const
{
  Eigen::MatrixXd x = _parts->cholesky.solve(right_hand_sides);
  const Eigen::MatrixXd residual =
      right_hand_sides - _parts->matrix.selfadjointView<Eigen::Lower>() * x;
  x += _parts->cholesky.solve(residual);
  return x;
}

} // namespace solver
