// Currents along the axis against closed forms.
#include "post/axial.hpp"
#include "solver/problem.hpp"

#include <Eigen/SparseLU>
#include <catch2/catch.hpp>

#include <cmath>

using Catch::Matchers::Message;

namespace
{

constexpr double pi = std::numbers::pi;
constexpr double copper = 58e6, a = 1e-3;

/// Frequency at which a copper wire of radius a has x = a sqrt(omega mu0 sigma).
double frequency_of(double x)
{
  return x * x / (a * a * solver::mu0 * copper) / (2.0 * pi);
}

} // namespace

TEST_CASE("a round wire's resistance and inductance follow Kelvin's skin effect", "[axial]")
{
  // NBS Circular 74, Re and Im of z J0(z) / (2 J1(z)); 7 decimals computed from it.
  struct Row
  {
    double x, resistance, inductance;
  };
  const post::WireResult still = post::wire_at_rest({{a, 1.0, copper}});
  CHECK(still.inductance == Approx(50e-9).epsilon(1e-14)); // mu0 / 8 pi
  CHECK(still.resistance == Approx(1.0 / (copper * pi * a * a)).epsilon(1e-14));
  for (const Row& row : {Row{1.0, 1.0051867, 0.9974075}, Row{2.0, 1.0781587, 0.9611351},
                         Row{3.0, 1.3180948, 0.8451665}, Row{5.0, 2.0427251, 0.5559681},
                         Row{10.0, 3.7985761, 0.2816193}, Row{50.0, 17.9303197, 0.0565598}})
  {
    INFO("x " << row.x);
    const post::WireResult at = post::wire_at({{a, 1.0, copper}}, frequency_of(row.x));
    CHECK(std::abs(at.resistance / still.resistance - row.resistance) < 5.1e-8);
    CHECK(std::abs(at.inductance / still.inductance - row.inductance) < 5.1e-8);
  }
}

TEST_CASE("far above the skin effect's onset a wire's surface carries all", "[axial]")
{
  // R / R0 = x / (2 sqrt 2) + 1/4 + O(1/x), and R = omega L to O(1/x^2).
  const double x = 2000.0, f = frequency_of(x);
  const post::WireResult at = post::wire_at({{a, 1.0, copper}}, f);
  const double R0 = 1.0 / (copper * pi * a * a);
  CHECK(at.resistance / R0 == Approx(x / (2.0 * std::sqrt(2.0)) + 0.25).epsilon(1e-6));
}

TEST_CASE("a coating that does not conduct adds mu0 (mu - 1) ln(b/a) / 2 pi to the air's",
          "[axial]")
{
  const double b = 3e-3, f = 1e5;
  const std::complex<double> mu{10.0, -3.0};
  const double per_mu = solver::mu0 * std::log(b / a) / (2.0 * pi);
  const post::WireResult bare = post::wire_at({{a, 1.0, copper}}, f),
                         coated = post::wire_at({{a, 1.0, copper}, {b, mu, 0.0}}, f);
  CHECK(coated.inductance - bare.inductance == Approx(10.0 * per_mu).epsilon(1e-12));
  CHECK(coated.resistance - bare.resistance == Approx(2.0 * pi * f * 3.0 * per_mu).epsilon(1e-10));
  const post::WireResult still = post::wire_at_rest({{a, 1.0, copper}, {b, 10.0, 0.0}});
  REQUIRE(still.layer_gains.size() == 2);
  CHECK(still.layer_gains[1] == Approx(10.0 * per_mu).epsilon(1e-13));
}

