// A saturating toroid against an integral over its radius done another way, and its limits.
#include "post/toroid_bias.hpp"

#include "mesh/layout.hpp"
#include "post/axial.hpp"
#include "solver/problem.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

namespace
{

constexpr double mm = 1e-3, pi = std::numbers::pi;

const solver::Magnetisation ferrite(solver::CurveRows{{0.0, 0.0},
                                                      {20.0, 0.05},
                                                      {50.0, 0.15},
                                                      {100.0, 0.24},
                                                      {200.0, 0.315},
                                                      {500.0, 0.37},
                                                      {1200.0, 0.4},
                                                      {3000.0, 0.42}});

mesh::Outline tube(double inner, double outer, double height)
{
  return mesh::outline({"core", mesh::Tube{inner, outer, height}, "ferrite"});
}

} // namespace

TEST_CASE("a saturating toroid links what its radial integral says", "[axial] [bias]")
{
  const double a = 7.5 * mm, b = 12.5 * mm, h = 10 * mm, N = 20;
  for (const double I : {0.02, 0.2, 1.0, 5.0, 60.0})
  {
    const post::ToroidAtBias at = post::toroid_at_bias(tube(2 * a, 2 * b, h), N, I, ferrite);
    // Simpson's rule over even radii: N h int B(N I / 2 pi r) dr, and w* likewise.
    constexpr int panels = 20000;
    double flux = 0.0, coenergy = 0.0;
    for (int i = 0; i <= 2 * panels; ++i)
    {
      const double r = a + (b - a) * i / (2.0 * panels);
      const double weight = (b - a) / (6.0 * panels) *
                            (i == 0 || i == 2 * panels ? 1
                             : i % 2                   ? 4
                                                       : 2);
      const solver::MagneticState s = ferrite.at_field(N * I / (2.0 * pi * r));
      flux += weight * N * h * s.B;
      coenergy += weight * h * 2.0 * pi * r * s.coenergy;
    }
    CAPTURE(I);
    CHECK(at.flux_linkage == Approx(flux).epsilon(post::toroid_quadrature));
    CHECK(at.coenergy == Approx(coenergy).epsilon(post::toroid_quadrature));
    CHECK(at.coenergy + at.stored_energy == Approx(at.flux_linkage * I).epsilon(2e-6));
    const double d = 1e-3 * I;
    const double slope =
        (post::toroid_at_bias(tube(2 * a, 2 * b, h), N, I + d, ferrite).flux_linkage -
         post::toroid_at_bias(tube(2 * a, 2 * b, h), N, I - d, ferrite).flux_linkage) /
        (2.0 * d);
    CHECK(at.incremental_inductance == Approx(slope).epsilon(2e-3)); // kinks at the rows
  }
}

TEST_CASE("a toroid of any section begins at its linear inductance", "[axial] [bias]")
{
  const mesh::Outline ring = mesh::outline({"core", mesh::Ring{20 * mm, 6 * mm}, "ferrite"});
  const double mu = ferrite.initial_permeability();
  const post::ToroidResult linear =
      post::toroid("choke", 9.0, post::toroid_integral(ring), mu, 0.0);
  const post::ToroidAtBias at = post::toroid_at_bias(ring, 9.0, 1e-7, ferrite);
  CHECK(at.flux_linkage == Approx(1e-7 * linear.inductance).epsilon(1e-6));
  CHECK(at.incremental_inductance == Approx(linear.inductance).epsilon(1e-6));
}
