// Air coils: closed forms against values computed apart, claims against exact integrals.
#include "post/closed_forms.hpp"

#include "post/formula_scenes.hpp"
#include "reference/loops.hpp"
#include "reference/thick_coils.hpp"

#include <cmath>
#include <numbers>
#include <utility>

using namespace formula_tests;

TEST_CASE("coefficients of the current sheet equal those computed apart", "[formulas]")
{
  // Lorenz 1879; Nagaoka's table of 1909 prints the first six digits (from memory).
  const double table[][2] = {{0.1, 0.9588071242}, {0.2, 0.9200926708}, {0.3, 0.8838029087},
                             {0.5, 0.8181357519}, {1, 0.6884226073},   {2, 0.5255100243},
                             {3, 0.4291986170},   {5, 0.3198254678},   {10, 0.2033235175},
                             {20, 0.1236148097},  {50, 0.0610976062},  {100, 0.0349602458}};
  for (const auto& [ratio, K] : table)
  {
    CAPTURE(ratio);
    CHECK(post::sheet_coefficient(ratio) == Approx(K).margin(0.51e-10));
    CHECK(post::lundin_coefficient(ratio) == Approx(K).epsilon(3e-6)); // its own claim
  }
  // The series at both ends join the closed form: 1e-11 is its round-off there.
  CHECK(post::sheet_coefficient(0.01 - 1e-15) ==
        Approx(post::sheet_coefficient(0.01)).epsilon(1e-11));
  CHECK(post::sheet_coefficient(100 * (1 + 1e-15)) ==
        Approx(post::sheet_coefficient(100)).epsilon(2e-9)); // its rest is ln(4x)/x^4
  // Rayleigh & Niven's series of a short sheet, written out: no cancellation may be left at 1000.
  CHECK(post::sheet_coefficient(1000) ==
        Approx(2 / (1000 * std::numbers::pi) * (1.000000125 * std::log(4000.0) - 0.5 + 3.125e-8))
            .epsilon(1e-12));
  CHECK(post::sheet_coefficient(1e8) > 0.0);
}

TEST_CASE("Wheeler's end correction errs as computed apart", "[formulas]")
{
  for (const auto& [length, error] :
       {std::pair{5.0, -0.0029}, {2.0, -0.0022}, {1.0, 0.0018}, {0.4, -0.0027}})
  {
    const solver::Problem coil = block_coil(1, 1, length, 1);
    CAPTURE(length);
    CHECK(value(coil, "air coil, end correction 0.45 D") / value(coil, "air coil, sheet, exact") -
              1 ==
          Approx(error).margin(0.00005));
  }
}

TEST_CASE("Rosa's B(N) starts at nothing and nears 0.3379", "[formulas]")
{
  CHECK(post::rosa_mutual(1) == Approx(0.0).margin(1e-15));
  CHECK(post::rosa_mutual(2) == Approx(1.5 - 2 * std::log(2.0)).epsilon(1e-12)); // 0.1137
  // Limit ln(2 pi) - 3/2 of the Stirling sums, reached as ln(N)/(6N).
  CHECK(post::rosa_mutual(10000) == Approx(std::log(2 * std::numbers::pi) - 1.5).margin(3e-4));
}

TEST_CASE("Rosa's correction turns a sheet into round turns", "[formulas]")
{
  // Ten turns as rings, each by Rayleigh & Niven, each pair by Maxwell: exact for even current but
  // for (wire/pitch)^2 effects of pairs, below 1e-4 here.
  const double a = 10 * mm, r = 0.25 * mm, p = 0.8 * mm;
  const int N = 10;
  double L = N * reference::round_ring(a, r, reference::Spread::even);
  for (int i = 1; i < N; ++i)
  {
    L += 2 * (N - i) * reference::coaxial_circles(a, a, i * p);
  }
  const auto coil =
      round_coil({.wire_diameter = 2 * r, .inner_diameter = 2 * (a - r), .pitch = p}, N);
  const auto rosa = named(post::formulas(coil), "air coil, round turns");
  CHECK(rosa.holds);
  CHECK(rosa.value == Approx(L).epsilon(2e-3)); // curvature: B(N) is that of a straight strip
  CHECK(value(coil, "air coil, sheet, exact") != Approx(L).epsilon(1e-2));
}