TEST_CASE("a coating that conducts and has a complex permeability obeys the radial equations",
          "[axial]")
{
  // dE/dr = j omega mu H and d(r H)/dr = sigma r E, by Runge and Kutta's rule of fourth order,
  // whose error falls below 1e-11 with 40000 steps a layer.
  const std::vector<post::WireLayer> layers{{a, 1.0, copper}, {2.0 * a, {40.0, -15.0}, 2e5}};
  const double f = frequency_of(3.0), omega = 2.0 * pi * f;
  Eigen::Vector2cd u{1.0, 0.5 * copper * 1e-8 * a * a}; // E and r H, uniform inside a / 10000
  double r = 1e-4 * a;
  for (const post::WireLayer& layer : layers)
  {
    const std::complex<double> z{0.0, omega * solver::mu0};
    const auto slope = [&](double at, const Eigen::Vector2cd& v) {
      return Eigen::Vector2cd(z * layer.permeability * v[1] / at, layer.conductivity * at * v[0]);
    };
    constexpr int steps = 40000;
    const double h = (layer.outer_radius - r) / steps;
    for (int i = 0; i < steps; ++i, r += h)
    {
      const Eigen::Vector2cd k1 = slope(r, u), k2 = slope(r + 0.5 * h, u + 0.5 * h * k1),
                             k3 = slope(r + 0.5 * h, u + 0.5 * h * k2),
                             k4 = slope(r + h, u + h * k3);
      u += h / 6.0 * (k1 + 2.0 * k2 + 2.0 * k3 + k4);
    }
    r = layer.outer_radius;
  }
  const std::complex<double> Z = u[0] / (2.0 * pi * u[1]);
  const post::WireResult found = post::wire_at(layers, f);
  CHECK(found.resistance == Approx(Z.real()).epsilon(1e-9));
  CHECK(found.inductance == Approx(Z.imag() / omega).epsilon(1e-9));
}

TEST_CASE("layers of the same material are one wire", "[axial]")
{
  const double f = frequency_of(7.0);
  const post::WireResult whole = post::wire_at({{a, 1.0, copper}}, f),
                         split = post::wire_at({{0.3 * a, 1.0, copper}, {a, 1.0, copper}}, f);
  CHECK(split.resistance == Approx(whole.resistance).epsilon(1e-12));
  CHECK(split.inductance == Approx(whole.inductance).epsilon(1e-12));
  const post::WireResult rest = post::wire_at_rest({{0.3 * a, 1.0, copper}, {a, 1.0, copper}});
  CHECK(rest.inductance == Approx(50e-9).epsilon(1e-13));
}

TEST_CASE("at low frequency a wire of several conducting layers is the one at rest", "[axial]")
{
  const std::vector<post::WireLayer> layers = {
      {a, 1.0, copper}, {1.5 * a, 40.0, 1e6}, {2.0 * a, 5.0, 0.0}, {2.2 * a, 1.0, copper}};
  const post::WireResult still = post::wire_at_rest(layers), slow = post::wire_at(layers, 1e-3);
  CHECK(slow.resistance == Approx(still.resistance).epsilon(1e-9));
  CHECK(slow.inductance == Approx(still.inductance).epsilon(1e-9));
}

TEST_CASE("a toroid of rectangular section has mu0 mu N^2 h ln(D/d) / 2 pi", "[axial]")
{
  // IEC 60205 (from memory): OD 25, ID 15, h 10 mm, mu 2300.
  const double integral = post::toroid_integral(mesh::rectangle(7.5e-3, 12.5e-3, -5e-3, 5e-3));
  CHECK(integral == Approx(10e-3 * std::log(25.0 / 15.0)).epsilon(1e-13));
  const post::ToroidResult ring = post::toroid("ring", 20.0, integral, {2300.0, -100.0}, 1e4);
  CHECK(ring.inductance == Approx(400.0 * 2349.79787e-9).epsilon(1e-8));
  CHECK(ring.resistance == Approx(2.0 * pi * 1e4 * ring.inductance * 100.0 / 2300.0));
}

TEST_CASE("a toroid of round section has 2 pi (R - sqrt(R^2 - r^2)) for its section", "[axial]")
{
  const double R = 10e-3, r = 2e-3;
  CHECK(post::toroid_integral(mesh::circle({R, 0.0}, r)) ==
        Approx(2.0 * pi * (R - std::sqrt(R * R - r * r))).epsilon(1e-12));
}

TEST_CASE("a slanting edge and one nearly upright agree on both sides of the series", "[axial]")
{
  // The section between z = 0 and a line from (r1, 0) to (r2, h) and back to the axis side: exact
  // by parts, int (ln r(z) - ln r0) dz.
  const double r0 = 5e-3, h = 4e-3;
  for (const double r2 : {5.0e-3 * 1.0099, 5.0e-3 * 1.0101, 6e-3})
  {
    const std::vector<mesh::Point> corners = {{r0, 0.0}, {r0, h}, {r2, h}};
    // r(z) = r0 + (r2 - r0) z / h
    const double exact = h * (r2 * std::log(r2 / r0) / (r2 - r0) - 1.0);
    CHECK(post::toroid_integral(mesh::polygon(corners)) == Approx(exact).epsilon(1e-9));
  }
}

