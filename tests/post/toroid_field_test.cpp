// Eddy currents in toroids' cores of any section against exact solutions, and the promise of the
// disc.
#include "mesh/layout.hpp"
#include "mesh/mesher.hpp"
#include "post/axial.hpp"
#include "solver/toroid.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numeric>
#include <random>

namespace
{

using Complex = std::complex<double>;
constexpr double pi = std::numbers::pi, mm = 1e-3;
constexpr Complex j_unit{0.0, 1.0};

solver::ToroidCore solved(const solver::Problem& core, double frequency)
{
  const mesh::Layout layout = mesh::layout(core.scene);
  return solver::solve_toroid(core, layout, mesh::coarse_mesh(layout), frequency);
}

solver::Problem core(const mesh::Part& part, double accuracy)
{
  solver::Problem made;
  made.scene.parts = {part};
  made.accuracy = accuracy;
  return made;
}

/// What must hold of every solution.
void check_alone(const solver::ToroidCore& s)
{
  CAPTURE(s.impedance, s.disc, s.accuracy_met, s.limit, s.refinements, s.unknowns);
  CHECK(s.accuracy_reached);
  CHECK(s.limit.empty());
  CHECK(s.accuracy_met == s.disc / std::abs(s.impedance));
  const double lost = std::accumulate(s.region_resistance.begin(), s.region_resistance.end(), 0.0);
  // Of the second order in the integrals of 1/s, which the matrix rounds.
  CHECK(std::abs(lost - s.impedance.real()) <= 1e-3 * s.disc + 1e-10 * std::abs(s.impedance));
}

/// Flux of a round bar in a field H = 1 along its surface over mu0 pi a^2, by its power series:
/// mu 2 J1(k a) / (k a J0(k a)), k^2 = -j omega mu0 mu sigma [Stratton 1941].
Complex round_bar(Complex mu, double sigma, double omega, double a)
{
  const Complex x = 0.25 * j_unit * omega * solver::mu0 * mu * sigma * a * a; // (g a / 2)^2
  Complex term = 1.0, I0 = 0.0, I1 = 0.0;                                     // I1 over (g a / 2)
  for (int k = 0; k < 80; ++k)
  {
    I0 += term;
    I1 += term / (k + 1.0);
    term *= x / ((k + 1.0) * (k + 1.0));
  }
  return mu * I1 / I0;
}

} // namespace

TEST_CASE("the field of a conducting toroid of rectangular section is its exact series",
          "[axial] [toroid]")
{
  solver::Problem tube = core({"core", mesh::Tube{10 * mm, 18 * mm, 6 * mm}, "m", 2 * mm}, 1e-5);
  solver::Material& m = tube.materials["m"];
  m = {.permeability = 700.0, .imaginary = 0.0, .conductivity = 4e4};
  for (const double imaginary : {0.0, 400.0})
    for (const double f : {1e3, 1e5, 3e6})
    {
      CAPTURE(imaginary, f);
      m.imaginary = imaginary;
      const solver::ToroidCore found = solved(tube, f);
      check_alone(found);
      const Complex mu(m.permeability, -imaginary), j_omega(0.0, 2.0 * pi * f);
      const Complex exact =
          j_omega * solver::mu0 * mu / (2.0 * pi) *
          post::conducting_toroid_integral(5 * mm, 9 * mm, 6 * mm,
                                           j_omega * solver::mu0 * mu * m.conductivity);
      CAPTURE(exact, std::abs(found.impedance - exact) / found.disc);
      CHECK(std::abs(found.impedance - exact) <= found.disc + 1e-10 * std::abs(exact));
      CHECK(found.disc <= 1e-5 * std::abs(exact));
    }
}

TEST_CASE("a slender ring of round section is a round bar bent round", "[axial] [toroid]")
{
  // Curvature counts by (a / R)^2.
  const double a = 2 * mm;
  solver::Problem ring = core({"core", mesh::Ring{600 * mm, 2 * a}, "m", 0.0}, 1e-5);
  const double curvature = a * a / (300 * mm * 300 * mm);
  for (const Complex mu : {Complex(1.0), Complex(80.0, -30.0)})
    for (const double x : {0.1, 2.0, 9.0}) // a over the skin depth, times root two
    {
      const double sigma = 5e6, omega = x * x / (solver::mu0 * std::abs(mu) * sigma * a * a);
      CAPTURE(mu, x);
      ring.materials["m"] = {mu.real(), -mu.imag(), sigma};
      const solver::ToroidCore found = solved(ring, omega / (2.0 * pi));
      check_alone(found);
      const Complex exact =
          j_unit * omega * solver::mu0 * a * a / (2.0 * 300 * mm) * round_bar(mu, sigma, omega, a);
      CAPTURE(exact, std::abs(found.impedance - exact) / std::abs(exact), found.disc);
      CHECK(std::abs(found.impedance - exact) <= found.disc + curvature * std::abs(exact));
    }
}

