// Sparse Cholesky, kept out of the header: Eigen's factorisations are slow to compile.
#include "solver/factor.hpp"

#include "solver/block_ordering.hpp"
#include "solver/sparse_pattern.hpp"

#include <Eigen/SparseCholesky>

#include <algorithm>
#include <stdexcept>

namespace solver
{

struct Factor::Parts
{
  Eigen::SparseMatrix<double> matrix;
  Eigen::SimplicialLLT<Eigen::SparseMatrix<double>, Eigen::Lower, BlockOrdering> cholesky;
  int orderings = 0;     ///< The last one for the pattern of `matrix`.
  bool factored = false; ///< `matrix` itself.
};

Factor::Factor() : _parts(std::make_unique<Parts>()) {}

Factor::Factor(const Eigen::SparseMatrix<double>& lower) : Factor()
{
  compute(lower);
}

void Factor::compute(const Eigen::SparseMatrix<double>& lower)
{
  Parts& parts = *_parts;
  const bool alike = parts.orderings > 0 && same_pattern(lower, parts.matrix);
  if (alike && parts.factored &&
      std::equal(lower.valuePtr(), lower.valuePtr() + lower.nonZeros(), parts.matrix.valuePtr()))
    return;
  if (!alike)
  {
    parts.cholesky.analyzePattern(lower);
    ++parts.orderings;
  }
  parts.matrix = lower;
  parts.factored = false;
  parts.cholesky.factorize(parts.matrix);
  if (parts.cholesky.info() != Eigen::Success)
    throw std::runtime_error(
        "factorisation failed: a degenerate mesh, or permeabilities too far apart");
  parts.factored = true;
}

int Factor::orderings() const
{
  return _parts->orderings;
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
