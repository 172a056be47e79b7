// Sparse Cholesky, kept out of the header: Eigen's factorisations are slow to compile.
#include "solver/factor.hpp"

#include <Eigen/SparseCholesky>

#include <stdexcept>

namespace solver
{

struct Factor::Parts
{
  Eigen::SparseMatrix<double> matrix;
  Eigen::SimplicialLLT<Eigen::SparseMatrix<double>, Eigen::Lower> cholesky;
};

Factor::Factor(const Eigen::SparseMatrix<double>& lower) : _parts(std::make_unique<Parts>())
{
  _parts->matrix = lower;
  _parts->cholesky.compute(_parts->matrix);
  if (_parts->cholesky.info() != Eigen::Success)
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
