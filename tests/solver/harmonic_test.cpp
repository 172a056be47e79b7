// What every solution over frequency must do: balance, reciprocity, limits, skin and proximity.
#include "solver/harmonic.hpp"

#include "solver/harmonic_scenes.hpp"
#include "solver/solution.hpp"
#include "solver/solve.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

using harmonic_scenes::loss;
using solver::Harmonic;
using solver::Problem;
using Complex = std::complex<double>;

namespace
{

constexpr double pi = std::numbers::pi, mm = 1e-3;

/// A rod of "core" with two windings, a block and turns about it.
Problem two_windings(const solver::Material& core, mesh::Strand strand, double accuracy)
{
  Problem problem;
  problem.materials["core"] = core;
  problem.scene.parts.push_back({"rod", mesh::Rod{7 * mm, 25 * mm}, "core"});
  problem.scene.windings.push_back({"block", 40.0, mesh::Block{9 * mm, 11 * mm, 8 * mm}, -6 * mm});
  mesh::RoundTurns build{.wire_diameter = 0.8 * mm, .inner_diameter = 8 * mm, .pitch = 1 * mm};
  build.strand = strand;
  problem.scene.windings.push_back({"turns", 3.0, build, 6 * mm});
  problem.accuracy = accuracy;
  return problem;
}

/// One solid turn of 1 mm wire about a loop of that diameter.
Problem ring(double loop_diameter, double accuracy)
{
  Problem problem;
  mesh::RoundTurns build{.wire_diameter = 1 * mm, .inner_diameter = loop_diameter - 1 * mm};
  build.strand = mesh::Strand::solid;
  problem.scene.windings.push_back({"ring", 1.0, build});
  problem.accuracy = accuracy;
  return problem;
}

/// Frequency at which copper has a skin of radius / x, x = radius sqrt(omega mu0 sigma).
double frequency_of(double x, double radius)
{
  return x * x / (radius * radius * solver::mu0 * 58e6 * 2.0 * pi);
}

/// R / R0 of an endless straight round wire, Re of k J0(k) / (2 J1(k)), k = x sqrt(-j)
/// [NBS Circular 74, from memory; derivable]; J by its power series.
double kelvin(double x)
{
  const Complex k2 = Complex(0.0, -x * x);
  Complex J0 = 1.0, J1 = 1.0, term0 = 1.0, term1 = 1.0; // J1 less its factor k / 2
  for (int n = 1; n < 60; ++n)
  {
    term0 *= -k2 / (4.0 * n * n);
    term1 *= -k2 / (4.0 * n * (n + 1.0));
    J0 += term0;
    J1 += term1;
  }
  return (J0 / J1).real();
}

} // namespace

TEST_CASE("loss in all bodies is half of Re Z, one winding driven at a time", "[harmonic]")
{
  for (const auto strand : {mesh::Strand::fine, mesh::Strand::solid})
  {
    const Problem problem =
        two_windings({.permeability = 60, .imaginary = 20, .conductivity = 1e4}, strand, 1e-4);
    const Harmonic s = solver::solve_harmonic(problem, 50e3);
    for (Eigen::Index w = 0; w < 2; ++w)
    {
      CAPTURE(w, s.impedance(w, w));
      CHECK(loss(s, w) == Approx(0.5 * s.impedance(w, w).real()).epsilon(1e-9));
    }
  }
}

TEST_CASE("either winding induces in the other alike", "[harmonic][long]")
{
  const Problem problem = two_windings({.permeability = 60, .imaginary = 20, .conductivity = 1e4},
                                       mesh::Strand::solid, 1e-3);
  const Harmonic s = solver::solve_harmonic(problem, 50e3);
  CHECK(std::abs(s.impedance(0, 1) - s.impedance(1, 0)) < 1e-12 * std::abs(s.impedance(0, 1)));
  Problem finer = problem;
  finer.accuracy = 1e-5;
  const Harmonic f = solver::solve_harmonic(finer, 50e3);
  CHECK(f.disc(0, 1) < 0.1 * s.disc(0, 1));
  CHECK(std::abs(s.impedance(0, 1) - f.impedance(0, 1)) <= s.disc(0, 1) + f.disc(0, 1));
  CHECK(s.disc(0, 1) == Approx(std::sqrt(s.disc(0, 0) * s.disc(1, 1))).epsilon(1e-12));
}

