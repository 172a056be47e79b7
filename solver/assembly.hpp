// Element matrices gathered into one sparse matrix, and its factorisation.
//
// The only loop over elements that scatters; every problem passes its own coefficient per element.
#pragma once

#include "solver/form.hpp"

#include <Eigen/SparseCore>

#include <memory>
#include <span>

namespace solver
{

/// @brief Which degrees of freedom an equation solves for; the others are held at zero.
struct Unknowns
{
  std::vector<int> position; ///< One a degree of freedom: its row, or -1 where held.
  int count = 0;
};
/// @brief All degrees of freedom, or those off the axis where the unknown vanishes on it.
Unknowns unknowns(const Space& space, Weight weight);

/// @brief Matrix of the form with one coefficient a triangle and one for all of outer space.
/// @tparam Scalar  double, or std::complex<double> for lossy materials (complex symmetric).
/// @return Lower triangle, rows and columns as in `unknowns`.
template <class Scalar>
Eigen::SparseMatrix<Scalar> stiffness(const Space& space, const Unknowns& unknowns, Weight weight,
                                      std::span<const Scalar> coefficient, Scalar outside);

/// @brief Factorised real symmetric positive definite matrix.
class Factor
{
public:
  /// @param lower  Lower triangle.
  /// @throws std::runtime_error when the matrix is not positive definite to round-off.
  explicit Factor(const Eigen::SparseMatrix<double>& lower);
  ~Factor();
  Factor(Factor&&) noexcept;
  Factor& operator=(Factor&&) noexcept;
  /// @brief Solves for every column, with one step of iterative refinement.
  Eigen::MatrixXd solve(const Eigen::MatrixXd& right_hand_sides) const;

private:
  struct Parts;
  std::unique_ptr<Parts> _parts;
};

} // namespace solver
