// The reference solutions themselves, against check values computed apart in 20 to 30 digits.
//
// Those come from the same published equations by a general-purpose multiprecision library, so
// agreement tests the code here, and both agree with the sources' own printed digits where known.
#include "reference/loops.hpp"
#include "reference/magnetic_bodies.hpp"
#include "reference/tables.hpp"
#include "reference/thick_coils.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <numbers>

using namespace reference;

namespace
{
constexpr double mm = 1e-3;
constexpr double nH = 1e-9;
constexpr double uH = 1e-6;

/// @brief Half a unit in the tenth digit, as the check values are given to ten.
Approx ten_digits(double value)
{
  return Approx(value).epsilon(2e-10);
}
} // namespace

TEST_CASE("current sheets equal Lorenz's closed form as computed apart", "[reference]")
{
  CHECK(current_sheet(5 * mm, 50 * mm, 100) == ten_digits(18.16190134682 * uH));
  CHECK(current_sheet(5.5 * mm, 50 * mm, 100) == ten_digits(21.797970343 * uH));
  CHECK(current_sheet(10 * mm, 20 * mm, 1) == ten_digits(13.58891759 * nH).epsilon(5e-10));
}

TEST_CASE("coaxial circles equal Maxwell's formula and the 1912 worked example", "[reference]")
{
  // a = 25 cm, A = 20 cm, z = 10 cm: 248.787 cm in Rosa & Grover 1912 (from memory).
  CHECK(coaxial_circles(0.25, 0.20, 0.10) == ten_digits(248.7873590 * nH));
  CHECK(coaxial_circles(0.25, 0.25, 0.20) == ten_digits(167.0857836 * nH).epsilon(5e-10));
  CHECK(coaxial_circles(0.25, 0.25, 0.01) == ten_digits(1036.664849 * nH).epsilon(5e-10));
  CHECK(coaxial_circles(0.01, 0.01, 0.01) == ten_digits(4.940784631 * nH));
  CHECK(coaxial_circles(0.2, 0.3, -0.1) == coaxial_circles(0.3, 0.2, 0.1));
}

TEST_CASE("thick coils by Bessel functions and straight from circles agree", "[reference]")
{
  // Two roads without a common step but the final units. Brooks's coil, published 1.6994 uH/m
  // [Brooks 1931, from memory].
  const Section brooks{10 * mm, 20 * mm, -5 * mm, 5 * mm, 1};
  const Section square{10 * mm, 12 * mm, 0, 2 * mm, 1};
  const Section coil{5.5 * mm, 7.5 * mm, -25 * mm, 25 * mm, 100};
  CHECK(thick_self(brooks) == Approx(thick_self_direct(brooks)).epsilon(1e-10));
  CHECK(thick_self(square) == Approx(thick_self_direct(square)).epsilon(1e-10));
  CHECK(thick_self(coil) == Approx(thick_self_direct(coil)).epsilon(1e-9)); // slender
  CHECK(thick_self(brooks) / (15 * mm) == Approx(1.6994 * uH).margin(0.00005 * uH));
}

TEST_CASE("a small square section obeys Stefan's series", "[reference]")
{
  // Stefan 1884, constants y1 = 0.848340, y2 = 0.8162 from memory; its rest is O((c/a)^4).
  const double a = 11 * mm, c = 2 * mm;
  const double q = c * c / (a * a);
  const double series =
      mu0 * a *
      ((1 + 4 * q / 96) * std::log(8 * a / (c * std::sqrt(2.0))) - 0.848340 + q * 0.8162 / 16);
  CHECK(thick_self({10 * mm, 12 * mm, 0, 2 * mm, 1}) == Approx(series).epsilon(2e-6));
}

TEST_CASE("a thick coil cut in parts keeps its inductance", "[reference]")
{
  // Self and mutual inductances of the parts, apart, nested and overlapping, add up to the whole.
  const Section whole{10 * mm, 14 * mm, -3 * mm, 5 * mm, 8};
  const Section low{10 * mm, 14 * mm, -3 * mm, 0, 3};
  const Section high{10 * mm, 14 * mm, 0, 5 * mm, 5};
  const double L = thick_self(whole);
  CHECK(thick_self(low) + thick_self(high) + 2 * thick_mutual(low, high) ==
        Approx(L).epsilon(1e-9));
  CHECK(thick_mutual(whole, low) + thick_mutual(whole, high) == Approx(L).epsilon(1e-9));
  const Section inner{10 * mm, 12 * mm, -3 * mm, 5 * mm, 4};
  const Section outer{12 * mm, 14 * mm, -3 * mm, 5 * mm, 4};
  CHECK(thick_mutual(whole, inner) + thick_mutual(whole, outer) == Approx(L).epsilon(1e-9));
  CHECK(thick_mutual(low, outer) == Approx(thick_mutual(outer, low)).epsilon(1e-13));
}