TEST_CASE("at low frequency the inductance lies in the bracket at rest of the same current law",
          "[harmonic][long]")
{
  for (const auto strand : {mesh::Strand::fine, mesh::Strand::solid})
  {
    const Problem problem = two_windings({.permeability = 60, .conductivity = 1e4}, strand, 1e-5);
    const solver::Solution rest = solver::solve(problem);
    const double frequency = 1.0; // skins of half a metre in the core, 66 mm in copper
    const Harmonic s = solver::solve_harmonic(problem, frequency);
    for (Eigen::Index w = 0; w < 2; ++w)
    {
      const double L = s.impedance(w, w).imag() / (2.0 * pi * frequency);
      const double doubt = s.disc(w, w) / (2.0 * pi * frequency);
      CAPTURE(w, L, doubt, rest.bracket.lower[w], rest.bracket.gap(w, w));
      CHECK(L + doubt >= rest.bracket.lower[w]);
      CHECK(L - doubt <= rest.bracket.lower[w] + rest.bracket.gap(w, w));
      if (w == 0 || strand == mesh::Strand::fine)
        CHECK(doubt <= 1e-5 * L); // of solid turns, Z is almost all resistance
    }
    // A solid turn's J ~ 1/r: voltage 2 pi r J / sigma, so R = 2 pi / (sigma int dr dz / r) each.
    const double R = 4.4 * mm, a = 0.4 * mm;
    const double turn = 1.0 / (58e6 * (R - std::sqrt(R * R - a * a)));
    const double expected = strand == mesh::Strand::solid ? 3.0 * turn : 0.0;
    CHECK(s.winding_loss(1, 1) * 2.0 == Approx(expected).epsilon(1e-5));
  }
}

TEST_CASE("without loss the impedance is imaginary and the value at rest", "[harmonic][long]")
{
  const Problem problem = two_windings({.permeability = 60}, mesh::Strand::fine, 1e-5);
  const solver::Solution rest = solver::solve(problem);
  const double frequency = 1e5, omega = 2.0 * pi * frequency;
  const Harmonic s = solver::solve_harmonic(problem, frequency);
  CHECK(s.accuracy_reached);
  for (Eigen::Index w = 0; w < 2; ++w)
  {
    CHECK(std::abs(s.impedance(w, w).real()) < 1e-14 * std::abs(s.impedance(w, w)));
    CHECK(loss(s, w) == 0.0);
    const double L = s.impedance(w, w).imag() / omega, doubt = s.disc(w, w) / omega;
    CHECK(L + doubt >= rest.bracket.lower[w]);
    CHECK(L - doubt <= rest.bracket.lower[w] + rest.bracket.gap(w, w));
    // 2 l - a of a real field is the lower bound.
    CHECK(L <= rest.bracket.lower[w] + rest.bracket.gap(w, w));
  }
}

TEST_CASE("a solid ring of large radius has the skin effect of a straight wire", "[harmonic][long]")
{
  // The ring's own field across its wire, about mu0 I ln(8 R/a) / (4 pi R), adds the loss of a wire
  // in a transverse field: x^4/64 (a/R)^2 ln^2(8 R/a) of R0 at small x, saturating below a quarter
  // of R as the skin thins; further terms are (a/R)^2 without the logarithm.
  for (const double x : {1.0, 2.0, 3.0, 5.0})
  {
    std::array<double, 2> off{};
    for (int i = 0; i < 2; ++i)
    {
      const double loop = 50 * mm * (i + 1), R = 0.5 * loop, a = 0.5 * mm;
      const Harmonic s = solver::solve_harmonic(ring(loop, 1e-6), frequency_of(x, a));
      CHECK(s.accuracy_reached);
      const double dc = 1.0 / (58e6 * (R - std::sqrt(R * R - a * a)));
      const double allowance = 0.25 * std::pow(a / R * std::log(8.0 * R / a), 2);
      const double one = s.impedance(0, 0).real() / dc / kelvin(x) - 1.0;
      CAPTURE(x, R, kelvin(x), one, allowance);
      CHECK(one > 0.0);
      CHECK(one < allowance * std::min(1.0, std::pow(x, 4) / 16.0));
      off[static_cast<std::size_t>(i)] = one;
    }
    CHECK(off[0] > 2.5 * off[1]); // fourfold but for the logarithm
  }
}

