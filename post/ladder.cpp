// From impedances to positive elements: where to start, all at once, fewer and fewer cells.
#include "post/ladder.hpp"

#include "post/nonnegative.hpp"

#include <Eigen/Dense>
#include <unsupported/Eigen/NonLinearOptimization>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

namespace post
{

namespace
{

using Complex = std::complex<double>;
constexpr double two_pi = 2.0 * std::numbers::pi;
constexpr double close_enough = 3e-3; // common sense for a circuit model, no source
constexpr std::size_t most_cells = 14;

/// What a deviation is relative to: R or omega L, or what is known no better.
struct Scale
{
  double resistance, reactance;
};

Scale scale(const LadderPoint& point)
{
  const double least = std::max({point.disc, 1e-12 * std::abs(point.impedance), 1e-300});
  return {std::max(std::abs(point.impedance.real()), least),
          std::max(std::abs(point.impedance.imag()), least)};
}

/// Deviations relative to their scales: of the resistances first, then of the reactances.
Eigen::VectorXd scaled(std::span<const LadderPoint> points, const auto& impedance)
{
  const auto n = static_cast<Eigen::Index>(points.size());
  Eigen::VectorXd rows(2 * n);
  for (Eigen::Index i = 0; i < n; ++i)
  {
    const LadderPoint& at = points[static_cast<std::size_t>(i)];
    const Complex Z = impedance(at);
    rows[i] = Z.real() / scale(at).resistance;
    rows[n + i] = Z.imag() / scale(at).reactance;
  }
  return rows;
}

/// A cell's impedance over its resistance, its corner at `corner` [1/s].
Complex cell(double omega, double corner)
{
  const double x = omega / corner;
  return Complex(x * x, x) / (1.0 + x * x);
}

/// Residuals over the logarithms of R0, L0, then R and corner of every cell; R0 and L0 only where
/// they are not zero. The form Eigen's solver asks for.
class Residuals
{
public:
  using Scalar = double;
  using InputType = Eigen::VectorXd;
  using ValueType = Eigen::VectorXd;
  using JacobianType = Eigen::MatrixXd;

  Residuals(std::span<const LadderPoint> points, const Ladder& shape) : _points(points)
  {
    _resistive = shape.resistance > 0.0;
    _inductive = shape.inductance > 0.0;
    _cells = shape.cells.size();
  }

  int inputs() const { return static_cast<int>(_resistive) + _inductive + 2 * int(_cells); }
  int values() const { return 2 * static_cast<int>(_points.size()); }

  Eigen::VectorXd logarithms(const Ladder& of) const
  {
    Eigen::VectorXd x(inputs());
    Eigen::Index at = 0;
    if (_resistive)
      x[at++] = std::log(of.resistance);
    if (_inductive)
      x[at++] = std::log(of.inductance);
    for (const LadderCell& one : of.cells)
    {
      x[at++] = std::log(one.resistance);
      x[at++] = std::log(one.resistance / one.inductance);
    }
    return x;
  }

  Ladder ladder(const Eigen::VectorXd& x) const
  {
    Ladder made;
    Eigen::Index at = 0;
    made.resistance = _resistive ? std::exp(x[at++]) : 0.0;
    made.inductance = _inductive ? std::exp(x[at++]) : 0.0;
    for (std::size_t k = 0; k < _cells; ++k, at += 2)
      made.cells.push_back({std::exp(x[at]), std::exp(x[at] - x[at + 1])});
    return made;
  }

  int operator()(const Eigen::VectorXd& x, Eigen::VectorXd& rows) const
  {
    const Ladder now = ladder(x);
    rows = scaled(_points, [&](const LadderPoint& at)
                  { return now.impedance(at.frequency) - at.impedance; });
    return rows.allFinite() ? 0 : -1;
  }

