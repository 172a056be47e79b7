// Coils about conducting rods, above plates and about balls, against series and integrals.
#include "outside_check.hpp"

#include "reference/eddy_bodies.hpp"
#include "reference/magnetic_bodies.hpp"
#include "solver/harmonic.hpp"

#include <array>
#include <cmath>
#include <complex>
#include <numbers>
#include <tuple>

using namespace outside;
using Complex = std::complex<double>;

namespace
{

constexpr double two_pi = 2.0 * std::numbers::pi;

/// Inside diameter 9 mm, outside 11 mm, 12 mm long, 50 turns.
mesh::Winding coil(double centre)
{
  return {"coil", 50, mesh::Block{9 * mm, 11 * mm, 12 * mm}, centre};
}
reference::Section section(double centre)
{
  return {4.5 * mm, 5.5 * mm, centre - 6 * mm, centre + 6 * mm, 50};
}

solver::Material lossy(Complex permeability, double conductivity)
{
  return {.permeability = permeability.real(),
          .imaginary = -permeability.imag(),
          .conductivity = conductivity};
}

/// Checks that the disc holds j omega (air + gain), the gain known but for the relative doubt.
void check_disc(const solver::Problem& problem, double frequency, const reference::Section& of,
                Complex gain, double doubt)
{
  const double omega = two_pi * frequency;
  const solver::Harmonic s = solver::solve_harmonic(problem, frequency);
  const Complex truth = Complex(0.0, omega) * (reference::thick_self(of) + gain);
  CAPTURE(frequency, s.impedance(0, 0), truth, s.disc(0, 0), doubt * omega * std::abs(gain),
          s.unknowns, s.limit);
  CHECK(s.accuracy_reached);
  // thick_self() is good to 1e-9.
  CHECK(std::abs(s.impedance(0, 0) - truth) <=
        s.disc(0, 0) + doubt * omega * std::abs(gain) + 2e-9 * std::abs(truth));
  // The check would see an error of a thousandth of what the body does.
  CHECK(s.disc(0, 0) < 1e-3 * omega * std::abs(gain));
}

solver::Problem rod_problem(const std::vector<reference::Layer>& layers, double length)
{
  solver::Problem problem = coils({coil(0.0)}, 1e-5);
  problem.materials["core"] = lossy(layers[0].permeability, layers[0].conductivity);
  mesh::Part rod{"rod", mesh::Rod{2.0 * layers[0].outer_radius, length}, "core"};
  if (layers.size() > 1)
  {
    problem.materials["skin"] = lossy(layers[1].permeability, layers[1].conductivity);
    rod.coating = mesh::Coating{"skin", layers[1].outer_radius - layers[0].outer_radius};
  }
  problem.scene.parts.push_back(rod);
  return problem;
}

} // namespace

TEST_CASE("the integrals at rest are those of endless rods and balls at rest", "[reference]")
{
  const double still = 1e-9;
  for (const double mu : {2.0, 100.0})
  {
    CHECK(reference::endless_rod_gain({{4 * mm, mu, 1e6}}, still, section(0.0)).real() ==
          Approx(reference::endless_rod_gain(4 * mm, mu, section(0.0))).epsilon(1e-8));
    CHECK(reference::ball_gain(4 * mm, mu, 1e6, still, section(2 * mm)).real() ==
          Approx(reference::ball_gain(4 * mm, mu, section(2 * mm))).epsilon(1e-12));
  }
  // A layer of the core's own material, and one of air, are none.
  const std::vector<reference::Layer> plain = {{4 * mm, 100.0, 1e6}},
                                      same = {{3 * mm, 100.0, 1e6}, {4 * mm, 100.0, 1e6}},
                                      bare = {{4 * mm, 100.0, 1e6}, {4.2 * mm, 1.0, 0.0}};
  const Complex expected = reference::endless_rod_gain(plain, 1e5, section(0.0));
  for (const auto& layers : {same, bare})
    CHECK(std::abs(reference::endless_rod_gain(layers, 1e5, section(0.0)) - expected) <
          1e-9 * std::abs(expected));
}

