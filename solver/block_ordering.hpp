// Minimum degree ordering of unknowns in groups that couple to the same others, as all functions
// of one mesh edge do: the groups are ordered instead, several times fewer.
#pragma once

#include <Eigen/SparseCore>

#include <span>
#include <vector>

namespace solver
{

/// @brief The unknown to eliminate at each step.
/// @param start,row  The columns of a matrix with both triangles, compressed: where each begins,
/// and
///                   behind the last where it ends; rows of the entries in rising order.
std::vector<int> block_order(std::span<const int> start, std::span<const int> row);

/// @brief block_order() as Eigen's sparse factorisations take an ordering.
class BlockOrdering
{
public:
  using PermutationType = Eigen::PermutationMatrix<Eigen::Dynamic, Eigen::Dynamic, int>;

  template <class Matrix> void operator()(const Matrix& matrix, PermutationType& order) const
  {
    const std::vector<int> steps =
        block_order({matrix.outerIndexPtr(), static_cast<std::size_t>(matrix.cols() + 1)},
                    {matrix.innerIndexPtr(), static_cast<std::size_t>(matrix.nonZeros())});
    order.indices() = Eigen::Map<const Eigen::VectorXi>(steps.data(), matrix.cols());
  }
};

} // namespace solver
