// The ordering of unknowns in groups.
#include "solver/block_ordering.hpp"

#include <Eigen/SparseCore>

#include <catch2/catch.hpp>

#include <numeric>

namespace
{

/// A path of `groups` groups of `size` unknowns, each group coupled to its neighbours.
Eigen::SparseMatrix<double> path(int groups, int size)
{
  std::vector<Eigen::Triplet<double>> entries;
  for (int g = 0; g < groups; ++g)
    for (int h = std::max(0, g - 1); h <= std::min(groups - 1, g + 1); ++h)
      for (int i = 0; i < size; ++i)
        for (int j = 0; j < size; ++j)
          entries.emplace_back(g * size + i, h * size + j, 1.0);
  Eigen::SparseMatrix<double> made(groups * size, groups * size);
  made.setFromTriplets(entries.begin(), entries.end());
  return made;
}

std::vector<int> ordered(const Eigen::SparseMatrix<double>& matrix)
{
  return solver::block_order({matrix.outerIndexPtr(), static_cast<std::size_t>(matrix.cols() + 1)},
                             {matrix.innerIndexPtr(), static_cast<std::size_t>(matrix.nonZeros())});
}

} // namespace

TEST_CASE("an ordering in groups names every unknown once and keeps groups together", "[ordering]")
{
  for (const int size : {1, 3, 5})
    for (const int groups : {1, 2, 7, 40})
    {
      CAPTURE(size, groups);
      const std::vector<int> steps = ordered(path(groups, size));
      std::vector<int> sorted = steps, all(steps.size());
      std::sort(sorted.begin(), sorted.end());
      std::iota(all.begin(), all.end(), 0);
      CHECK(sorted == all);
      // In a path of three groups or more the two inner ones of a pair differ in what they couple
      // to.
      if (groups > 2)
        for (std::size_t i = 0; i < steps.size(); ++i)
          CHECK((i % static_cast<std::size_t>(size) == 0 || steps[i] == steps[i - 1] + 1));
    }
}

TEST_CASE("a path is eliminated from its ends: no group fills in", "[ordering]")
{
  const int groups = 30;
  const std::vector<int> steps = ordered(path(groups, 1));
  // Whoever is eliminated must by then have at most one neighbour left, but for the last two.
  std::vector<bool> gone(groups, false);
  for (const int j : steps)
  {
    const int left = (j > 0 && !gone[j - 1]) + (j + 1 < groups && !gone[j + 1]);
    CHECK(left <= 1);
    gone[j] = true;
  }
}
