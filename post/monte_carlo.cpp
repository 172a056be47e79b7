// Drawing the inputs, and reading intervals from the sorted outputs.
#include "post/monte_carlo.hpp"

#include "post/draws.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <stdexcept>

namespace post
{
namespace
{

double drawn(const UncertainInput& input, Draws& draws)
{
  if (input.width == 0.0)
  {
    return input.estimate;
  }
  switch (input.spread)
  {
  case Spread::normal:
    return input.estimate + input.width * (input.degrees_of_freedom == endless
                                               ? draws.normal()
                                               : draws.student(input.degrees_of_freedom));
  case Spread::triangular:
    return input.estimate + input.width * draws.triangular();
  case Spread::arcsine:
    return input.estimate + input.width * draws.arcsine();
  case Spread::uniform:
    break;
  }
  return input.estimate + input.width * (2.0 * draws.uniform() - 1.0);
}

void check_drawable(std::span<const UncertainInput> inputs)
{
  for (const UncertainInput& input : inputs)
  {
    standard_uncertainty(input); // throws for what cannot be
    if (input.spread == Spread::normal && !(input.degrees_of_freedom > 2.0))
    {
      throw std::invalid_argument(
          fmt::format("{}: Student's t has a variance only with more than 2 degrees of freedom, "
                      "got {}",
                      input.name, input.degrees_of_freedom));
    }
  }
}

/// Values of sorted outputs by rank, counted from 1 as in [JCGM 101:2008, 7.7].
struct Ranks
{
  const std::vector<double>& sorted;
  double at(std::size_t rank) const { return sorted[rank - 1]; }
  std::size_t count() const { return sorted.size(); }
};

/// Standard error of the value at a rank: half the way between the ranks one sigma off.
double error_at(const Ranks& values, std::size_t rank)
{
  const auto M = static_cast<double>(values.count());
  const double p = static_cast<double>(rank) / M;
  const auto sigma = static_cast<std::size_t>(std::ceil(std::sqrt(M * p * (1.0 - p))));
  const double low = values.at(rank > sigma ? rank - sigma : 1);
  const double high = values.at(std::min(rank + sigma, values.count()));
  return low == high ? 0.0 : 0.5 * (high - low); // both may be the same infinity
}

/// The narrowest interval that holds q + 1 values.
Interval narrowest(const Ranks& values, std::size_t q, const Interval& symmetric)
{
  const std::size_t last = values.count() - q;
  Interval best{-endless, endless};
  for (std::size_t rank = 1; rank <= last; ++rank)
  {
    const Interval candidate{values.at(rank), values.at(rank + q)};
    if (std::isfinite(candidate.lower) && std::isfinite(candidate.upper) &&
        candidate.upper - candidate.lower < best.upper - best.lower)
    {
      best = candidate;
    }
  }
  if (std::isfinite(best.lower))
  {
    return best;
  }
  // None is finite. Where only one side is open, the other end goes as far as it can.
  if (std::isfinite(values.at(1)))
  {
    return {values.at(last), endless};
  }
  return std::isfinite(values.at(values.count())) ? Interval{-endless, values.at(1 + q)}
                                                  : symmetric;
}

void add_moments(MonteCarlo& result, const std::vector<double>& outputs)
{
  const auto M = static_cast<double>(outputs.size());
  double sum = 0.0;
  for (const double value : outputs)
  {
    sum += value;
  }
  const double mean = sum / M;
  double squares = 0.0;
  for (const double value : outputs)
  {
    squares += (value - mean) * (value - mean);
  }
  result.mean = mean;
  result.standard_uncertainty = std::sqrt(squares / (M - 1.0)); // [7.6]
}

} // namespace

std::vector<double> outputs(std::span<const UncertainInput> inputs, const Model& model,
                            std::size_t draws, std::uint64_t seed)
{
  check_drawable(inputs);
  Draws source(seed);
  std::vector<double> values(draws);
  std::vector<double> point(inputs.size());
  for (double& value : values)
  {
    std::ranges::transform(inputs, point.begin(),
                           [&](const UncertainInput& input) { return drawn(input, source); });
    value = model(point);
    if (std::isnan(value))
    {
      throw std::domain_error(
          fmt::format("the model gives no number for the inputs {}", fmt::join(point, ", ")));
    }
  }
  return values;
}

MonteCarlo summary(std::vector<double> outputs, double coverage)
{
  if (!(coverage > 0.0 && coverage < 1.0))
  {
    throw std::invalid_argument("a coverage lies between 0 and 1, e.g. 0.95");
  }
  if (std::ranges::any_of(outputs, [](double value) { return std::isnan(value); }))
  {
    throw std::invalid_argument("the outputs hold a value that is no number");
  }
  const std::size_t M = outputs.size();
  // [7.7.2]: q = pM, or its nearest whole number; round-off must not make 95000 of it 94999.5.
  const auto q = static_cast<std::size_t>(std::floor(coverage * static_cast<double>(M) + 0.5));
  if (q < 1 || q >= M)
  {
    throw std::invalid_argument(
        fmt::format("{} draws are too few for a coverage of {}", M, coverage));
  }
  MonteCarlo result;
  result.draws = M;
  result.coverage = coverage;
  result.minus_infinite = static_cast<std::size_t>(std::ranges::count(outputs, -endless));
  result.plus_infinite = static_cast<std::size_t>(std::ranges::count(outputs, endless));
  if (result.minus_infinite + result.plus_infinite == 0)
  {
    add_moments(result, outputs);
  }
  std::ranges::sort(outputs);
  const Ranks values{outputs};
  const std::size_t r = (M - q + 1) / 2; // whole division covers even and odd [7.7.2]
  result.median = values.at((M + 1) / 2);
  result.symmetric = {values.at(r), values.at(r + q)};
  result.symmetric_error = {error_at(values, r), error_at(values, r + q)};
  result.shortest = narrowest(values, q, result.symmetric);
  return result;
}

Agreement agreement(const FirstOrder& first, const MonteCarlo& drawn, int digits)
{
  if (digits < 1)
  {
    throw std::invalid_argument("at least one digit of an uncertainty is significant");
  }
  Agreement result;
  if (first.standard_uncertainty > 0.0)
  {
    // u = c 10^l with a whole c of that many digits; delta = 10^l / 2 [7.9.2].
    const std::string rounded = fmt::format("{:.{}e}", first.standard_uncertainty, digits - 1);
    const int power = std::stoi(rounded.substr(rounded.find('e') + 1)) - (digits - 1);
    result.tolerance = 0.5 * std::pow(10.0, power);
  }
  result.lower_gap = std::abs(first.interval.lower - drawn.symmetric.lower);
  result.upper_gap = std::abs(first.interval.upper - drawn.symmetric.upper);
  result.noise = 2.0 * std::max(drawn.symmetric_error.lower, drawn.symmetric_error.upper);
  result.agree = result.lower_gap <= result.tolerance && result.upper_gap <= result.tolerance;
  result.resolved = result.noise <= result.tolerance;
  return result;
}

} // namespace post
