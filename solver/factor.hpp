// Sparse factorisation of a real symmetric positive definite matrix.
#pragma once

#include <Eigen/SparseCore>

#include <memory>

namespace solver
{

class Factor
{
public:
  Factor();
  /// @brief A factor computed at once.
  explicit Factor(const Eigen::SparseMatrix<double>& lower);
  ~Factor();
  Factor(Factor&&) noexcept;
  Factor& operator=(Factor&&) noexcept;
  /// @brief Factorises; the ordering of the first call serves later matrices of the same pattern.
  ///        Of the matrix it holds already it keeps the factor.
  /// @param lower  Lower triangle.
  /// @throws std::runtime_error when the matrix is not positive definite to round-off.
  void compute(const Eigen::SparseMatrix<double>& lower);
  /// @brief Solves for every column, with one step of iterative refinement.
  Eigen::MatrixXd solve(const Eigen::MatrixXd& right_hand_sides) const;
  /// @brief How often a pattern was ordered.
  int orderings() const;

private:
  struct Parts;
  std::unique_ptr<Parts> _parts;
};

} // namespace solver
