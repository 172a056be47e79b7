// The Bessel integral, panel by panel. P is itself a quadrature: no Struve functions in Boost.
#include "reference/thick_coils.hpp"

#include "reference/loops.hpp"

#include <boost/math/quadrature/gauss.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace reference
{
namespace
{

using boost::math::quadrature::gauss;
using std::numbers::pi;

/// Integral of x J1(x) from 0 to x > 30, (pi x/2) (J1 H0 - J0 H1), Struve's H by its asymptotic
/// series H = Y + (2/pi) (1/x - 1/x^3 + 9/x^5 ...) resp. (2/pi) (1 + 1/x^2 - 3/x^4 + 45/x^6 ...).
double moment(double x)
{
  double R0 = 0.0;
  double R1 = 1.0;
  double term = 1.0 / x;
  for (int n = 1; n <= 14; ++n)
  {
    R0 += term;
    const double odd = 2 * n - 1;
    R1 += term * odd / x;
    term *= -odd * odd / (x * x);
  }
  return 1.0 + x * (j1(x) * R0 - j0(x) * R1);
}

/// Integral of x J1(x) from k r_inner to k r_outer.
double radial(const Section& section, double k)
{
  const double low = k * section.r_inner;
  const double high = k * section.r_outer;
  if (low > 30.0)
  {
    return moment(high) - moment(low);
  }
  const int panels = 1 + static_cast<int>((high - low) / 4.0);
  double sum = 0.0;
  for (int i = 0; i < panels; ++i)
  {
    const double from = low + (high - low) * i / panels;
    const double to = low + (high - low) * (i + 1) / panels;
    sum += gauss<double, 15>::integrate([](double x) { return x * j1(x); }, from, to);
  }
  return sum;
}

/// k^2 times a function whose second derivative in u is exp(-k|u|), less 1: e^-x - 1 + x.
double twice_integrated(double x)
{
  // Series below 1/8, where the plain form loses digits.
  return x < 0.125
             ? x * x / 2.0 *
                   (1 - x / 3 * (1 - x / 4 * (1 - x / 5 * (1 - x / 6 * (1 - x / 7 * (1 - x / 8))))))
             : std::expm1(-x) + x;
}

/// What the mean of the swinging integrand adds beyond k: edges at the same radius r beat together,
/// P1 P2 -> +-k r/pi, and the common length gives Z -> 2 overlap/k.
double mean_tail(const Section& a, const Section& b, double k)
{
  const double overlap = std::min(a.z_high, b.z_high) - std::max(a.z_low, b.z_low);
  const double edges_a[] = {-a.r_inner, a.r_outer}; // sign: how the edge enters P
  const double edges_b[] = {-b.r_inner, b.r_outer};
  double edges = 0.0;
  for (const double r : edges_a)
  {
    for (const double other : edges_b)
    {
      if (std::abs(r) == std::abs(other))
      {
        edges += r == other ? std::abs(r) : -std::abs(r);
      }
    }
  }
  return overlap > 0.0 ? edges / pi * 2.0 * overlap / (3.0 * k * k * k) : 0.0;
}

double axial(const Section& a, const Section& b, double k)
{
  const auto G = [k](double u) { return twice_integrated(k * std::abs(u)) / (k * k); };
  return G(a.z_high - b.z_low) + G(a.z_low - b.z_high) - G(a.z_high - b.z_high) -
         G(a.z_low - b.z_low);
}

} // namespace

double thick_mutual(const Section& first, const Section& second)
{
  const double reach = std::max(first.r_outer, second.r_outer);
  const double length = std::max(first.z_high, second.z_high) - std::min(first.z_low, second.z_low);
  const bool same = &first == &second;
  const auto integrand = [&](double k)
  {
    const double P = radial(first, k);
    return P * (same ? P : radial(second, k)) * axial(first, second, k) / (k * k * k * k);
  };
  // The integrand turns within 1/length near zero and swings with period pi/reach beyond.
  double sum = 0.0;
  double from = 0.0;
  double step = 0.25 / std::max(reach, length);
  while (from * reach < 4000.0)
  {
    const double to = from + step;
    sum += gauss<double, 15>::integrate(integrand, from, to);
    from = to;
    step = std::min(1.5 * step, pi / reach);
  }
  sum += mean_tail(first, second, from);
  const auto area = [](const Section& s) { return (s.r_outer - s.r_inner) * (s.z_high - s.z_low); };
  return pi * mu0 * first.turns * second.turns / (area(first) * area(second)) * sum;
}

double thick_self(const Section& section)
{
  return thick_mutual(section, section);
}

} // namespace reference