TEST_CASE("a perfect conductor below mirrors the coil", "[reference]")
{
  const Complex gain = reference::half_space_gain(1.0, 1e20, 1e6, section(8 * mm));
  const double image = reference::thick_mutual(section(8 * mm), section(-8 * mm));
  CHECK(gain.real() == Approx(-image).epsilon(1e-6));
  CHECK(std::abs(gain.imag()) < 1e-6 * image);
}

TEST_CASE("a coil about a long conducting rod holds the endless rod's integral", "[outside]")
{
  // [Dodd & Deeds 1968]. The drawn rod is 1 m long: at its ends, 90 coil radii away, the field of
  // coil and currents is below (1/90)^3 of that in the coil and comes back as its square; along a
  // permeable rod flux also decays exponentially, in about 40 mm: e^-25. Allowance 1e-6 of the
  // gain.
  for (const double frequency : {1e3, 10e3, 100e3})
  {
    const std::vector<reference::Layer> copper = {{4 * mm, 1.0, 58e6}},
                                        steel = {{4 * mm, 100.0, 1e6}};
    for (const auto& layers : {copper, steel})
      check_disc(rod_problem(layers, 1000 * mm), frequency, section(0.0),
                 reference::endless_rod_gain(layers, two_pi * frequency, section(0.0)), 1e-6);
  }
}

TEST_CASE("a coated rod holds the integral of two layers", "[outside]")
{
  for (const double frequency : {2e3, 50e3})
  {
    const std::vector<reference::Layer> plated = {{3.5 * mm, 1.0, 58e6}, {4 * mm, 80.0, 2e6}},
                                        dust = {{3.5 * mm, 1.0, 58e6},
                                                {4 * mm, Complex(12.0, -3.0), 0.0}};
    for (const auto& layers : {plated, dust})
      check_disc(rod_problem(layers, 1000 * mm), frequency, section(0.0),
                 reference::endless_rod_gain(layers, two_pi * frequency, section(0.0)), 1e-6);
  }
}

TEST_CASE("a coil above a wide plate holds the half-space's integral", "[outside]")
{
  // The drawn disc has 55 coil radii and 40 mm of depth, 13 and more skins: e^-26. At its rim coil
  // and mirrored coil, two opposite dipoles, have fallen by 55^-4, and come back likewise.
  const double low = 2 * mm, centre = low + 6 * mm;
  for (const auto& [mu, sigma, frequency] :
       {std::tuple(1.0, 37e6, 1e3), {1.0, 37e6, 50e3}, {50.0, 5e6, 1e3}})
  {
    CAPTURE(mu, sigma);
    solver::Problem problem = coils({coil(centre)}, 1e-5);
    problem.materials["plate"] = lossy(mu, sigma);
    problem.scene.parts.push_back({"plate", mesh::Rod{600 * mm, 40 * mm}, "plate", -20 * mm});
    check_disc(problem, frequency, section(centre),
               reference::half_space_gain(mu, sigma, two_pi * frequency, section(centre)), 1e-6);
  }
}

TEST_CASE("a coil about a conducting ball holds the series of multipoles", "[outside]")
{
  for (const auto& [mu, sigma, frequency] : {std::tuple(Complex(1.0), 58e6, 1e3),
                                             {Complex(1.0), 58e6, 100e3},
                                             {Complex(150.0), 5e6, 2e3},
                                             {Complex(40.0, -15.0), 1e3, 100e3}})
    for (const double centre : {0.0, 7 * mm})
    {
      CAPTURE(mu, sigma, centre);
      solver::Problem problem = coils({coil(centre)}, 1e-5);
      problem.materials["ball"] = lossy(mu, sigma);
      problem.scene.parts.push_back({"ball", mesh::Ring{0.0, 8 * mm}, "ball"});
      // The series stops at 400 multipoles, (4/4.5)^800: 1e-41.
      check_disc(problem, frequency, section(centre),
                 reference::ball_gain(4 * mm, mu, sigma, two_pi * frequency, section(centre)),
                 1e-9);
    }
}