TEST_CASE("air-coil formulas are as good as they claim wherever they hold", "[formulas]")
{
  int checked = 0;
  for (const double c : {0.002, 0.02, 0.1, 0.15, 0.5})
  {
    for (const double l : {0.005, 0.1, 0.2, 0.4, 0.7, 5.0})
    {
      CAPTURE(c, l);
      const reference::Section section{0.5 - c / 2, 0.5 + c / 2, 0, l, 1};
      // Either road where it is at its best.
      const double truth =
          l <= 100 * c ? reference::thick_self_direct(section) : reference::thick_self(section);
      checked +=
          check_claims(block_coil(1 - c, 1 + c, l, 1), post::Estimates::air_inductance, truth);
    }
  }
  for (const double l : {0.01, 0.1, 0.4, 1.0, 5.0, 20.0})
  {
    CAPTURE(l);
    checked += check_claims(block_coil(1, 1, l, 30), post::Estimates::air_inductance,
                            reference::current_sheet(0.5, l, 30));
  }
  CHECK(checked > 40); // the claims were not vacuous
}

TEST_CASE("layers of round turns fill the section of the block they stand for", "[formulas]")
{
  // Three layers of 0.5 mm wire with 0.1 mm insulation: 0.7 mm each, ten turns high at 0.8 mm.
  const solver::Problem turns = round_coil({.wire_diameter = 0.5 * mm,
                                            .inner_diameter = 10 * mm,
                                            .layers = 3,
                                            .pitch = 0.8 * mm,
                                            .insulation = 0.1 * mm},
                                           29);
  const solver::Problem block = block_coil(10 * mm, 14.2 * mm, 8 * mm, 29);
  CHECK(value(turns, "air coil, thick, by length") ==
        Approx(value(block, "air coil, thick, by length")).epsilon(1e-12));
}

TEST_CASE("thick coils equal the direct double integral to nine digits", "[formulas]")
{
  // Square, 4:3 (no panel between the corner and the end may be lost), long and flat sections.
  const double sections[][2] = {{2, 2}, {2, 8.0 / 3}, {2, 2.9}, {2, 50}, {1, 0.75}, {8, 0.4}};
  for (const auto& [c, l] : sections)
  {
    CAPTURE(c, l);
    const reference::Section section{(11 - c / 2) * mm, (11 + c / 2) * mm, 0, l * mm, 100};
    CHECK(post::thick_coil(
              {.diameter = 22 * mm, .length = l * mm, .thickness = c * mm, .turns = 100}) ==
          Approx(reference::thick_self_direct(section)).epsilon(1e-9));
  }
  // A sheet's limit.
  const post::CoilShape thin{.diameter = 1, .length = 2, .thickness = 1e-9, .turns = 1};
  CHECK(post::thick_coil(thin) ==
        Approx(post::sheet_inductance(thin, post::sheet_coefficient(0.5))).epsilon(1e-8));
}

TEST_CASE("coils of square section equal the values in print", "[formulas]")
{
  // Brooks prints 1.6994e-6 a N^2 (from memory) for bore 2c, length c; computed apart 1.699378.
  const post::CoilShape brooks{
      .diameter = 30 * mm, .length = 10 * mm, .thickness = 10 * mm, .turns = 1};
  CHECK(post::thick_coil(brooks) / (15 * mm) == Approx(1.6994e-6).margin(0.5e-10));
  CHECK(post::brooks_coil(brooks) == Approx(post::thick_coil(brooks)).epsilon(3e-5));
  // Stefan's series with its printed constants, evaluated apart: 35.88034530 nH.
  const post::CoilShape square{
      .diameter = 22 * mm, .length = 2 * mm, .thickness = 2 * mm, .turns = 1};
  CHECK(post::square_coil(square) == ten_digits(35.88034530 * nH));
  const auto list = post::formulas(block_coil(20 * mm, 40 * mm, 10 * mm, 1));
  CHECK(named(list, "air coil, Brooks' proportions").holds);
  CHECK(named(list, "air coil, square section").holds);
  CHECK_FALSE(lists(block_coil(20 * mm, 40 * mm, 11 * mm, 1), "air coil, Brooks' proportions"));
  CHECK_FALSE(lists(block_coil(20 * mm, 40 * mm, 11 * mm, 1), "air coil, square section"));
}

