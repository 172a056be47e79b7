// The integral equations of a coil about a finite rod: what the rod-coil table rests on.
#include "reference/gauss_panels.hpp"
#include "reference/loops.hpp"
#include "reference/magnetic_bodies.hpp"
#include "reference/ring_fields.hpp"
#include "reference/rod_integral.hpp"
#include "reference/tables.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>
#include <numbers>

using namespace reference;

namespace
{

constexpr double mm = 1e-3;
const Cylinder short_rod{5 * mm, 20 * mm};
const Sheet off_middle{5.5 * mm, 6 * mm, 4 * mm, 100};
const Sheet wide{7 * mm, 11 * mm, -2 * mm, 30};

/// Gauss sum over `panels` equal parts of from..to.
double integral(double from, double to, int panels, const std::function<double(double)>& function)
{
  const GaussRule rule(20);
  double sum = 0.0;
  const double half = (to - from) / (2.0 * panels);
  for (int panel = 0; panel < panels; ++panel)
  {
    for (int i = 0; i < rule.node.size(); ++i)
    {
      sum += half * rule.weight[i] * function(from + half * (2 * panel + 1 + rule.node[i]));
    }
  }
  return sum;
}

/// mu0 int H.H dV over the rod, of two sheets at unit current.
double overlap(const Cylinder& rod, const Sheet& a, const Sheet& b)
{
  const auto H = [](const Sheet& s, double r, double z)
  { return sheet_field(s.radius, s.centre - s.length / 2, s.centre + s.length / 2, r, z); };
  const auto product = [&](double r, double z)
  {
    const Field first = H(a, r, z);
    const Field second = H(b, r, z);
    return 2 * std::numbers::pi * r * (first.r * second.r + first.z * second.z);
  };
  // 40 panels a length: each as long as the gap between coil and rod.
  const auto at_radius = [&](double r) {
    return integral(-rod.length / 2, rod.length / 2, 40, [&](double z) { return product(r, z); });
  };
  const double sum = integral(0.0, 0.8 * rod.radius, 1, at_radius) +
                     integral(0.8 * rod.radius, rod.radius, 1, at_radius);
  return mu0 * a.turns / a.length * b.turns / b.length * sum;
}

void check_row(const RodCoil& row, Bound bound, double accuracy)
{
  CAPTURE(row.rod_length, row.coil_length, row.offset, row.permeability);
  const Cylinder rod{5 * mm, row.rod_length};
  const Sheet sheet{5.5 * mm, row.coil_length, row.offset, 100};
  const double L = rod_coil(rod, sheet, {row.permeability}, bound)[0];
  CHECK(std::abs(L / row.inductance - 1.0) < accuracy);
}

} // namespace

TEST_CASE("a sheet's field is the sum of its circles'", "[reference]")
{
  for (const Field& at : {Field{0.3, 0.2}, {1.0, 0.85}, {1.0, -2.0}, {0.05, 3.0}, {2.0, 0.1}})
  {
    CAPTURE(at.r, at.z);
    const Field closed = sheet_field(1.1, -0.4, 0.9, at.r, at.z);
    const auto circle = [&](double z) { return current_circle({1.1, at.r, at.r - 1.1, at.z - z}); };
    const double Hr = integral(-0.4, 0.9, 16, [&](double z) { return circle(z).r; });
    const double Hz = integral(-0.4, 0.9, 16, [&](double z) { return circle(z).z; });
    CHECK(std::abs(closed.r - Hr) < 1e-13); // fields of order 0.01 to 1
    CHECK(std::abs(closed.z - Hz) < 1e-13);
  }
}