  int df(const Eigen::VectorXd& x, Eigen::MatrixXd& slopes) const
  {
    Eigen::Index at = 0;
    const auto column = [&](const auto& impedance)
    { slopes.col(at++) = scaled(_points, impedance); };
    if (_resistive)
      column([R = std::exp(x[at])](const LadderPoint&) { return Complex(R); });
    if (_inductive)
      column([L = std::exp(x[at])](const LadderPoint& p)
             { return Complex(0.0, two_pi * p.frequency * L); });
    for (std::size_t k = 0; k < _cells; ++k)
    {
      const double R = std::exp(x[at]), corner = std::exp(x[at + 1]);
      column([=](const LadderPoint& p) { return R * cell(two_pi * p.frequency, corner); });
      // f = jx / (1 + jx), x = omega / corner: df / d ln corner = -f / (1 + jx)
      column(
          [=](const LadderPoint& p)
          {
            const double omega = two_pi * p.frequency;
            return -R * cell(omega, corner) / Complex(1.0, omega / corner);
          });
    }
    return 0;
  }

private:
  std::span<const LadderPoint> _points;
  bool _resistive, _inductive;
  std::size_t _cells;
};

void measure(Ladder& of, std::span<const LadderPoint> points)
{
  const auto n = static_cast<Eigen::Index>(points.size());
  const Eigen::VectorXd rows = scaled(points, [&](const LadderPoint& at)
                                      { return of.impedance(at.frequency) - at.impedance; });
  const auto of_rows = [n](const auto& part) {
    return Deviation{part.cwiseAbs().maxCoeff(), part.norm() / std::sqrt(double(n))};
  };
  of.of_resistance = of_rows(rows.head(n));
  of.of_inductance = of_rows(rows.tail(n));
}

double worst(const Ladder& of)
{
  return std::max(of.of_resistance.largest, of.of_inductance.largest);
}

/// All elements at once, from the given ones; elements lost to round-off are left out.
Ladder polished(const Ladder& start, std::span<const LadderPoint> points)
{
  Residuals residuals(points, start);
  Ladder made = start;
  if (residuals.inputs() > 0 && residuals.inputs() <= residuals.values())
  {
    Eigen::VectorXd x = residuals.logarithms(start);
    Eigen::LevenbergMarquardt<Residuals> method(residuals);
    method.parameters.ftol = method.parameters.xtol = 1e-14;
    method.minimize(x);
    made = residuals.ladder(x);
  }
  std::erase_if(made.cells, [](const LadderCell& one)
                { return !(one.resistance > 1e-300 && one.inductance > 1e-300); });
  std::ranges::sort(made.cells, {},
                    [](const LadderCell& one) { return one.resistance / one.inductance; });
  measure(made, points);
  return made;
}

/// Nonnegative least squares over corners eight a decade, a decade beyond both ends.
Ladder first_guess(std::span<const LadderPoint> points)
{
  constexpr double a_decade = 8.0;
  const double from = 0.1 * two_pi * points.front().frequency,
               to = 10.0 * two_pi * points.back().frequency;
  std::vector<double> corners;
  for (double corner = from; corner < to * 1.01; corner *= std::pow(10.0, 1.0 / a_decade))
    corners.push_back(corner);
  const auto m = static_cast<Eigen::Index>(corners.size());
  Eigen::MatrixXd A(2 * static_cast<Eigen::Index>(points.size()), m + 2);
  A.col(0) = scaled(points, [](const LadderPoint&) { return Complex(1.0); });
  A.col(1) = scaled(points, [](const LadderPoint& p) { return Complex(0.0, p.frequency); });
  for (Eigen::Index k = 0; k < m; ++k)
    A.col(2 + k) =
        scaled(points, [corner = corners[static_cast<std::size_t>(k)]](const LadderPoint& p)
               { return cell(two_pi * p.frequency, corner); });
  const Eigen::VectorXd sizes = A.colwise().norm();
  A *= sizes.cwiseInverse().asDiagonal();
  const Eigen::VectorXd x =
      nonnegative_least_squares(A, scaled(points, [](const LadderPoint& p) { return p.impedance; }))
          .cwiseQuotient(sizes);
  Ladder made;
  made.resistance = x[0];
  made.inductance = x[1] / two_pi;
  bool joined = false; // a corner between two of the grid shows in both
  for (Eigen::Index k = 0; k < m; ++k)
  {
    const double R = x[2 + k], corner = corners[static_cast<std::size_t>(k)];
    if (!(R > 0.0))
    {
      joined = false;
      continue;
    }
    if (joined)
    {
      LadderCell& last = made.cells.back();
      last.inductance += R / corner;
      last.resistance += R;
    }
    else
      made.cells.push_back({R, R / corner});
    joined = !joined;
  }
  return made;
}

/// One cell fewer: the two closest corners joined, or the weakest cell left out.
Ladder with_fewer(const Ladder& of, std::span<const LadderPoint> points)
{
  const auto corner = [](const LadderCell& one) { return one.resistance / one.inductance; };
  std::size_t closest = 0, weakest = 0;
  for (std::size_t k = 1; k < of.cells.size(); ++k)
  {
    if (k + 1 < of.cells.size() && corner(of.cells[k + 1]) / corner(of.cells[k]) <
                                       corner(of.cells[closest + 1]) / corner(of.cells[closest]))
      closest = k;
    if (of.cells[k].resistance < of.cells[weakest].resistance)
      weakest = k;
  }
  Ladder without = of;
  without.cells.erase(without.cells.begin() + static_cast<std::ptrdiff_t>(weakest));
  without = polished(without, points);
  if (of.cells.size() < 2)
    return without;
  Ladder joined = of;
  joined.cells[closest].resistance += joined.cells[closest + 1].resistance;
  joined.cells[closest].inductance += joined.cells[closest + 1].inductance;
  joined.cells.erase(joined.cells.begin() + static_cast<std::ptrdiff_t>(closest) + 1);
  joined = polished(joined, points);
  return worst(joined) < worst(without) ? joined : without;
}

/// At most so many points, evenly taken, both ends among them.
std::vector<LadderPoint> thinned(std::span<const LadderPoint> points)
{
  constexpr std::size_t most = 120;
  std::vector<LadderPoint> list;
  for (std::size_t i = 0; i < std::min(points.size(), most); ++i)
    list.push_back(points[points.size() <= most ? i : i * (points.size() - 1) / (most - 1)]);
  return list;
}

} // namespace

std::complex<double> Ladder::impedance(double frequency) const
{
  const double omega = two_pi * frequency;
  Complex Z(resistance, omega * inductance);
  for (const LadderCell& one : cells)
    Z += one.resistance * cell(omega, one.resistance / one.inductance);
  return Z;
}

Ladder fitted_ladder(const std::string& winding, std::span<const LadderPoint> points)
{
  const std::vector<LadderPoint> few = thinned(points);
  std::vector<Ladder> tries = {polished(first_guess(few), few)};
  while (!tries.back().cells.empty())
    tries.push_back(with_fewer(tries.back(), few));
  // Two numbers a cell beside R0 and L0 must not outnumber what they are fitted to.
  const std::size_t most = std::min(most_cells, few.size() - 1);
  std::erase_if(tries, [most](const Ladder& one) { return one.cells.size() > most; });
  double best = std::numeric_limits<double>::infinity();
  for (const Ladder& one : tries)
    best = std::min(best, worst(one));
  const double goal = std::max(1.25 * best, close_enough);
  const auto fewest = std::find_if(tries.rbegin(), tries.rend(),
                                   [goal](const Ladder& one) { return worst(one) <= goal; });
  Ladder made = fewest == tries.rend() ? tries.back() : *fewest;
  measure(made, points);
  made.winding = winding;
  made.from = points.front().frequency;
  made.to = points.back().frequency;
  for (std::size_t i = 1; i < points.size(); ++i)
  {
    const auto L = [](const LadderPoint& at) { return at.impedance.imag() / at.frequency; };
    const double known =
        points[i].disc / points[i].frequency + points[i - 1].disc / points[i - 1].frequency;
    made.inductance_rises = made.inductance_rises || L(points[i]) > L(points[i - 1]) + known;
  }
  return made;
}

std::vector<Ladder> ladders(std::span<const FrequencyResult> results)
{
  std::vector<Ladder> list;
  if (results.size() < 2)
    return list;
  std::vector<std::vector<LadderPoint>> points;
  for (const FrequencyResult& at : results)
  {
    const std::vector<WindingImpedance> all = one_ports(at);
    points.resize(all.size());
    for (std::size_t i = 0; i < all.size(); ++i)
      points[i].push_back(
          {at.frequency, {all[i].resistance, all[i].omega * all[i].inductance}, all[i].disc});
  }
  const std::vector<WindingImpedance> named = one_ports(results.front());
  for (std::size_t i = 0; i < named.size(); ++i)
    list.push_back(fitted_ladder(named[i].name, points[i]));
  return list;
}

} // namespace post