TEST_CASE("series and fits of a sheet err as their next terms say", "[formulas]")
{
  for (const double ratio : {0.1, 0.2, 0.3}) // next term of the long one 5 x^6 / 1024
  {
    CAPTURE(ratio);
    CHECK(post::long_sheet_coefficient(ratio) - post::sheet_coefficient(ratio) ==
          Approx(-5.0 / 1024 * std::pow(ratio, 6)).epsilon(0.05).margin(2e-11));
  }
  for (const double ratio : {2.0, 10.0, 200.0}) // next of the short one (l/a)^4 ln / 1024
  {
    CAPTURE(ratio);
    CHECK(std::abs(post::short_sheet_coefficient(ratio) / post::sheet_coefficient(ratio) - 1) <
          std::pow(2 / ratio, 4) / 1024);
  }
  double worst = 0.0;
  for (double ratio = 0.01; ratio < 100; ratio *= 1.1)
  {
    worst = std::max(
        worst, std::abs(post::wheeler_coefficient(ratio) / post::sheet_coefficient(ratio) - 1));
  }
  CHECK(worst == Approx(0.00095).margin(0.00005)); // a thousandth in print (from memory)
}

TEST_CASE("hand formulas of thick coils follow their letters", "[formulas]")
{
  // a = 1 in, l = 0.5 in, c = 0.25 in, written out in inches and microhenries.
  const double in = 25.4e-3;
  const post::CoilShape coil{
      .diameter = 2 * in, .length = 0.5 * in, .thickness = 0.25 * in, .turns = 10};
  CHECK(post::thick_wheeler(coil) == Approx(80.0 / (6 + 4.5 + 2.5) * uH).epsilon(1e-12));
  CHECK(post::flat_wheeler(coil) == Approx(100.0 / (8 + 2.75) * uH).epsilon(1e-12));
  // In centimetres 4 pi^2 a^2 N^2 F' F'' / (l + c + R) nH, R = 1.125 in.
  const double first = (5 + 3 + 2.25) / (5 + 2.5 + 1.575);
  const double second = 0.5 * std::log10(100 + 14 * 1.125 / (1 + 0.75));
  CHECK(post::brooks_turner(coil) == Approx(4 * std::numbers::pi * std::numbers::pi * 2.54 * 100 /
                                            (0.5 + 0.25 + 1.125) * first * second * nH)
                                         .epsilon(1e-12));
}

TEST_CASE("layers of round turns equal the sum of their rings", "[formulas]")
{
  // Three layers of four turns, rings by Rayleigh & Niven, pairs by Maxwell; wire/pitch effects of
  // pairs are of the order (r/pitch)^2 (pitch/a)^2, below 1e-4.
  const double a = 20 * mm, p = 1 * mm, r = 0.3 * mm;
  double L = 0.0;
  for (int i = 0; i < 12; ++i)
  {
    const double ri = a + (i / 4 - 1) * p;
    for (int j = 0; j < 12; ++j)
    {
      const double rj = a + (j / 4 - 1) * p;
      L += i == j ? reference::round_ring(ri, r, reference::Spread::even)
                  : reference::coaxial_circles(ri, rj, (i % 4 - j % 4) * p);
    }
  }
  mesh::RoundTurns turns{.wire_diameter = 2 * r,
                         .inner_diameter = 2 * (a - 1.5 * p),
                         .layers = 3,
                         .pitch = p,
                         .insulation = p / 2 - r};
  const auto layers =
      named(post::formulas(round_coil(turns, 12)), "air coil, layers of round turns");
  CHECK(layers.holds);
  CHECK(layers.value == Approx(L).epsilon(0.003)); // 0.017 stands for many layers
  CHECK(value(round_coil(turns, 12), "air coil, thick, exact") != Approx(L).epsilon(0.02));
  CHECK_FALSE(
      named(post::formulas(round_coil(turns, 11)), "air coil, layers of round turns").holds);
  turns.pitch = 1.5 * p;
  CHECK(named(post::formulas(round_coil(turns, 12)), "air coil, layers of round turns").why ==
        "for a pitch no more than 1.2 layers");
}
