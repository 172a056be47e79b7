// What the tests of drawing share: a model, a run of it, the normal's distribution.
#pragma once

#include "post/monte_carlo.hpp"

#include <cmath>
#include <numbers>

namespace post_tests
{

inline constexpr std::size_t million = 1000000;

inline double sum(std::span<const double> x)
{
  double total = 0.0;
  for (const double one : x)
  {
    total += one;
  }
  return total;
}

inline double first(std::span<const double> x)
{
  return x[0];
}

inline post::MonteCarlo drawn(const std::vector<post::UncertainInput>& inputs,
                              const post::Model& model, std::size_t draws = million,
                              std::uint64_t seed = 1)
{
  return post::summary(post::outputs(inputs, model, draws, seed));
}

inline double normal_distribution(double x)
{
  return 0.5 * std::erfc(-x / std::numbers::sqrt2);
}

} // namespace post_tests
