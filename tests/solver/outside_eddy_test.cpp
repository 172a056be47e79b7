// Coils about conducting rods, above plates and about balls, against series and integrals.
#include "outside_check.hpp"

#include "reference/eddy_bodies.hpp"
#include "reference/magnetic_bodies.hpp"
#include "solver/harmonic.hpp"

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
