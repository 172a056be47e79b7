// First order and draws of one model, then what they say together.
#include "post/fit.hpp"

#include "post/inversion.hpp"

#include <algorithm>
#include <cmath>

namespace post
{

namespace
{

std::vector<double> estimates(std::span<const UncertainInput> inputs)
{
  std::vector<double> list;
  for (const UncertainInput& input : inputs)
    list.push_back(input.estimate);
  return list;
}

Fitted propagated(std::span<const UncertainInput> inputs, const Model& model,
                  const FitOptions& options)
{
  Fitted made;
  const double value = model(estimates(inputs));
  if (std::isfinite(value))
    made.value = value;
  made.drawn = summary(outputs(inputs, model, options.draws, options.seed), options.coverage);
  made.interval = made.drawn.symmetric;
  if (made.value)
    made.first = first_order(inputs, model, options.coverage);
  if (made.first && std::isfinite(made.interval.lower) && std::isfinite(made.interval.upper))
    made.agreement = agreement(*made.first, made.drawn);
  return made;
}

/// The reading that lies farthest outside what the geometry allows.
std::optional<Impossible> impossible(const Inversion& inversion,
                                     std::span<const FitReading> readings)
{
  std::optional<Impossible> worst;
  double farthest = 0.0;
  const std::vector<double> best = estimates(inversion.inputs());
  for (std::size_t k = 0; k < readings.size(); ++k)
  {
    const double L = inversion.coil(k, best);
    const Interval reach = inversion.reach(k), at = inversion.reach_at();
    const bool below = L < reach.lower;
    const double off = below ? reach.lower - L : L > reach.upper ? L - reach.upper : 0.0;
    if (off / reach.lower <= farthest)
      continue;
    farthest = off / reach.lower;
    worst = Impossible{k, below, L, below ? reach.lower : reach.upper, below ? at.lower : at.upper};
  }
  return worst;
}

/// Largest distance between what two readings make of ln L, each less its response at the value.
double disagreement(const Inversion& inversion, std::span<const Response> responses,
                    std::span<const FitReading> readings, double value)
{
  const std::vector<double> best = estimates(inversion.inputs());
  double least = endless, most = -endless;
  for (std::size_t k = 0; k < readings.size(); ++k)
  {
    const Response& response = responses[readings[k].winding];
    const auto node = static_cast<std::size_t>(std::ranges::lower_bound(response.unknown, value) -
                                               response.unknown.begin());
    const std::size_t j = std::min(node, response.unknown.size() - 1);
    const double y = response.log_inductance[j] +
                     inversion.slope(k, value) * std::log(value / response.unknown[j]);
    const double off = std::log(inversion.coil(k, best)) - y;
    least = std::min(least, off);
    most = std::max(most, off);
  }
  return most - least;
}

} // namespace

FitResult fit(const FitQuestion& question, std::span<const Response> responses,
              std::span<const FitReading> readings, bool loss, const FitOptions& options)
{
  const Inversion inversion(question, responses, readings);
  const auto model = [&inversion](std::span<const double> x) { return inversion.unknown(x); };
  FitResult result;
  result.unknown = propagated(inversion.inputs(), model, options);
  const Interval& range = result.unknown.interval;
  if (range.upper == -endless || range.lower == endless)
  {
    result.impossible = impossible(inversion, readings);
    if (result.impossible)
      return result;
  }
  result.bracket = inversion.inputs().back().width;
  const bool closed = std::isfinite(range.lower) && std::isfinite(range.upper);
  result.budget =
      closed && result.unknown.first
          ? result.unknown.first->budget
          : first_order(inversion.inputs(), 0.0, inversion.log_sensitivities(), options.coverage)
                .budget;
  if (!result.unknown.value)
    return result;
  const double value = *result.unknown.value;
  result.sensitivity = std::abs(inversion.slope(0, value));
  result.spread = disagreement(inversion, responses, readings, value);
  const bool read =
      std::ranges::any_of(readings, [](const FitReading& one) { return one.loss.has_value(); });
  if (loss && read)
    result.imaginary = propagated(
        inversion.inputs(), [&](std::span<const double> x) { return inversion.imaginary(x); },
        options);
  return result;
}

} // namespace post