TEST_CASE("slim distant sections approach Maxwell's circles", "[reference]")
{
  // Section effects are of order (size/distance)^2 / 24 = 4e-6.
  const Section a{24.9 * mm, 25.1 * mm, -0.1 * mm, 0.1 * mm, 1};
  const Section b{19.9 * mm, 20.1 * mm, 19.9 * mm, 20.1 * mm, 1};
  CHECK(thick_mutual(a, b) == Approx(coaxial_circles(25 * mm, 20 * mm, 20 * mm)).epsilon(1e-5));
}

TEST_CASE("two coils of workshop problem 22 store 179.8665 MJ by both roads", "[reference]")
{
  // TEAM workshop problem 22, geometry and its target of 180 MJ from memory.
  const double J = 22.5e6;
  const Section inner{2 - 0.135, 2 + 0.135, -0.8, 0.8, 1};
  const Section outer{3.08 - 0.197, 3.08 + 0.197, -0.239, 0.239, 1};
  const double I1 = J * 0.27 * 1.6;
  const double I2 = -J * 0.394 * 0.478;
  const double mutual = thick_mutual(inner, outer) * I1 * I2;
  const double W = 0.5 * thick_self(inner) * I1 * I1 + 0.5 * thick_self(outer) * I2 * I2 + mutual;
  const double direct =
      0.5 * thick_self_direct(inner) * I1 * I1 + 0.5 * thick_self_direct(outer) * I2 * I2 + mutual;
  CHECK(W == Approx(direct).epsilon(1e-9));         // slender sections in the direct one
  CHECK(W == Approx(179.8665e6).margin(0.00005e6)); // the digits computed apart that stand
  // The mutual part by a second road: circles at Gauss points, sections 0.75 m apart.
  double circles = 0;
  const double node[] = {-0.906179845938664, -0.538469310105683, 0, 0.538469310105683,
                         0.906179845938664};
  const double weight[] = {0.236926885056189, 0.478628670499366, 0.568888888888889,
                           0.478628670499366, 0.236926885056189};
  for (int i = 0; i < 625; ++i)
  {
    const int p[] = {i % 5, i / 5 % 5, i / 25 % 5, i / 125};
    circles += weight[p[0]] * weight[p[1]] * weight[p[2]] * weight[p[3]] / 16 *
               coaxial_circles(2 + 0.135 * node[p[0]], 3.08 + 0.197 * node[p[1]],
                               0.8 * node[p[2]] - 0.239 * node[p[3]]);
  }
  CHECK(thick_mutual(inner, outer) == Approx(circles).epsilon(2e-5)); // five points a side
}

TEST_CASE("round rings equal direct quadrature for both current laws", "[reference]")
{
  // Eight digits given; Rayleigh & Niven's series itself is 2e-7 off at r = 1 mm.
  CHECK(round_ring(10 * mm, 1 * mm, Spread::even) == Approx(33.149097 * nH).epsilon(2e-8));
  CHECK(round_ring(10 * mm, 2 * mm, Spread::even) == Approx(24.617473 * nH).epsilon(3e-8));
  CHECK(round_ring(10 * mm, 1 * mm, Spread::inverse) == Approx(33.032199 * nH).epsilon(2e-8));
  CHECK(round_ring(10 * mm, 2 * mm, Spread::inverse) == Approx(24.235488 * nH).epsilon(3e-8));
}

TEST_CASE("the gain of a circle about a ball equals the series computed apart", "[reference]")
{
  const double half = std::numbers::pi / 2;
  CHECK(ball_gain(10 * mm, 2, 11 * mm, half) == ten_digits(11.223984717 * nH));
  CHECK(ball_gain(10 * mm, 10, 11 * mm, half) == ten_digits(32.447507473 * nH));
  CHECK(ball_gain(10 * mm, 100, 11 * mm, half) == ten_digits(41.420503722 * nH));
  CHECK(ball_gain(10 * mm, 1000, 11 * mm, half) == ten_digits(42.482111051 * nH));
  CHECK(ball_gain(10 * mm, 10, 15 * mm, half) == ten_digits(13.937508420 * nH));
  CHECK(ball_gain(10 * mm, 1000, 15 * mm, half) == ten_digits(18.469495261 * nH));
  CHECK(ball_gain(10 * mm, 1000, 20 * mm, half) == ten_digits(9.9995641711 * nH));
  CHECK(ball_gain(10 * mm, 1000, 15 * mm, std::numbers::pi / 3) == ten_digits(12.552225554 * nH));
}

