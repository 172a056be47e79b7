// Eddy currents in a toroid's rectangular section: i = r H_phi obeys r (i_r / r)_r + i_zz = g^2 i,
// and is N I / (2 pi) all round.
//
// i / i_0 = 1 + sum over odd n of sines over the height; what is left of each term is one equation
// in r with both ends held at 1, r (p' / r)' = (g^2 + (n pi / h)^2) p.
#include "post/axial.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace post
{

namespace
{

using Complex = std::complex<double>;
using std::numbers::pi;

/// q = p' / r at both ends of a piece for p there: (q0, q1) = Y (p0, p1).
struct Ends
{
  Complex y00, y01, y10, y11;
};

/// A short piece, |kappa| (r1 - r0) at most a half and r1 at most 1.25 r0, by Taylor's series.
Ends short_piece(Complex kappa2, double r0, double r1)
{
  const double h = r1 - r0, x = h / r0;
  // p = sum c_k t^k, t = (r - r0) / h: (1 + x t) p'' - x p' = kappa^2 h^2 (1 + x t) p.
  const auto piece = [&](Complex p0, Complex slope)
  {
    const Complex push = kappa2 * h * h;
    Complex before = 0.0, now = p0, next = slope, p = p0, d = 0.0;
    for (int k = 0; k < 40; ++k)
    {
      p += next;
      d += (k + 1.0) * next;
      const Complex after =
          (push * (now + x * before) - x * (k - 1.0) * (k + 1.0) * next) / ((k + 2.0) * (k + 1.0));
      before = now;
      now = next;
      next = after;
    }
    return std::pair{p, d / (h * r1)};
  };
  const auto [p_held, q_held] = piece(1.0, 0.0);
  const auto [p_driven, q_driven] = piece(0.0, h * r0); // q0 = 1
  const Complex y00 = -p_held / p_driven, y01 = 1.0 / p_driven;
  return {y00, y01, q_held + q_driven * y00, q_driven * y01};
}

/// Two pieces end to end.
Ends joined(const Ends& a, const Ends& b)
{
  const Complex between = a.y11 - b.y00;
  return {a.y00 - a.y01 * a.y10 / between, a.y01 * b.y01 / between, -b.y10 * a.y10 / between,
          b.y11 + b.y10 * b.y01 / between};
}

Ends piece(Complex kappa2, double a, double b)
{
  const double most = 0.5 / std::abs(std::sqrt(kappa2));
  double r = a;
  Ends made{};
  while (r < b)
  {
    const double step = std::min({b - r, most, 0.25 * r});
    const double to = b - r - step < 0.1 * step ? b : r + step;
    const Ends next = short_piece(kappa2, r, to);
    made = r == a ? next : joined(made, next);
    r = to;
  }
  return made;
}

/// K0 / K1 at x, and I0 / I1 with sign -1, for a real part above 20 [Abramowitz-Stegun 1964, 9.7].
Complex bessel_ratio(Complex x, double sign)
{
  const auto series = [&](double order)
  {
    Complex sum = 0.0, term = 1.0;
    for (int k = 1; k < 24; ++k)
    {
      sum += term;
      const double odd = 2.0 * k - 1.0;
      term *= sign * (4.0 * order * order - odd * odd) / (8.0 * k * x);
    }
    return sum;
  };
  return series(0.0) / series(1.0);
}

/// int_a^b p / r dr, p = 1 at both ends.
Complex between_ends(Complex kappa2, double a, double b)
{
  // Deeper than this nothing of either end is left in double precision.
  const double deep = 40.0 / std::sqrt(kappa2).real();
  if (2.0 * deep < b - a && 2.0 * a > deep)
  {
    // r K1(k r) and r I1(k r) have the slopes -k r K0 and k r I0.
    const Complex kappa = std::sqrt(kappa2);
    return (bessel_ratio(kappa * b, -1.0) / b + bessel_ratio(kappa * a, 1.0) / a) / kappa;
  }
  if (2.0 * deep < b - a)
  {
    const Ends inner = piece(kappa2, a, a + deep), outer = piece(kappa2, b - deep, b);
    return (outer.y11 - inner.y00) / kappa2;
  }
  const Ends all = piece(kappa2, a, b);
  return (all.y10 + all.y11 - all.y00 - all.y01) / kappa2;
}

} // namespace

Complex conducting_toroid_integral(double inner_radius, double outer_radius, double height,
                                   Complex gamma2)
{
  const double a = inner_radius, b = outer_radius, h = height;
  if (gamma2 == 0.0)
    return h * std::log(b / a);
  // The part that would be left of endlessly wide sections, summed in closed form.
  const Complex half = 0.5 * std::sqrt(gamma2) * h;
  Complex sum = h * std::log(b / a) *
                (std::abs(half) < 1e-4 ? 1.0 - half * half / 3.0 : std::tanh(half) / half);
  for (int n = 1; n < 200001; n += 2)
  {
    const double k = n * pi / h;
    const Complex kappa2 = gamma2 + k * k;
    const Complex term = 8.0 / (h * k * k) * gamma2 / kappa2 * between_ends(kappa2, a, b);
    sum += term;
    // Terms fall as 1/n^5 once k is above |g|; their rest is below n / 4 times the last.
    if (0.25 * n * std::abs(term) < 1e-12 * std::abs(sum))
      break;
  }
  return sum;
}

} // namespace post