namespace
{

/// A ball or a hollow one in B0 = 1 T along the axis: A_phi = f sin(theta), f'' + 2 f' / r =
/// (2 / r^2 + k^2) f, k^2 = j omega mu sigma [Smythe 1950]; by Runge and Kutta's rule.
struct ShellField
{
  Complex centre; ///< B in the hollow, or at r -> 0 [T].
  double loss;    ///< sigma omega^2 / 2 int |A|^2 dV [W]
};
ShellField shell_field(double b, double a, Complex mu, double sigma, double omega)
{
  const Complex k2 = Complex(0.0, omega * sigma * solver::mu0) * mu;
  const double from = b > 0.0 ? b : 1e-3 * a;
  // In the hollow f = r, whose slope over mu goes on; in a solid ball f = r (1 + k^2 r^2 / 10).
  Complex f = from, slope = b > 0.0 ? mu * 2.0 - 1.0 : Complex(1.0);
  if (b == 0.0)
  {
    f *= 1.0 + 0.1 * k2 * from * from;
    slope += 0.3 * k2 * from * from;
  }
  constexpr int steps = 4000;
  const double h = (a - from) / steps;
  double sum = 0.0; // int |f|^2 r^2 dr by the trapezoidal rule
  using State = std::array<Complex, 2>;
  const auto change = [&](double r, const State& y) {
    return State{y[1], (2.0 / (r * r) + k2) * y[0] - 2.0 / r * y[1]};
  };
  const auto moved = [](const State& y, const State& by, double step) {
    return State{y[0] + step * by[0], y[1] + step * by[1]};
  };
  State y{f, slope};
  for (int i = 0; i < steps; ++i)
  {
    const double r = from + i * h;
    sum += (i == 0 ? 0.5 : 1.0) * h * std::norm(y[0]) * r * r;
    const State k_1 = change(r, y), k_2 = change(r + 0.5 * h, moved(y, k_1, 0.5 * h)),
                k_3 = change(r + 0.5 * h, moved(y, k_2, 0.5 * h)),
                k_4 = change(r + h, moved(y, k_3, h));
    for (std::size_t c = 0; c < 2; ++c)
      y[c] += h / 6.0 * (k_1[c] + 2.0 * k_2[c] + 2.0 * k_3[c] + k_4[c]);
  }
  sum += 0.5 * h * std::norm(y[0]) * a * a;
  // Outside f = B0 r / 2 + C / r^2: f goes on, and (r f)' / mu.
  const Complex inside = (y[0] + a * y[1]) / mu;   // = B0 a - C / a^2, and f = B0 a / 2 + C / a^2
  const Complex scale = 1.5 * a / (inside + y[0]); // B0 = 1
  return {2.0 * scale,
          4.0 * std::numbers::pi / 3.0 * sigma * omega * omega * std::norm(scale) * sum};
}

} // namespace