TEST_CASE("averaged gains of slim sections approach that of their middle circle", "[reference]")
{
  const double line = ball_gain(10 * mm, 100, std::hypot(15.0, 4.0) * mm, std::atan2(15.0, 4.0));
  const Section slim{14.999 * mm, 15.001 * mm, 3.999 * mm, 4.001 * mm, 1};
  // Second order in size/distance: (1e-3/5)^2 = 4e-8, times a small number.
  CHECK(ball_gain(10 * mm, 100, slim) == Approx(line).epsilon(1e-7));
  CHECK(ball_gain(10 * mm, 100, 15 * mm, 4 * mm, 0.001 * mm) == Approx(line).epsilon(1e-7));
  // A square and a disc of equal second moment, s^2/12 = r^2/4, agree to fourth order.
  const double s = 1 * mm;
  const Section square{15 * mm - s / 2, 15 * mm + s / 2, 4 * mm - s / 2, 4 * mm + s / 2, 1};
  CHECK(ball_gain(10 * mm, 100, square) ==
        Approx(ball_gain(10 * mm, 100, 15 * mm, 4 * mm, s / std::sqrt(3.0))).epsilon(1e-5));
  CHECK(ball_gain(10 * mm, 100, square) != Approx(line).epsilon(1e-4));
}

TEST_CASE("the gain of an endless rod equals the static Dodd-Deeds integral", "[reference]")
{
  const Section sheet{5.5 * mm, 5.5 * mm, -25 * mm, 25 * mm, 100};
  CHECK(endless_rod_gain(5 * mm, 2, sheet) == Approx(16.4518285 * uH).epsilon(4e-9));
  CHECK(endless_rod_gain(5 * mm, 5, sheet) == Approx(60.5636683 * uH).epsilon(1e-9));
  CHECK(endless_rod_gain(5 * mm, 10, sheet) == Approx(122.749547 * uH).epsilon(5e-9));
  CHECK(endless_rod_gain(5 * mm, 100, sheet) == Approx(680.194699 * uH).epsilon(1e-9));
  CHECK(endless_rod_gain(5 * mm, 1000, sheet) == Approx(2323.25781 * uH).epsilon(3e-9));
  CHECK(endless_rod_gain(5 * mm, 2300, sheet) == Approx(3452.51941 * uH).epsilon(3e-9));
  // A section as thin as round-off allows is the sheet.
  const Section thin{5.4999 * mm, 5.5001 * mm, -25 * mm, 25 * mm, 100};
  CHECK(endless_rod_gain(5 * mm, 10, thin) == Approx(122.749547 * uH).epsilon(1e-7));
}

TEST_CASE("spheroid factors by quadrature equal Osborn's closed forms", "[reference]")
{
  CHECK(spheroid_factor(1) == Approx(1.0 / 3).epsilon(1e-12));
  CHECK(spheroid_factor(2) == ten_digits(0.173563997534));
  CHECK(spheroid_factor(10) == ten_digits(0.020285880302));
  CHECK(spheroid_factor(100) == ten_digits(0.000429898720).epsilon(2e-9));
  CHECK(spheroid_factor(0.5) == ten_digits(0.527200282563));
  CHECK(spheroid_factor(0.01) == ten_digits(0.984489706913));
}

TEST_CASE("the cylinder table meets the exact sheet at vanishing susceptibility", "[reference]")
{
  // Brown 1962; Joseph 1966: Nm(chi -> 0) = 1 - K. Six digits are given.
  for (const CylinderFactor& row : cylinder_factors())
  {
    if (row.susceptibility == 0.0)
    {
      const double pi = std::numbers::pi;
      const double K = current_sheet(0.5, row.aspect, 1) * row.aspect / (mu0 * pi / 4);
      CAPTURE(row.aspect);
      CHECK(row.magnetometric == Approx(1 - K).epsilon(6e-6));
    }
  }
  CHECK(cylinder_factors().size() == 60);
}

TEST_CASE("the rod-coil table meets air at mu = 1 and stays below the endless rod", "[reference]")
{
  for (const RodCoil& row : rod_coils())
  {
    CAPTURE(row.rod_length, row.coil_length, row.offset, row.permeability);
    const double air = current_sheet(5.5 * mm, row.coil_length, 100);
    if (row.permeability == 1.0)
    {
      CHECK(std::abs(row.inductance / air - 1) < 5e-10); // ten digits
      continue;
    }
    const Section sheet{5.5 * mm, 5.5 * mm, 0, row.coil_length, 100};
    CHECK(row.inductance < air + endless_rod_gain(5 * mm, row.permeability, sheet));
    CHECK(row.inductance > air);
  }
  CHECK(rod_coils().size() == 116);
}

TEST_CASE("the rod-coil table's former values fail where it says", "[reference]")
{
  int wrong = 0;
  for (const RodCoil& row : rod_coils())
  {
    if (former_holds(row))
    {
      continue;
    }
    CAPTURE(row.rod_length, row.coil_length, row.offset, row.permeability);
    ++wrong;
    const bool middle = row.offset == 0.0;
    CHECK(row.rod_length == 0.1);
    CHECK((middle ? row.coil_length <= 25 * mm : row.offset == 30 * mm || row.offset == 40 * mm));
    const double limit = !middle ? (row.offset == 30 * mm ? 5.1e-5 : 3.3e-5)
                         : row.coil_length == 5 * mm
                             ? 6.3e-5
                             : (row.coil_length == 10 * mm ? 2.1e-6 : 6.0e-5);
    CHECK(std::abs(row.former / row.inductance - 1) < limit);
  }
  CHECK(wrong == 39);
}
