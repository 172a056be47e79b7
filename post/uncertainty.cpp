// The law of propagation of uncertainty: sensitivities, variances, effective degrees of freedom.
#include "post/uncertainty.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numbers>
#include <stdexcept>

namespace post
{
namespace
{

/// The model's value, which must not be NaN.
double evaluated(const Model& model, std::span<const double> inputs)
{
  const double value = model(inputs);
  if (std::isnan(value))
  {
    throw std::domain_error(
        fmt::format("the model gives no number for the inputs {}", fmt::join(inputs, ", ")));
  }
  return value;
}

/// d output / d input i about `at`, whose value is given; nothing where neither side is finite.
std::optional<double> sensitivity(const Model& model, std::vector<double> at, std::size_t i,
                                  double step, double value)
{
  const double middle = at[i];
  at[i] = middle + step;
  const double above = at[i];
  const double right = evaluated(model, at);
  at[i] = middle - step;
  const double below = at[i];
  if (!(above > below))
  {
    return 0.0; // known more closely than a double can tell
  }
  const double left = evaluated(model, at);
  // Differences of the inputs as rounded, not of the step.
  if (std::isfinite(left) && std::isfinite(right))
  {
    return (right - left) / (above - below);
  }
  if (std::isfinite(right))
  {
    return (right - value) / (above - middle);
  }
  return std::isfinite(left) ? std::optional((value - left) / (middle - below)) : std::nullopt;
}

/// nu = u^4 / sum ((c u_i)^4 / nu_i) [JCGM 100:2008, G.2b].
double effective_degrees(const FirstOrder& result)
{
  double sum = 0.0;
  for (const Contribution& row : result.budget)
  {
    // As shares, so that no fourth power leaves the range of doubles.
    sum += row.share * row.share / row.degrees_of_freedom;
  }
  return sum > 0.0 ? 1.0 / sum : endless;
}

/// The next lower whole number [G.4.1]; round-off must not cost one.
double whole_degrees(double degrees_of_freedom)
{
  return degrees_of_freedom == endless ? endless : std::floor(degrees_of_freedom * (1.0 + 1e-9));
}

} // namespace

double standard_uncertainty(const UncertainInput& input)
{
  if (!(input.width >= 0.0 && input.width < endless) || !std::isfinite(input.estimate))
  {
    throw std::invalid_argument(fmt::format(
        "{}: an estimate is finite, and its width finite and not negative, got {} +- {}",
        input.name, input.estimate, input.width));
  }
  if (!(input.degrees_of_freedom >= 1.0))
  {
    throw std::invalid_argument(fmt::format("{}: degrees of freedom are at least 1, got {}",
                                            input.name, input.degrees_of_freedom));
  }
  switch (input.spread)
  {
  case Spread::normal:
    return input.width;
  case Spread::triangular:
    return input.width / std::sqrt(6.0);
  case Spread::arcsine:
    return input.width / std::numbers::sqrt2;
  case Spread::uniform:
    break;
  }
  return input.width / std::numbers::sqrt3;
}

FirstOrder first_order(std::span<const UncertainInput> inputs, double value,
                       std::span<const double> sensitivities, double coverage)
{
  if (inputs.size() != sensitivities.size())
  {
    throw std::invalid_argument(
        fmt::format("{} inputs have {} sensitivities", inputs.size(), sensitivities.size()));
  }
  FirstOrder result;
  result.value = value;
  result.coverage = coverage;
  for (std::size_t i = 0; i < inputs.size(); ++i)
  {
    const double u = standard_uncertainty(inputs[i]);
    result.budget.push_back({inputs[i].name, u, sensitivities[i], std::abs(sensitivities[i]) * u,
                             0.0, inputs[i].degrees_of_freedom});
    result.standard_uncertainty =
        std::hypot(result.standard_uncertainty, result.budget.back().contribution);
  }
  for (Contribution& row : result.budget)
  {
    const double ratio =
        result.standard_uncertainty > 0.0 ? row.contribution / result.standard_uncertainty : 0.0;
    row.share = ratio * ratio;
  }
  result.degrees_of_freedom = effective_degrees(result);
  result.coverage_factor = coverage_factor(coverage, whole_degrees(result.degrees_of_freedom));
  const double half_width = result.coverage_factor * result.standard_uncertainty;
  result.interval = {value - half_width, value + half_width};
  return result;
}

std::optional<FirstOrder> first_order(std::span<const UncertainInput> inputs, const Model& model,
                                      double coverage)
{
  constexpr double step = 0.1; // of u: the third derivative enters with a hundredth of its weight
  std::vector<double> estimates;
  std::ranges::transform(inputs, std::back_inserter(estimates), &UncertainInput::estimate);
  const double value = evaluated(model, estimates);
  if (!std::isfinite(value))
  {
    return std::nullopt;
  }
  std::vector<double> sensitivities;
  for (std::size_t i = 0; i < inputs.size(); ++i)
  {
    const double u = standard_uncertainty(inputs[i]);
    const auto slope =
        u > 0.0 ? sensitivity(model, estimates, i, step * u, value) : std::optional(0.0);
    if (!slope)
    {
      return std::nullopt;
    }
    sensitivities.push_back(*slope);
  }
  return first_order(inputs, value, sensitivities, coverage);
}

} // namespace post
