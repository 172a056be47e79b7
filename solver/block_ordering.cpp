// Groups found by comparing neighbouring columns; Eigen orders the groups.
#include "solver/block_ordering.hpp"

#include <Eigen/OrderingMethods>

#include <algorithm>

namespace solver
{

namespace
{

/// The matrix of groups: an entry where any of their unknowns couple.
Eigen::SparseMatrix<double> coupled_groups(std::span<const int> start, std::span<const int> row,
                                           const std::vector<int>& first,
                                           const std::vector<int>& group)
{
  const auto groups = static_cast<int>(first.size()) - 1;
  Eigen::SparseMatrix<double> coupled(groups, groups);
  coupled.reserve(static_cast<Eigen::Index>(row.size()));
  for (int g = 0; g < groups; ++g)
  {
    coupled.startVec(g);
    int last = -1;
    for (int k = start[first[g]]; k < start[first[g] + 1]; ++k)
      if (group[row[k]] != last)
        coupled.insertBack(last = group[row[k]], g) = 1.0;
  }
  coupled.finalize();
  return coupled;
}

} // namespace

std::vector<int> block_order(std::span<const int> start, std::span<const int> row)
{
  const auto rows = static_cast<int>(start.size()) - 1;
  const auto column = [&](int j) { return row.subspan(start[j], start[j + 1] - start[j]); };
  std::vector<int> group(rows, 0), first;
  for (int j = 0; j < rows; ++j)
  {
    if (j == 0 || !std::ranges::equal(column(j), column(j - 1)))
      first.push_back(j);
    group[j] = static_cast<int>(first.size()) - 1;
  }
  first.push_back(rows);
  BlockOrdering::PermutationType ordered;
  Eigen::AMDOrdering<int>()(coupled_groups(start, row, first, group), ordered);
  std::vector<int> steps;
  steps.reserve(rows);
  for (const int g : ordered.indices())
    for (int j = first[g]; j < first[g + 1]; ++j)
      steps.push_back(j);
  return steps;
}

} // namespace solver
