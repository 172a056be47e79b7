// Sparse factorisation of a complex symmetric matrix, transposed and not conjugated.
//
// Without pivoting: stable where real and imaginary part are both positive semidefinite and their
// sum is definite, as every lossy magnetic problem here is [Higham 1998].
#pragma once

#include <Eigen/SparseCore>

#include <complex>
#include <memory>

namespace solver
{

class SymmetricFactor
{
public:
  SymmetricFactor();
  ~SymmetricFactor();
  SymmetricFactor(SymmetricFactor&&) noexcept;
  SymmetricFactor& operator=(SymmetricFactor&&) noexcept;
  /// @brief Factorises; the ordering of the first call serves later matrices of the same pattern.
  /// @param lower  Lower triangle.
  /// @throws std::runtime_error when a pivot vanishes.
  void compute(const Eigen::SparseMatrix<std::complex<double>>& lower);
  /// @brief Solves for every column, with one step of iterative refinement.
  Eigen::MatrixXcd solve(const Eigen::MatrixXcd& right_hand_sides) const;
  /// @brief How often a pattern was ordered.
  int orderings() const;

private:
  struct Parts;
  std::unique_ptr<Parts> _parts;
};

} // namespace solver