TEST_CASE("a conducting ball and a hollow one in a uniform field shield and lose what is known",
          "[outside]")
{
  // The first is the workshops' hollow sphere: 50 and 55 mm, 5e8 S/m, 50 Hz, 1 T (**m**).
  for (const auto& [b, a, mu, sigma, frequency] :
       {std::tuple(50 * mm, 55 * mm, Complex(1.0), 5e8, 50.0),
        {50 * mm, 55 * mm, Complex(40.0, -8.0), 5e6, 200.0},
        {0.0, 20 * mm, Complex(1.0), 58e6, 1e3},
        {0.0, 20 * mm, Complex(150.0), 5e6, 50.0}})
  {
    CAPTURE(b, a, mu, sigma, frequency);
    solver::Problem problem = coils({}, 1e-6);
    problem.background = 1.0;
    problem.materials["metal"] = lossy(mu, sigma);
    problem.scene.parts.push_back({"ball", mesh::Ring{0.0, 2.0 * a}, "metal"});
    if (b > 0.0)
      problem.scene.parts.push_back({"hollow", mesh::Ring{0.0, 2.0 * b}, "air"});
    const solver::Harmonic s = solver::solve_harmonic(problem, frequency);
    const ShellField exact = shell_field(b, a, mu, sigma, two_pi * frequency);
    const solver::HarmonicPoint at =
        solver::field_at(s, Eigen::VectorXd::Ones(1), {1e-3 * a, 0.5e-3 * a});
    double loss = 0.0;
    for (const Eigen::VectorXd& region : s.region_loss)
      loss += region[0];
    CAPTURE(exact.centre, at.B_z, exact.loss, loss, s.accuracy_met, s.unknowns);
    CHECK(s.accuracy_reached);
    // The energy of the error is below 1e-6, so 1e-3 T in the mean; a hollow smoothes it.
    CHECK(std::abs(at.B_z - exact.centre) < (b > 0.0 ? 1e-4 * std::abs(exact.centre) : 2e-3));
    if (mu.imag() == 0.0) // mu'' loses too, which the integral does not count
      CHECK(loss == Approx(exact.loss).epsilon(1e-5));
  }
}

TEST_CASE("the mean permeability of a long rod is 2 J1(u)/(u J0(u)) of its own", "[outside]")
{
  // [Stratton 1941], from memory; derivable. I1/I0 by their series, u = j v. A sheet of radius R as
  // long as the rod, l = 2 m, drives nI (1 - 2 R^2/l^2) in its middle, less what the flux leaving
  // at the ends pulls back, 2 (<mu> - 1) a^2/l^2 of it; that it leaves over a stretch of some
  // radii and not at a point is a further hundredth of these 8e-5. A short sheet on the rod's
  // skin reads the flux.
  const double a = 4 * mm, mu = 10.0, sigma = 2e6, length = 2.0;
  for (const double frequency : {1e3, 20e3})
  {
    solver::Problem problem = coils({{"drive", 1000, mesh::Block{10 * mm, 10 * mm, length}},
                                     {"sense", 1, mesh::Block{2.0 * a, 2.0 * a, 10 * mm}}},
                                    1e-5);
    problem.materials["core"] = lossy(mu, sigma);
    problem.scene.parts.push_back({"rod", mesh::Rod{2.0 * a, length}, "core"});
    const double omega = two_pi * frequency;
    const solver::Harmonic s = solver::solve_harmonic(problem, frequency);
    const Complex v2 = Complex(0.0, omega * solver::mu0 * mu * sigma) * a * a;
    Complex I0 = 1.0, I1 = 1.0, term0 = 1.0, term1 = 1.0; // I1 less its factor v / 2
    for (int n = 1; n < 80; ++n)
    {
      term0 *= v2 / (4.0 * n * n);
      term1 *= v2 / (4.0 * n * (n + 1.0));
      I0 += term0;
      I1 += term1;
    }
    const Complex endless = mu * I1 / I0;
    const Complex mean =
        endless * (1.0 - 2.0 * (25e-6 + (endless - 1.0) * a * a) / (length * length)); // R = 5 mm
    const Complex found = s.impedance(1, 0) / Complex(0.0, omega * 1000 / length * solver::mu0 *
                                                               std::numbers::pi * a * a);
    CAPTURE(frequency, mean, found, s.limit, s.unknowns);
    CHECK(s.accuracy_reached);
    const double doubt =
        s.disc(1, 0) / (omega * 1000 / length * solver::mu0 * std::numbers::pi * a * a);
    CAPTURE(doubt);
    CHECK(std::abs(found - mean) < doubt + 1e-5 * std::abs(mean));
    CHECK(doubt < 1e-3 * std::abs(mean));
  }
}