TEST_CASE("a charged circle's field is minus the slope of its potential", "[reference]")
{
  // Potential r' K / (pi D) by the mean over the circle, whose trapezoidal sum converges at once.
  const auto potential = [](double r, double z)
  {
    double sum = 0.0;
    for (int i = 0; i < 400; ++i)
    {
      const double angle = 2 * std::numbers::pi * (i + 0.5) / 400;
      sum += 1.0 / std::sqrt(r * r + 1.0 - 2 * r * std::cos(angle) + z * z);
    }
    return sum / 400 / 2;
  };
  const double h = 1e-4; // errors: h^2 of the slope, 1e-12 of round-off
  for (const Field& at : {Field{0.3, 0.2}, {1.0, 0.6}, {1.7, -0.5}})
  {
    CAPTURE(at.r, at.z);
    const Field F = charged_circle({1.0, at.r, at.r - 1.0, at.z});
    const double Fr = (potential(at.r - h, at.z) - potential(at.r + h, at.z)) / (2 * h);
    const double Fz = (potential(at.r, at.z - h) - potential(at.r, at.z + h)) / (2 * h);
    CHECK(std::abs(F.r - Fr) < 1e-7);
    CHECK(std::abs(F.z - Fz) < 1e-7);
  }
}

TEST_CASE("a hardly magnetic rod adds the first-order integral", "[reference]")
{
  // The mean of chi = +-2^-20 leaves an error of order chi^2.
  const double chi = std::ldexp(1.0, -20);
  const double truth = overlap(short_rod, off_middle, wide);
  for (const Bound bound : {Bound::charge, Bound::current})
  {
    const auto gain = rod_gain(short_rod, off_middle, wide, {1 + chi, 1 - chi}, bound, {12, 20});
    CHECK(std::abs((gain[0] - gain[1]) / (2 * chi) / truth - 1.0) < 1e-9);
  }
}

TEST_CASE("mutual inductances about a rod are reciprocal", "[reference][long]")
{
  // Which sheet is the right-hand side and which the potential is a choice. The charges of the
  // coarsest panel, 2^-36 of the radius, count more than its currents.
  for (const auto& [bound, accuracy] : {std::pair{Bound::charge, 1e-8}, {Bound::current, 1e-10}})
  {
    const double there = rod_gain(short_rod, off_middle, wide, {300.0}, bound)[0];
    const double back = rod_gain(short_rod, wide, off_middle, {300.0}, bound)[0];
    CHECK(std::abs(there / back - 1.0) < accuracy);
  }
}

TEST_CASE("charges and currents both give the rod-coil table", "[reference][long]")
{
  // Currents move by less than 5e-10 beyond this fineness, and the table's tenth digit counts 5e-10
  // at most; charges, stronger at the edges, by less than 1e-8.
  for (const RodCoil& row : rod_coils())
  {
    if ((row.offset == 30 * mm || row.rod_length == 20 * mm) && row.permeability == 1000.0)
    {
      check_row(row, Bound::charge, 1e-8);
      check_row(row, Bound::current, 1e-9);
    }
  }
}

TEST_CASE("currents give every entry of the rod-coil table", "[reference][slow]")
{
  for (const RodCoil& row : rod_coils())
  {
    if (row.permeability > 1.0)
    {
      check_row(row, Bound::current, 1e-9);
    }
  }
}

TEST_CASE("longer rods approach the endless rod from below", "[reference][slow]")
{
  const Section section{5.5 * mm, 5.5 * mm, -25 * mm, 25 * mm, 100};
  const double endless = endless_rod_gain(5 * mm, 2.0, section);
  double lack = 1.0;
  for (const double length : {0.1, 0.2, 0.4, 0.8})
  {
    const Sheet sheet{5.5 * mm, 50 * mm, 0.0, 100};
    const double gain =
        rod_gain({5 * mm, length}, sheet, sheet, {2.0}, Bound::current, {10, 20})[0];
    CHECK(1.0 - gain / endless < lack / 8); // a dipole's field at the end: (1/length)^3 and faster
    lack = 1.0 - gain / endless;
    CHECK(lack > 0.0);
  }
  CHECK(lack < 1e-7);
}
