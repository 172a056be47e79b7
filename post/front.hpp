// Two wishes that pull against each other: the best of one at each level of the other.
//
// Knows numbers of coordinates, not what they mean. A local search without derivatives: it shows
// points that can be had, and proves none of them best.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

namespace post
{

struct FrontQuestion
{
  std::vector<double> own; ///< Where to begin: coordinates from 0 to 1, one or more.
  /// The two wishes, both to be made small, then what must not be above zero; nothing where there
  /// is no such design. Called by several threads at once.
  std::function<std::optional<std::vector<double>>(const std::vector<double>& at)> numbers;
  int levels = 10; ///< Of the second wish.
  int steps = 20;  ///< Most designs tried a search.
};

struct FrontPoint
{
  std::vector<double> at;
  std::vector<double> numbers;
};

struct Front
{
  std::vector<FrontPoint> points; ///< By rising second wish; none beats another in both.
  std::size_t tried = 0;
  std::size_t impossible = 0; ///< Tried, but no design.
};

/// @brief Spreads trials over the cube, searches each wish alone, then the first at each level of
///        the second (epsilon constraints); the same for any number of threads.
Front front(const FrontQuestion& question, int threads);

} // namespace post
