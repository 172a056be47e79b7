// The closed-form fields inside conductor sections: curl, trace and total current.
#include "solver/quadrature.hpp"
#include "solver/section_field.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace solver;
using std::numbers::pi;

namespace
{

constexpr double ampere_turns = 7.0;

mesh::Conductor block()
{
  return {0, 3.0, mesh::BlockSection{2.0, 3.5, -1.0, 2.0}};
}
mesh::Conductor wire(double R, mesh::Strand strand)
{
  return {0, 1.0, mesh::RoundSection{{R, 0.5}, 1.0, strand}};
}

/// (H_r, H_z) at (r, z).
Eigen::Vector2d field(const mesh::Conductor& c, double r, double z)
{
  const Eigen::Vector2d h = section_field(c, ampere_turns, r * r, z);
  return {2.0 * r * h[0], h[1]}; // h_s ds = h_s 2 r dr
}

/// dH_r/dz - dH_z/dr by central differences.
double curl(const mesh::Conductor& c, double r, double z)
{
  const double h = 1e-4;
  return (field(c, r, z + h)[0] - field(c, r, z - h)[0] - field(c, r + h, z)[1] +
          field(c, r - h, z)[1]) /
         (2.0 * h);
}

/// Current of a round section by a rule in polar coordinates about its centre.
double total_current(const mesh::Conductor& c)
{
  const auto& w = std::get<mesh::RoundSection>(c.section);
  const LineRule& rule = line_rule(40);
  double sum = 0.0;
  for (std::size_t i = 0; i < rule.points.size(); ++i)
    for (int k = 0; k < 128; ++k)
    {
      const double rho = w.radius * rule.points[i], angle = 2.0 * pi * k / 128;
      const double r = w.centre.r + rho * std::cos(angle);
      sum += rule.weights[i] * w.radius * rho * 2.0 * pi / 128 *
             current_density(c, ampere_turns, r * r, 0.0);
    }
  return sum;
}

} // namespace

TEST_CASE("the curl of every section field is the section's current density", "[section-field]")
{
  // Differences at 1e-4 miss 1e-8/6 of the third derivatives, which grow towards a solid wire's
  // two ends; within 0.8 of its radius they stay below 200 times the field.
  for (const auto& [r, z] : {std::pair{2.1, -0.9}, {2.7, 0.0}, {3.4, 1.9}})
    CHECK(curl(block(), r, z) == Approx(current_density(block(), ampere_turns, r * r, z)));
  for (const double R : {1.05, 1.5, 4.0, 50.0})
    for (const mesh::Strand strand : {mesh::Strand::fine, mesh::Strand::solid})
    {
      const mesh::Conductor c = wire(R, strand);
      for (const double rho : {0.0, 0.3, 0.8})
        for (int k = 0; k < 12; ++k)
        {
          const double r = R + rho * std::cos(pi * k / 6), z = 0.5 + rho * std::sin(pi * k / 6);
          CAPTURE(R, static_cast<int>(strand), rho, k);
          CHECK(curl(c, r, z) == Approx(current_density(c, ampere_turns, r * r, z)).epsilon(1e-6));
        }
    }
}

TEST_CASE("the trace of a round section's field is even along its circle", "[section-field]")
{
  // H . t = -I / (2 pi a) anticlockwise: a circle's own field, whatever the spread inside, so the
  // solid turn's correction has none.
  for (const double R : {1.05, 1.5, 4.0, 50.0})
    for (const mesh::Strand strand : {mesh::Strand::fine, mesh::Strand::solid})
      for (int k = 0; k < 48; ++k)
      {
        const double angle = pi * (k + 0.5) / 24;
        const double r = R + std::cos(angle), z = 0.5 + std::sin(angle);
        const Eigen::Vector2d H = field(wire(R, strand), r, z);
        CAPTURE(R, static_cast<int>(strand), angle);
        // The correction is largest near the axis, some ten times the even field.
        CHECK(-H[0] * std::sin(angle) + H[1] * std::cos(angle) ==
              Approx(-ampere_turns / (2.0 * pi)).epsilon(1e-12));
      }
}

TEST_CASE("a block's field vanishes at its outer radius and falls evenly", "[section-field]")
{
  const double J = ampere_turns / (1.5 * 3.0);
  CHECK(field(block(), 3.5, 0.3)[1] == 0.0);
  CHECK(field(block(), 2.0, 0.3)[1] == Approx(J * 1.5));
  CHECK(field(block(), 2.0, 0.3)[0] == 0.0);
  CHECK(current_density(block(), ampere_turns, 6.25, 0.3) == Approx(J));
}

TEST_CASE("the current of a round section adds up to its ampere-turns", "[section-field]")
{
  for (const double R : {1.5, 4.0, 50.0})
    for (const mesh::Strand strand : {mesh::Strand::fine, mesh::Strand::solid})
      CHECK(total_current(wire(R, strand)) == Approx(ampere_turns).epsilon(1e-12));
  // A solid turn's density goes as 1/r, so inner and outer edge differ by (R + a) / (R - a).
  const mesh::Conductor c = wire(1.5, mesh::Strand::solid);
  CHECK(current_density(c, 1.0, 0.25, 0.5) / current_density(c, 1.0, 6.25, 0.5) == Approx(5.0));
}

TEST_CASE("section fields are in proportion to their current, and sheets have none inside",
          "[section-field]")
{
  const mesh::Conductor c = wire(1.5, mesh::Strand::solid);
  CHECK((section_field(c, 3.0, 2.0, 0.2) - 3.0 * section_field(c, 1.0, 2.0, 0.2)).norm() < 1e-15);
  const mesh::Conductor sheet{0, 1.0, mesh::SheetSection{2.0, 0.0, 1.0}};
  CHECK(section_field(sheet, 1.0, 4.0, 0.5).norm() == 0.0);
  CHECK(current_density(sheet, 1.0, 4.0, 0.5) == 0.0);
}
