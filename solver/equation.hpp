// One equation on the space: element matrices, what lies inside an element eliminated there, the
// rest gathered into one sparse matrix.
//
// The only loop over elements that scatters; every problem passes its own coefficient per element.
// Element by element elimination of inner functions ("static condensation", [Szabo-Babuska 1991])
// halves the sparse system at order 6.
#pragma once

#include "solver/form.hpp"

#include <Eigen/Core>
#include <Eigen/SparseCore>

#include <functional>
#include <span>
#include <vector>

namespace solver
{

/// @brief Element matrix of triangle k, or of exterior element k - (number of triangles).
template <class Scalar>
using ElementMatrices =
    std::function<Eigen::Matrix<Scalar, Eigen::Dynamic, Eigen::Dynamic>(int element)>;

/// @brief An element's matrix K with its inner functions eliminated (static condensation).
template <class Scalar> struct Condensed
{
  using Matrix = Eigen::Matrix<Scalar, Eigen::Dynamic, Eigen::Dynamic>;
  Matrix outer;   ///< K_oo - K_oi K_ii^-1 K_io
  Matrix inverse; ///< K_ii^-1
  Matrix follow;  ///< K_ii^-1 K_io, inner by outer.
};
/// @param K  As ElementMatrices gives it for that element; with a constant's row last where it has
///           one.
template <class Scalar>
Condensed<Scalar> condensed(const Space& space, int element,
                            const Eigen::Matrix<Scalar, Eigen::Dynamic, Eigen::Dynamic>& K);

/// @brief The form with one coefficient a triangle and one for all of outer space.
///
/// Other equations bring their own: a reaction term adds a second matrix, a coefficient that varies
/// inside elements sums over ElementTable points. The spans must outlive the function.
template <class Scalar>
ElementMatrices<Scalar> diffusion(const Space& space, Weight weight,
                                  std::span<const Scalar> coefficient, Scalar outside);

/// @brief Degrees of freedom where symmetry makes an unknown vanish: on the axis one of weight 1/r,
/// on
///        the mirror of a halved mesh one of weight r.
std::vector<bool> held_by_symmetry(const Space& space, Weight weight);

/// @brief Unknown constants, each shared by some triangles, numbered after a space's own unknowns.
struct Constants
{
  std::span<const int> of_triangle; ///< One a triangle, -1 where it has none; empty: none at all.
  int count = 0;
};

template <class Scalar> class Equation
{
public:
  using Matrix = Eigen::Matrix<Scalar, Eigen::Dynamic, Eigen::Dynamic>;

  /// @brief Assembles any element matrices, complex ones symmetric.
  /// @param held  One a degree of freedom: held at zero. A prescribed value is a load: subtract the
  ///              matrix times a lifting of it.
  /// @param constants  A triangle with one has a matrix one larger, the constant's row last; loads
  ///                   and solutions have a row a constant after the degrees of freedom.
  Equation(const Space& space, const std::vector<bool>& held,
           const ElementMatrices<Scalar>& matrices, const Constants& constants = {});

  /// @brief Assembles elements condensed once for a coefficient of one, each times its own.
  /// @param coefficient  Of every element, no zero among them.
  Equation(const Space& space, const std::vector<bool>& held,
           const std::vector<Condensed<Scalar>>& elements, const std::vector<Scalar>& coefficient);

  /// @brief diffusion() with what weight 1/r holds on the axis.
  /// @tparam Scalar  double, or std::complex<double> for lossy materials (complex symmetric).
  Equation(const Space& space, Weight weight, std::span<const Scalar> coefficient, Scalar outside);

  /// @brief Lower triangle of the matrix left after elimination.
  const Eigen::SparseMatrix<Scalar>& matrix() const { return _matrix; }
  /// @brief Full right-hand sides (degrees of freedom by columns) as this matrix needs them.
  Matrix reduced(const Matrix& loads) const;
  /// @brief Values of all degrees of freedom from the solution of the reduced system.
  Matrix expanded(const Matrix& solution, const Matrix& loads) const;
  /// @brief Unknowns solved for, eliminated ones included.
  int unknowns() const { return _unknowns; }

private:
  /// What an element keeps: inner index -> full index, and inner^-1 times coupling.
  struct Eliminated
  {
    std::vector<int> inner;
    std::vector<int> outer; ///< Full indices; the held ones too.
    Matrix inverse;         ///< Of the inner block.
    Matrix follow;          ///< inverse times coupling, inner by outer, outer signs applied.
  };
  /// Numbers the unknowns; gathers of all elements, their inner functions last.
  std::vector<Gather> numbered(const Space& space, const std::vector<bool>& held,
                               const Constants& constants);
  void add(const Condensed<Scalar>& element, const Gather& gather,
           std::vector<Eigen::Triplet<Scalar>>& triplets);
  std::vector<int> _position; ///< Row of each degree of freedom; -1 held or eliminated.
  std::vector<Eliminated> _elements;
  Eigen::SparseMatrix<Scalar> _matrix;
  int _unknowns = 0;
};

} // namespace solver
