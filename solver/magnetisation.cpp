// Curves, their inverses and their areas; each branch arranged so that weak fields lose no digits.
#include "solver/magnetisation.hpp"

#include "solver/interpolation.hpp"
#include "solver/problem.hpp"

#include <algorithm>
#include <cmath>

namespace solver
{

namespace
{

using std::numbers::pi;
template <class... Cases> struct Match : Cases...
{
  using Cases::operator()...;
};
template <class... Cases> Match(Cases...) -> Match<Cases...>;

/// J, dJ/dH and int J dH at H.
struct Polarisation
{
  double J = 0.0;
  double slope = 0.0;
  double area = 0.0;
};

/// x - ln(1 + x) for x >= 0, by its series where the difference would lose digits.
double less_logarithm(double x)
{
  if (x > 0.1)
    return x - std::log1p(x);
  double sum = 0.0, power = x * x;
  for (int n = 2; n < 20; ++n, power *= -x)
    sum += power / n;
  return sum;
}

Polarisation polarisation(const FroehlichKennelly& law, double H)
{
  const double c = mu0 * (law.permeability - 1.0) / law.saturation, x = c * H;
  return {law.saturation * x / (1.0 + x), law.saturation * c / ((1.0 + x) * (1.0 + x)),
          law.saturation / c * less_logarithm(x)};
}

Polarisation polarisation(const HyperbolicTangent& law, double H)
{
  const double c = mu0 * (law.permeability - 1.0) / law.saturation, x = c * H;
  const double t = std::tanh(x), half = std::sinh(0.5 * std::min(x, 1.0));
  const double log_cosh =
      x < 1.0 ? std::log1p(2.0 * half * half) : x + std::log1p(std::exp(-2.0 * x)) - std::log(2.0);
  return {law.saturation * t, law.saturation * c * (1.0 - t * t), law.saturation / c * log_cosh};
}

Polarisation polarisation(const ArcTangent& law, double H)
{
  const double J_s = 2.0 * law.saturation / pi, c = mu0 * (law.permeability - 1.0) / J_s;
  const double x = c * H;
  return {J_s * std::atan(x), J_s * c / (1.0 + x * x),
          J_s / c * (x * std::atan(x) - 0.5 * std::log1p(x * x))};
}

void check(double saturation, double permeability)
{
  if (!(saturation > 0.0) || !std::isfinite(saturation))
    throw LawFault(-1, "saturation must be positive", "give it as a flux density, e.g. \"0.4 T\"");
  if (!(permeability > 1.0) || !std::isfinite(permeability))
    throw LawFault(-1, "permeability must be above 1", "give that of weak fields, e.g. 2000");
}

/// H and dH/dB of Brauer's formula, and int_0^B H dB.
struct Strength
{
  double H = 0.0;
  double slope = 0.0;
  double energy = 0.0;
};
Strength strength(const Brauer& law, double B)
{
  const double x = law.k2 * B * B, grown = law.k1 * std::exp(x);
  return {(grown + law.k3) * B, grown * (1.0 + 2.0 * x) + law.k3,
          0.5 * (law.k1 / law.k2 * std::expm1(x) + law.k3 * B * B)};
}

/// Largest B up to which the slope dB/dH stays above mu0.
double end(const Brauer& law)
{
  if (!(law.k1 >= 0.0) || !(law.k2 > 0.0) || !(law.k3 >= 0.0) || !(law.k1 + law.k3 > 0.0))
    throw LawFault(-1, "k1, k2 and k3 must be positive", "fit them to a measured curve");
  if (!(mu0 * (law.k1 + law.k3) < 1.0) || law.k1 == 0.0)
    throw LawFault(-1, "k1 + k3 makes no material more permeable than air",
                   "give k1 + k3 below 1/mu0 = 795775 m/H, and k1 above 0");
  double low = 0.0, high = 1.0;
  while (strength(law, high).slope < 1.0 / mu0)
    high *= 2.0;
  for (int step = 0; step < 200 && high - low > 1e-16 * high; ++step)
    (strength(law, 0.5 * (low + high)).slope < 1.0 / mu0 ? low : high) = 0.5 * (low + high);
  return low;
}

MagneticState beyond(const MagneticState& end, double H)
{
  const double dH = H - end.H;
  return {H, end.B + mu0 * dH, mu0, end.coenergy + dH * (end.B + 0.5 * mu0 * dH)};
}

/// J, its slope and its area within the interval of a table that begins at node i.
Polarisation within(const CurveNodes& n, std::size_t i, double H)
{
  const double h = n.H[i + 1] - n.H[i], t = (H - n.H[i]) / h, u = 1.0 - t;
  const double y0 = n.J[i], y1 = n.J[i + 1], d0 = h * n.slope[i], d1 = h * n.slope[i + 1];
  const double t2 = t * t, t3 = t2 * t, t4 = t2 * t2;
  return {
      y0 + t2 * (3.0 - 2.0 * t) * (y1 - y0) + t * u * (d0 * u - d1 * t),
      std::max(0.0,
               (6.0 * t * u * (y1 - y0) + d0 * u * (1.0 - 3.0 * t) - d1 * t * (2.0 - 3.0 * t)) / h),
      n.area[i] + h * (y0 * t + (t3 - 0.5 * t4) * (y1 - y0) +
                       d0 * (0.5 * t2 - 2.0 / 3.0 * t3 + 0.25 * t4) + d1 * (0.25 * t4 - t3 / 3.0))};
}

std::size_t interval(const std::vector<double>& nodes, double at)
{
  const auto above = std::upper_bound(nodes.begin(), nodes.end(), at) - nodes.begin();
  return std::clamp<std::size_t>(static_cast<std::size_t>(above), 1, nodes.size() - 1) - 1;
}

Polarisation polarisation(const CurveNodes& n, double H)
{
  if (H < n.H.back())
    return within(n, interval(n.H, H), H);
  return {n.J.back(), 0.0, n.area.back() + n.J.back() * (H - n.H.back())};
}

CurveNodes curve_nodes(const CurveRows& rows)
{
  if (rows.size() < 3)
    throw LawFault(-1, "a curve needs at least three rows", "give rows of H and B from 0,0 up");
  if (rows.front().H != 0.0 || rows.front().B != 0.0)
    throw LawFault(0, "the first row must be 0,0", "put a row 0,0 in front");
  CurveNodes n;
  for (std::size_t i = 0; i < rows.size(); ++i)
  {
    if (i > 0 && !(rows[i].H > rows[i - 1].H))
      throw LawFault(static_cast<int>(i), "H must rise from row to row",
                     "sort the table, each H once");
    n.H.push_back(rows[i].H);
    n.J.push_back(rows[i].B - mu0 * rows[i].H);
    // Rows rounded in their last digit may fall by that.
    const double digit = 1e-12 * rows[i].B;
    if (i > 0 && n.J[i] < n.J[i - 1] - digit)
      throw LawFault(static_cast<int>(i),
                     "B rises less than in air from the row before: no passive material does so",
                     "correct the row, or end the table before it; beyond its end B rises as in "
                     "air");
    if (i > 0)
      n.J[i] = std::max(n.J[i], n.J[i - 1]);
  }
  if (!(n.J[1] > 0.0))
    throw LawFault(1, "B is that of air from the start", "leave the curve out for air");
  n.slope = monotone_slopes(n.H, n.J);
  n.slope.back() = 0.0; // so that the slope goes over into mu0 without a jump
  n.area.push_back(0.0);
  for (std::size_t i = 0; i + 1 < n.H.size(); ++i)
    n.area.push_back(within(n, i, n.H[i + 1]).area);
  return n;
}

MagneticState at_flux(const Brauer& law, double B)
{
  const Strength s = strength(law, B);
  return {s.H, B, 1.0 / s.slope, B * s.H - s.energy};
}

/// Root of an increasing f on [low, high] by Newton's method, halving where it would leave.
/// @param f  Returns value and slope at x.
template <class Function> double root(Function f, double low, double high, double start)
{
  double x = start;
  for (int step = 0; step < 200; ++step)
  {
    const auto [value, slope] = f(x);
    (value < 0.0 ? low : high) = x;
    double next = x - value / slope;
    if (!(next > low && next < high))
      next = value == 0.0 ? x : 0.5 * (low + high);
    if (std::abs(next - x) <= 2e-16 * std::abs(next))
      return next;
    x = next;
  }
  return x;
}

MagneticState state(double H, const Polarisation& p)
{
  return {H, mu0 * H + p.J, mu0 + p.slope, 0.5 * mu0 * H * H + p.area};
}

MagneticState at_field(const Brauer& law, double end, double H)
{
  const MagneticState last = at_flux(law, end);
  if (H >= last.H)
    return beyond(last, H);
  const auto excess = [&](double B)
  {
    const Strength s = strength(law, B);
    return std::pair{s.H - H, s.slope};
  };
  // H(B) is convex: from above Newton's method falls to the root.
  return at_flux(law, root(excess, 0.0, end, std::min(H / (law.k1 + law.k3), end)));
}

/// Field at which mu0 H + J(H) reaches B, between two fields that bound it.
/// @param curve  Polarisation at H.
template <class Curve>
MagneticState inverse(const Curve& curve, double B, double low, double high, double start)
{
  const auto excess = [&](double H)
  {
    const Polarisation p = curve(H);
    return std::pair{mu0 * H + p.J - B, mu0 + p.slope};
  };
  const double H = root(excess, low, high, start);
  MagneticState made = state(H, curve(H));
  made.B = B;
  return made;
}

MagneticState at_flux(const CurveNodes& n, double B)
{
  const double J = n.J.back();
  if (B >= mu0 * n.H.back() + J)
    return state((B - J) / mu0, polarisation(n, (B - J) / mu0));
  const auto at = [&n](std::size_t k) { return mu0 * n.H[k] + n.J[k]; };
  std::size_t i = 0, j = n.H.size() - 1; // the two nodes whose B bound it
  while (j - i > 1)
    (at((i + j) / 2) <= B ? i : j) = (i + j) / 2;
  const double share = (B - at(i)) / (at(j) - at(i));
  return inverse([&n, i](double H) { return within(n, i, H); }, B, n.H[i], n.H[j],
                 n.H[i] + share * (n.H[j] - n.H[i]));
}

/// J is concave: Newton's method climbs to the root from the greater of two lower bounds.
template <class Formula> MagneticState at_flux(const Formula& law, double B)
{
  const double low = std::max(B / (mu0 * law.permeability), (B - law.saturation) / mu0);
  return inverse([&law](double H) { return polarisation(law, H); }, B, low, B / mu0, low);
}

MagneticState at_flux(const Brauer& law, double end, double B)
{
  if (B <= end)
    return at_flux(law, B);
  const MagneticState last = at_flux(law, end);
  return beyond(last, last.H + (B - end) / mu0);
}

} // namespace

Magnetisation::Magnetisation(MagneticLaw law) : _law(std::move(law))
{
  std::visit(Match{[this](const Brauer& one) { _end = end(one); },
                   [this](const CurveRows& rows) { _nodes = curve_nodes(rows); },
                   [](const auto& one) { check(one.saturation, one.permeability); }},
             _law);
}

MagneticState Magnetisation::at_field(double H) const
{
  return std::visit(Match{[&](const Brauer& law) { return solver::at_field(law, _end, H); },
                          [&](const CurveRows&) { return state(H, polarisation(_nodes, H)); },
                          [&](const auto& law) { return state(H, polarisation(law, H)); }},
                    _law);
}

MagneticState Magnetisation::at_flux(double B) const
{
  return std::visit(Match{[&](const Brauer& law) { return solver::at_flux(law, _end, B); },
                          [&](const CurveRows&) { return solver::at_flux(_nodes, B); },
                          [&](const auto& law) { return solver::at_flux(law, B); }},
                    _law);
}

double Magnetisation::initial_permeability() const
{
  return at_field(0.0).slope / mu0;
}

double Magnetisation::saturation() const
{
  return std::visit(Match{[&](const Brauer& law)
                          { return _end - mu0 * solver::at_flux(law, _end).H; },
                          [&](const CurveRows&) { return _nodes.J.back(); },
                          [](const auto& law) { return law.saturation; }},
                    _law);
}

} // namespace solver