TEST_CASE("a wire that cannot be is refused", "[axial]")
{
  CHECK_THROWS_MATCHES(post::wire_at_rest({{a, 1.0, copper}, {a, 1.0, 0.0}}), std::invalid_argument,
                       Message("every layer of a wire must lie around the one before"));
  CHECK_THROWS_MATCHES(post::wire_at_rest({{a, 1.0, 0.0}}), std::invalid_argument,
                       Message("no layer of the wire conducts"));
  CHECK_THROWS_MATCHES(post::wire_at({{a, 1.0, copper}}, 0.0), std::invalid_argument,
                       Message("a frequency must be positive"));
}

namespace
{

/// A plate of that thickness in a field along it, flux over that without eddy currents:
/// tanh(g d / 2) / (g d / 2) [Stratton 1941; derivable].
std::complex<double> plate(std::complex<double> gamma2, double thickness)
{
  const std::complex<double> half = 0.5 * std::sqrt(gamma2) * thickness;
  return std::tanh(half) / half;
}

/// A bar of section d x h likewise, by the double sine series of its section.
std::complex<double> bar(std::complex<double> gamma2, double d, double h, int terms)
{
  std::complex<double> sum = 0.0;
  for (int m = 1; m < terms; m += 2)
    for (int n = 1; n < terms; n += 2)
    {
      const double k2 = pi * pi * (m * m / (d * d) + n * n / (h * h));
      sum += 64.0 / (std::pow(pi, 4) * m * m * n * n) * gamma2 / (gamma2 + k2);
    }
  return 1.0 - sum;
}

} // namespace

TEST_CASE("a toroid's section without conductivity is h ln(b/a)", "[axial]")
{
  CHECK(post::conducting_toroid_integral(5e-3, 9e-3, 4e-3, 0.0).real() ==
        Approx(4e-3 * std::log(9.0 / 5.0)).epsilon(1e-14));
  const auto slow = post::conducting_toroid_integral(5e-3, 9e-3, 4e-3, {0.0, 1e-3});
  CHECK(slow.real() == Approx(4e-3 * std::log(9.0 / 5.0)).epsilon(1e-12));
  CHECK(slow.imag() < 0.0);
}

TEST_CASE("a wide flat ring and a tall thin tube are plates to their flux", "[axial]")
{
  for (const double skins : {0.3, 2.0, 15.0}) // half thickness over skin depth
  {
    CAPTURE(skins);
    const double d = 0.2e-3;
    const std::complex<double> gamma2{0.0, 2.0 * std::pow(skins / (0.5 * d), 2)};
    // A washer 0.2 mm high, 40 mm wide: edges matter by d over its width.
    const auto flat = post::conducting_toroid_integral(10e-3, 50e-3, d, gamma2);
    CHECK(std::abs(flat / (d * std::log(5.0)) - plate(gamma2, d)) <
          2.0 * d / 10e-3 * std::abs(plate(gamma2, d)));
    // A tube 0.2 mm thick of 1 m radius, 20 mm tall.
    const auto tall = post::conducting_toroid_integral(1.0, 1.0 + d, 20e-3, gamma2);
    CHECK(std::abs(tall / (20e-3 * std::log(1.0 + d)) - plate(gamma2, d)) <
          2.0 * d / 20e-3 * std::abs(plate(gamma2, d)));
  }
}

TEST_CASE("a slender toroid of rectangular section is a bar bent round", "[axial]")
{
  // Curvature counts by (d / R)^2 = 1e-8.
  const double R = 20.0, d = 2e-3, h = 3e-3;
  for (const double g2 : {1e3, 3e6, 4e7})
    for (const std::complex<double> phase : {std::complex<double>(0.0, 1.0), {0.3, 0.95}})
    {
      CAPTURE(g2, phase);
      const std::complex<double> gamma2 = g2 * phase;
      const auto found = post::conducting_toroid_integral(R - 0.5 * d, R + 0.5 * d, h, gamma2);
      const std::complex<double> ratio = found / (h * std::log((R + 0.5 * d) / (R - 0.5 * d)));
      // The double series' own rest is about 1 / terms of what is left where skins are thin.
      CHECK(std::abs(ratio - bar(gamma2, d, h, 1201)) < 3e-6);
    }
}

