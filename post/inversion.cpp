// Bisection over the table's nodes, then inverse interpolation between them.
#include "post/inversion.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace post
{

namespace
{

/// x(0) of the polynomial through four points (y, x), y ascending [Neville].
double inverse(std::array<double, 4> x, const std::array<double, 4>& y)
{
  for (std::size_t order = 1; order < 4; ++order)
    for (std::size_t i = 0; i + order < 4; ++i)
      x[i] = (y[i + order] * x[i] - y[i] * x[i + 1]) / (y[i + order] - y[i]);
  return x[0];
}

/// Rising or falling from node to node, but for what the bracket leaves open.
bool falls(const FitQuestion& question, const Response& response)
{
  const std::vector<double>& y = response.log_inductance;
  const bool falling = y.back() < y.front();
  for (std::size_t j = 1; j < y.size(); ++j)
    if ((falling ? y[j] - y[j - 1] : y[j - 1] - y[j]) >
        response.half_width[j] + response.half_width[j - 1])
      throw std::domain_error("the inductance of " + response.winding +
                              " both rises and falls with " + question.key +
                              ": a reading would fit two values of it");
  return falling;
}

} // namespace

Inversion::Inversion(const FitQuestion& question, std::span<const Response> responses,
                     std::span<const FitReading> readings)
    : _responses(responses), _readings(readings)
{
  if (readings.empty())
    throw std::invalid_argument("there is no reading to fit");
  for (const FitReading& reading : readings)
    if (reading.winding >= responses.size())
      throw std::invalid_argument("a reading names a winding that is not there");
  _falling = falls(question, responses[readings.front().winding]);
  for (const FitReading& reading : readings)
    if (falls(question, responses[reading.winding]) != _falling)
      throw std::domain_error("the windings' inductances change contrary ways with " +
                              question.key);
  add_inputs(question);
  weigh();
  std::vector<double> best;
  for (const UncertainInput& input : _inputs)
    best.push_back(input.estimate);
  _inputs.back().width = bracket(unknown(best));
}

void Inversion::add_inputs(const FitQuestion& question)
{
  const auto add = [this](const std::optional<UncertainInput>& input)
  {
    if (!input)
      return -1;
    _inputs.push_back(*input);
    return static_cast<int>(_inputs.size()) - 1;
  };
  for (const FitReading& reading : _readings)
  {
    Place place;
    place.inductance = add(reading.inductance);
    place.lead = add(reading.lead);
    place.bare = add(reading.bare);
    place.loss = add(reading.loss);
    place.winding_loss = add(reading.winding_loss);
    _places.push_back(place);
  }
  _first_dimension = _inputs.size();
  for (const UncertainInput& dimension : question.dimensions)
  {
    _inputs.push_back(dimension);
    _steps.push_back(step(dimension));
  }
  _inputs.push_back({"field solution (bracket)"});
}

double Inversion::coil(std::size_t k, std::span<const double> inputs) const
{
  const Place& place = _places[k];
  double L = inputs[place.inductance];
  if (place.lead >= 0)
    L -= inputs[place.lead];
  if (place.bare < 0)
    return L;
  const Response& response = _responses[_readings[k].winding];
  double log_air = response.log_air;
  for (std::size_t d = 0; d < _steps.size(); ++d)
  {
    const double xi =
        _steps[d] > 0.0
            ? (inputs[_first_dimension + d] - _inputs[_first_dimension + d].estimate) / _steps[d]
            : 0.0;
    log_air += xi * (response.air_linear[d] + xi * response.air_quadratic[d]);
  }
  return L - inputs[place.bare] + std::exp(log_air);
}

double Inversion::mismatch(std::size_t node, std::span<const double> inputs,
                           std::span<const double> targets) const
{
  double sum = 0.0;
  for (std::size_t k = 0; k < _readings.size(); ++k)
  {
    const Response& response = _responses[_readings[k].winding];
    double y = response.log_inductance[node];
    for (std::size_t d = 0; d < _steps.size(); ++d)
      if (_steps[d] > 0.0)
      {
        const double xi =
            (inputs[_first_dimension + d] - _inputs[_first_dimension + d].estimate) / _steps[d];
        y += xi * (response.linear[d][node] + xi * response.quadratic[d][node]);
      }
    sum += _weights[k] * (y - targets[k]);
  }
  return _falling ? -sum : sum;
}

double Inversion::unknown(std::span<const double> inputs) const
{
  std::vector<double> targets;
  for (std::size_t k = 0; k < _readings.size(); ++k)
  {
    const double L = coil(k, inputs);
    if (!(L > 0.0))
      return _falling ? endless : -endless;
    targets.push_back(std::log(L) - inputs.back());
  }
  const std::vector<double>& u = _responses[_readings.front().winding].unknown;
  std::size_t low = 0, high = u.size() - 1;
  if (mismatch(low, inputs, targets) > 0.0)
    return -endless;
  if (mismatch(high, inputs, targets) < 0.0)
    return endless;
  while (high - low > 1)
  {
    const std::size_t middle = (low + high) / 2;
    (mismatch(middle, inputs, targets) > 0.0 ? high : low) = middle;
  }
  const std::size_t first = std::min(low > 0 ? low - 1 : 0, u.size() - 4);
  std::array<double, 4> x{}, y{};
  for (std::size_t i = 0; i < 4; ++i)
  {
    x[i] = std::log(u[first + i]);
    y[i] = mismatch(first + i, inputs, targets);
  }
  const double y_low = y[low - first], y_high = y[high - first];
  const double straight =
      y_high > y_low ? std::log(u[low]) - y_low / (y_high - y_low) * std::log(u[high] / u[low])
                     : std::log(u[low]);
  const bool rising = y[0] < y[1] && y[1] < y[2] && y[2] < y[3];
  const double curved = rising ? inverse(x, y) : straight;
  // A cubic that leaves its interval is none to trust.
  return std::exp(curved >= std::log(u[low]) && curved <= std::log(u[high]) ? curved : straight);
}

double Inversion::slope(std::size_t k, double at) const
{
  const Response& response = _responses[_readings[k].winding];
  const std::vector<double>& u = response.unknown;
  const std::vector<double>& y = response.log_inductance;
  const auto above = static_cast<std::size_t>(std::upper_bound(u.begin(), u.end(), at) - u.begin());
  const std::size_t high = std::clamp<std::size_t>(above, 1, u.size() - 1);
  const auto at_node = [&](std::size_t i)
  {
    const std::size_t a = i > 0 ? i - 1 : 0, b = std::min(i + 1, u.size() - 1);
    return (y[b] - y[a]) / std::log(u[b] / u[a]);
  };
  const double t =
      std::clamp(std::log(at / u[high - 1]) / std::log(u[high] / u[high - 1]), 0.0, 1.0);
  return (1.0 - t) * at_node(high - 1) + t * at_node(high);
}

void Inversion::weigh()
{
  std::vector<double> best;
  for (const UncertainInput& input : _inputs)
    best.push_back(input.estimate);
  std::vector<double> sharpness;
  double sum = 0.0;
  for (const FitReading& reading : _readings)
  {
    const double u = standard_uncertainty(reading.inductance) / reading.inductance.estimate;
    sharpness.push_back(1.0 / std::max(u * u, 1e-24));
    sum += sharpness.back();
  }
  for (const double one : sharpness)
    _weights.push_back(one / sum);
  for (int round = 0; round < 3; ++round)
  {
    const double value = unknown(best);
    if (!std::isfinite(value))
      return;
    std::vector<double> weights;
    sum = 0.0;
    for (std::size_t k = 0; k < _readings.size(); ++k)
    {
      weights.push_back(std::abs(slope(k, value)) * sharpness[k]);
      sum += weights.back();
    }
    if (!(sum > 0.0))
      return; // none answers there
    for (double& one : weights)
      one /= sum;
    _weights = weights;
  }
}

double Inversion::bracket(double unknown) const
{
  double worst = 0.0;
  for (const FitReading& reading : _readings)
  {
    const Response& response = _responses[reading.winding];
    const std::vector<double>& u = response.unknown;
    if (!std::isfinite(unknown))
    {
      worst = std::max(worst, *std::ranges::max_element(response.half_width));
      continue;
    }
    const auto above =
        static_cast<std::size_t>(std::upper_bound(u.begin(), u.end(), unknown) - u.begin());
    const std::size_t high = std::clamp<std::size_t>(above, 1, u.size() - 1);
    worst = std::max({worst, response.half_width[high - 1], response.half_width[high]});
  }
  return worst;
}

double Inversion::imaginary(std::span<const double> inputs) const
{
  const double mu = unknown(inputs);
  if (!std::isfinite(mu))
    return mu;
  const auto k = static_cast<std::size_t>(
      std::ranges::find_if(_places, [](const Place& place) { return place.loss >= 0; }) -
      _places.begin());
  const Place& place = _places.at(k);
  const double R =
      inputs[place.loss] - (place.winding_loss >= 0 ? inputs[place.winding_loss] : 0.0);
  // Z = j w L(mu' - j mu''), so R = w mu'' dL/dmu to first order, and dL/dmu = L slope / mu.
  const double omega = 2.0 * std::numbers::pi * _readings[k].frequency;
  return R * mu / (omega * coil(k, inputs) * slope(k, mu));
}

std::vector<double> Inversion::log_sensitivities() const
{
  std::vector<double> best, list;
  for (const UncertainInput& input : _inputs)
    best.push_back(input.estimate);
  const std::size_t last = _responses[_readings.front().winding].unknown.size() - 1;
  const auto misfit = [&]
  {
    std::vector<double> targets;
    for (std::size_t k = 0; k < _readings.size(); ++k)
      targets.push_back(std::log(std::max(coil(k, best), 1e-300)) - best.back());
    return mismatch(_falling ? 0 : last, best, targets);
  };
  for (std::size_t i = 0; i < _inputs.size(); ++i)
  {
    const double h = 0.1 * standard_uncertainty(_inputs[i]), middle = best[i];
    best[i] = middle + h;
    const double above = misfit();
    best[i] = middle - h;
    const double below = misfit();
    best[i] = middle;
    list.push_back(h > 0.0 ? (below - above) / (2.0 * h) : 0.0);
  }
  return list;
}

Interval Inversion::reach(std::size_t k) const
{
  const Response& response = _responses[_readings[k].winding];
  const double first = response.log_inductance.front(), last = response.log_inductance.back();
  return {std::exp(std::min(first, last)), std::exp(std::max(first, last))};
}

Interval Inversion::reach_at() const
{
  const std::vector<double>& u = _responses[_readings.front().winding].unknown;
  return _falling ? Interval{u.back(), u.front()} : Interval{u.front(), u.back()};
}

} // namespace post