TEST_CASE("Kelvin's ratio agrees with the table", "[harmonic]")
{
  // [NBS Circular 74], table of skin effect ratios, from memory: x = 1: 1.005, 3: 1.318, 5: 2.043.
  CHECK(kelvin(1.0) == Approx(1.005).margin(5e-4));
  CHECK(kelvin(3.0) == Approx(1.318).margin(5e-4));
  CHECK(kelvin(5.0) == Approx(2.043).margin(5e-4));
}

TEST_CASE("a close neighbour raises the resistance of a turn", "[harmonic][long]")
{
  Problem two = ring(50 * mm, 1e-4);
  auto& build = std::get<mesh::RoundTurns>(two.scene.windings[0].build);
  two.scene.windings[0].turns = 2.0;
  double before = solver::solve_harmonic(ring(50 * mm, 1e-4), 30e3).impedance(0, 0).real();
  for (const double pitch : {5.0 * mm, 2.0 * mm, 1.1 * mm})
  {
    build.pitch = pitch;
    const double each = 0.5 * solver::solve_harmonic(two, 30e3).impedance(0, 0).real();
    CHECK(each > before * 1.001);
    before = each;
  }
}

TEST_CASE("the bound of the error is that of the largest ellipse, never less", "[harmonic]")
{
  for (const double c : {1.0, 0.9, std::sqrt(0.5)})
  {
    const double plain = (1.0 + std::sqrt(1.0 + c * c)) / (2.0 * c * c);
    CHECK(solver::error_bound(3.0, 0.0, c) >= 9.0 * plain);
    CHECK(solver::error_bound(3.0, 0.0, c) <= 9.0 * plain * 1.002);
    CHECK(solver::error_bound(0.0, 2.0, c) >= 4.0);
    // Every pair of energies that the conditions allow.
    for (const double eta : {0.0, 0.3, 1.0})
      for (const double zeta : {0.0, 0.2, 1.0})
        for (double x = 0.0; x < 6.0; x += 0.037)
          for (double y = 0.0; y < 6.0; y += 0.037)
            if (std::hypot(c * x, y) <= eta * std::sqrt(x) + zeta * std::sqrt(y))
              REQUIRE(x + y <= solver::error_bound(eta, zeta, c));
  }
}

TEST_CASE("no bound of the error lies farther out than what energies may reach", "[harmonic]")
{
  for (const double c : {1.0, 0.9, std::sqrt(0.5)})
    for (const double eta : {0.0, 1e-3, 0.3, 1.0})
      for (const double zeta : {1e-6, 0.2, 1.0})
      {
        double farthest = 0.0; // along x = S t, y = S (1 - t)
        for (double t = 0.0; t <= 1.0; t += 1e-4)
        {
          const double push = eta * std::sqrt(t) + zeta * std::sqrt(1.0 - t);
          farthest = std::max(farthest, push * push / (c * c * t * t + (1.0 - t) * (1.0 - t)));
        }
        CAPTURE(c, eta, zeta);
        CHECK(solver::error_bound(eta, zeta, c) >= farthest);
        CHECK(solver::error_bound(eta, zeta, c) <= farthest * (1.0 + 1e-5));
      }
}