TEST_CASE("the toroid of a bored cylinder obeys its equation, by finite differences", "[axial]")
{
  // r (i_r / r)_r + i_zz = g^2 i on a grid, i = 1 all round; second order, extrapolated once.
  const double a = 2e-3, b = 6e-3, h = 3e-3;
  const std::complex<double> gamma2{0.0, 4e6};
  const auto on_grid = [&](int n)
  {
    const double dr = (b - a) / n, dz = h / n;
    const auto number = [n](int r, int z) { return (r - 1) * (n - 1) + z - 1; };
    const auto inside = [n](int r, int z) { return r > 0 && r < n && z > 0 && z < n; };
    std::vector<Eigen::Triplet<std::complex<double>>> entries;
    Eigen::VectorXcd load = Eigen::VectorXcd::Zero((n - 1) * (n - 1));
    for (int r = 1; r < n; ++r)
      for (int z = 1; z < n; ++z)
      {
        const double at = a + r * dr, in = at / (at - 0.5 * dr) / (dr * dr),
                     out = at / (at + 0.5 * dr) / (dr * dr), up = 1.0 / (dz * dz);
        const int row = number(r, z);
        entries.emplace_back(row, row, in + out + 2.0 * up + gamma2);
        const auto couple = [&](int r2, int z2, double weight)
        {
          if (inside(r2, z2))
            entries.emplace_back(row, number(r2, z2), -weight);
          else
            load[row] += weight;
        };
        couple(r - 1, z, in);
        couple(r + 1, z, out);
        couple(r, z - 1, up);
        couple(r, z + 1, up);
      }
    Eigen::SparseMatrix<std::complex<double>> matrix(load.size(), load.size());
    matrix.setFromTriplets(entries.begin(), entries.end());
    const Eigen::VectorXcd found =
        Eigen::SparseLU<Eigen::SparseMatrix<std::complex<double>>>(matrix).solve(load);
    const auto i = [&](int r, int z)
    { return inside(r, z) ? found[number(r, z)] : std::complex<double>(1.0); };
    std::complex<double> sum = 0.0;
    for (int r = 0; r <= n; ++r)
      for (int z = 0; z <= n; ++z)
        sum += i(r, z) / (a + r * dr) * dr * dz * (r % n ? 1.0 : 0.5) * (z % n ? 1.0 : 0.5);
    return sum;
  };
  const auto coarse = on_grid(40), fine = on_grid(80);
  const auto exact = post::conducting_toroid_integral(a, b, h, gamma2);
  CHECK(std::abs(fine + (fine - coarse) / 3.0 - exact) < 2e-5 * std::abs(exact));
  CHECK(std::abs(exact) < 0.7 * h * std::log(b / a)); // far from no eddy currents
}

TEST_CASE("between tall tubes of two heights lies the endless tube's flux", "[axial]")
{
  // int p / r dr of an endless tube, p of r I1(g r) and r K1(g r): (K0/K1(g a)/a + I0/I1(g b)/b)/g
  // where skins are thin; both Bessel functions by their integrals, less their exponentials.
  const double a = 5e-3, b = 30e-3, delta = 0.1e-3;
  const std::complex<double> gamma2{0.0, 2.0 / (delta * delta)}, g = std::sqrt(gamma2);
  constexpr int count = 20000;
  const auto K = [](std::complex<double> x, int order)
  {
    std::complex<double> sum = 0.0; // int exp(-x (cosh t - 1)) cosh(order t) dt, to t = 3
    for (int i = 0; i < count; ++i)
    {
      const double t = 3.0 * (i + 0.5) / count;
      sum += std::exp(-x * (std::cosh(t) - 1.0)) * std::cosh(order * t);
    }
    return sum;
  };
  const auto I = [](std::complex<double> x, int order)
  {
    std::complex<double> sum = 0.0; // int exp(x (cos t - 1)) cos(order t) dt, to pi
    for (int i = 0; i < count; ++i)
    {
      const double t = pi * (i + 0.5) / count;
      sum += std::exp(x * (std::cos(t) - 1.0)) * std::cos(order * t);
    }
    return sum;
  };
  const std::complex<double> endless =
      (K(g * a, 0) / K(g * a, 1) / a + I(g * b, 0) / I(g * b, 1) / b) / g;
  const std::complex<double> found = (post::conducting_toroid_integral(a, b, 9e-3, gamma2) -
                                      post::conducting_toroid_integral(a, b, 6e-3, gamma2)) /
                                     3e-3;
  CHECK(std::abs(found - endless) < 1e-8 * std::abs(endless));
}