TEST_CASE("a coated toroid's shell shields what it encloses as a tube does", "[axial] [toroid]")
{
  // Round: (rho r H')' = j omega mu r H in the shell, and inside, where nothing conducts, H is even
  // and 2 rho H' = j omega mu b H at its surface. Runge and Kutta's rule in the shell.
  const double b = 2 * mm, t = 0.4 * mm, a = b + t, R = 300 * mm;
  const double sigma = 58e6;
  const Complex mu(60.0, -6.0);
  solver::Problem ring =
      core({"core", mesh::Ring{2 * R, 2 * b}, "powder", 0.0, mesh::Coating{"copper", t}}, 1e-5);
  ring.materials["powder"] = {mu.real(), -mu.imag(), 0.0};
  for (const double f : {30.0, 3e3, 1e5})
  {
    CAPTURE(f);
    const Complex pull = j_unit * 2.0 * pi * f * solver::mu0 * sigma;
    Eigen::Vector2cd at(1.0, 0.5 * pull * mu * b * b); // H, r H'
    const auto slope = [&](double r, const Eigen::Vector2cd& y)
    { return Eigen::Vector2cd(y[1] / r, pull * r * y[0]); };
    constexpr int steps = 4000;
    const double h = t / steps;
    for (int i = 0; i < steps; ++i)
    {
      const double r = b + i * h;
      const Eigen::Vector2cd k1 = slope(r, at), k2 = slope(r + 0.5 * h, at + 0.5 * h * k1),
                             k3 = slope(r + 0.5 * h, at + 0.5 * h * k2),
                             k4 = slope(r + h, at + h * k3);
      at += h / 6.0 * (k1 + 2.0 * k2 + 2.0 * k3 + k4);
    }
    // V = 2 pi a E = 2 pi rho r H' at the surface, H there I / 2 pi R.
    const Complex exact = at[1] / at[0] / sigma / R;
    const solver::ToroidCore found = solved(ring, f);
    check_alone(found);
    CAPTURE(exact, found.impedance, std::abs(found.impedance - exact) / std::abs(exact));
    CHECK(std::abs(found.impedance - exact) <=
          found.disc + 2.0 * a * a / (R * R) * std::abs(exact));
  }
}

TEST_CASE("a toroid's impedance at low frequency is that at rest", "[axial] [toroid]")
{
  // Three bodies in one another, one of them without conductivity: flux of each at H = 1 / 2 pi r.
  solver::Problem many;
  const std::vector<mesh::Point> corners = {
      {4 * mm, 0.0}, {12 * mm, 0.0}, {12 * mm, 9 * mm}, {9 * mm, 4 * mm}, {4 * mm, 9 * mm}};
  many.scene.parts = {{"core", mesh::Profile{corners}, "iron", 0.0},
                      {"hole", mesh::Tube{12 * mm, 16 * mm, 2 * mm}, "powder", 2 * mm},
                      {"wire", mesh::Ring{20 * mm, 1 * mm}, "copper", 2 * mm}};
  many.materials["iron"] = {.permeability = 200.0, .conductivity = 1e6};
  many.materials["powder"] = {.permeability = 20.0};
  many.accuracy = 1e-5;
  const double hole = post::toroid_integral(mesh::outline(many.scene.parts[1])),
               wire = post::toroid_integral(mesh::outline(many.scene.parts[2])),
               all = post::toroid_integral(mesh::outline(many.scene.parts[0]));
  const double L = solver::mu0 / (2.0 * pi) * (200.0 * (all - hole - wire) + 20.0 * hole + wire);
  const solver::ToroidCore found = solved(many, 0.1);
  check_alone(found);
  CHECK(std::abs(found.impedance.imag() / (0.2 * pi) - L) < 2e-5 * L);
  CHECK(found.impedance.real() < 1e-3 * found.impedance.imag());
}

TEST_CASE("the disc of a toroid holds the finer solution, whatever its core", "[axial] [toroid]")
{
  std::mt19937 draw(20);
  const auto between = [&](double low, double high)
  { return std::uniform_real_distribution<double>(low, high)(draw); };
  const auto material = [&](bool conducts)
  {
    const double mu = std::pow(10.0, between(0.0, 3.0)), angle = between(0.0, 1.4);
    return solver::Material{.permeability = mu * std::cos(angle),
                            .imaginary = draw() % 2 ? mu * std::sin(angle) : 0.0,
                            .conductivity = conducts ? std::pow(10.0, between(0.0, 7.0)) : 0.0};
  };
  for (int i = 0; i < 8; ++i)
  {
    solver::Problem one;
    if (i % 2)
      one.scene.parts = {{"core", mesh::Ring{20 * mm, between(4, 9) * mm}, "a", 0.0,
                          mesh::Coating{"b", between(0.1, 1.0) * mm}}};
    else
      one.scene.parts = {{"core", mesh::Tube{12 * mm, between(20, 30) * mm, 8 * mm}, "a", 0.0},
                         {"in", mesh::Ring{16 * mm, between(1, 3) * mm}, "b", 0.0}};
    one.materials["a"] = material(i % 4 < 2);
    one.materials["b"] = material(i % 4 != 1);
    const double f = std::pow(10.0, between(2.0, 5.5));
    CAPTURE(i, f, one.materials["a"].permeability, one.materials["a"].conductivity,
            one.materials["b"].permeability, one.materials["b"].conductivity);
    one.accuracy = 1e-6;
    const solver::ToroidCore fine = solved(one, f);
    check_alone(fine);
    for (const double accuracy : {3e-2, 1e-3})
    {
      one.accuracy = accuracy;
      const solver::ToroidCore coarse = solved(one, f);
      check_alone(coarse);
      CAPTURE(accuracy, std::abs(coarse.impedance - fine.impedance), coarse.disc, fine.disc);
      CHECK(std::abs(coarse.impedance - fine.impedance) <= coarse.disc + fine.disc);
    }
  }
}