TEST_CASE("half of what is mirrored has the disc, the losses and the field of the whole",
          "[harmonic]")
{
  // The block a thousandth of a micrometre out of its place is no mirror image.
  std::vector<Harmonic> solved;
  for (const double shift : {0.0, 1e-9})
    for (const auto strand : {mesh::Strand::fine, mesh::Strand::solid})
    {
      Problem problem =
          two_windings({.permeability = 60, .imaginary = 20, .conductivity = 1e4}, strand, 1e-4);
      problem.scene.windings[0].centre = shift;
      std::get<mesh::Block>(problem.scene.windings[0].build).length = 24 * mm;
      problem.scene.windings[1].centre = 0.0;
      std::get<mesh::RoundTurns>(problem.scene.windings[1].build).inner_diameter = 12 * mm;
      solved.push_back(solver::solve_harmonic(problem, 50e3));
      CHECK(solved.back().accuracy_reached);
      // Each solid turn has a constant of its own: never halved.
      CHECK(solved.back().space.mesh.box.halved == (shift == 0.0 && strand == mesh::Strand::fine));
    }
  for (const std::size_t half : {0U, 1U})
  {
    const Harmonic &s = solved[half], &whole = solved[half + 2];
    for (Eigen::Index i = 0; i < 2; ++i)
    {
      for (Eigen::Index j = 0; j < 2; ++j)
        CHECK(std::abs(s.impedance(i, j) - whole.impedance(i, j)) <=
              s.disc(i, j) + whole.disc(i, j));
      CHECK(loss(s, i) == Approx(loss(whole, i)).epsilon(1e-4));
      CHECK(s.strand_field[0](i, i).real() ==
            Approx(whole.strand_field[0](i, i).real()).epsilon(1e-3));
    }
    for (const double z : {-20 * mm, -3 * mm, 3 * mm, 20 * mm})
    {
      const Eigen::Vector2d currents(1.0, 2.0);
      const solver::HarmonicPoint here = solver::field_at(s, currents, {2 * mm, z}),
                                  there = solver::field_at(whole, currents, {2 * mm, z});
      CAPTURE(half, z);
      const double size = std::abs(there.B_z);
      CHECK(std::abs(here.B_z - there.B_z) <= 5e-3 * size);
      CHECK(std::abs(here.B_r - there.B_r) <= 5e-3 * size);
      CHECK(std::abs(there.B_r) >= 2e-2 * size); // so that a sign of it would show
    }
  }
}

TEST_CASE("a mesh for the thinnest skin is one of the whole scene", "[harmonic]")
{
  Problem problem;
  problem.materials["core"] = {.permeability = 60, .imaginary = 20, .conductivity = 1e4};
  problem.scene.parts.push_back({"rod", mesh::Rod{7 * mm, 25 * mm}, "core"});
  problem.scene.windings.push_back({"block", 40.0, mesh::Block{9 * mm, 11 * mm, 8 * mm}});
  problem.accuracy = 1e-2;
  CHECK(solver::solve_harmonic(problem, 50e3).space.mesh.box.halved);
  CHECK_FALSE(solver::skin_mesh(problem, 50e3).box.halved);
}

TEST_CASE("no winding, or a frequency that is none, is refused", "[harmonic]")
{
  CHECK_THROWS_AS(solver::solve_harmonic({}, 1e3), std::invalid_argument);
  CHECK_THROWS_AS(solver::solve_harmonic(ring(50 * mm, 1e-2), 0.0), std::invalid_argument);
  CHECK_THROWS_AS(solver::solve_harmonic(ring(50 * mm, 1e-2), -1.0), std::invalid_argument);
}

TEST_CASE("a solution to start from changes the mesh, not the truth", "[harmonic]")
{
  const Problem problem = two_windings({.permeability = 60, .imaginary = 20, .conductivity = 1e4},
                                       mesh::Strand::solid, 1e-3);
  const Harmonic high = solver::solve_harmonic(problem, 300e3);
  const Harmonic on = solver::solve_harmonic(problem, 10e3, &high),
                 own = solver::solve_harmonic(problem, 10e3);
  CHECK(on.accuracy_reached);
  CHECK(on.space.mesh.triangles.size() >= high.space.mesh.triangles.size());
  for (Eigen::Index w = 0; w < 2; ++w)
    CHECK(std::abs(on.impedance(w, w) - own.impedance(w, w)) <= on.disc(w, w) + own.disc(w, w));
}
