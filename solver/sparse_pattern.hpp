// Whether two sparse matrices have their entries in the same places, so that one ordering serves
// both.
#pragma once

#include <Eigen/SparseCore>

#include <algorithm>

namespace solver
{

/// @param a,b  Both compressed.
template <class Scalar>
bool same_pattern(const Eigen::SparseMatrix<Scalar>& a, const Eigen::SparseMatrix<Scalar>& b)
{
  return a.rows() == b.rows() && a.nonZeros() == b.nonZeros() &&
         std::equal(a.outerIndexPtr(), a.outerIndexPtr() + a.outerSize(), b.outerIndexPtr()) &&
         std::equal(a.innerIndexPtr(), a.innerIndexPtr() + a.nonZeros(), b.innerIndexPtr());
}

} // namespace solver
