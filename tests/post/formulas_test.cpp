// Hand formulas: the closed forms against values computed apart, their claims of accuracy against
// the reference solutions, and how a case decides which of them hold.
#include "post/closed_forms.hpp"
#include "post/formulas.hpp"

#include "reference/loops.hpp"
#include "reference/magnetic_bodies.hpp"
#include "reference/tables.hpp"
#include "reference/thick_coils.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>
#include <string>
#include <vector>

namespace
{

constexpr double mm = 1e-3;
constexpr double nH = 1e-9;
constexpr double uH = 1e-6;

/// @brief Half a unit in the tenth digit, as the values computed apart are given to ten.
Approx ten_digits(double value)
{
  return Approx(value).epsilon(5e-10);
}

solver::Problem block_coil(double inner, double outer, double length, double turns)
{
  solver::Problem problem;
  problem.scene.windings = {{"coil", turns, mesh::Block{inner, outer, length}, 0.0}};
  return problem;
}

solver::Problem round_coil(const mesh::RoundTurns& turns, double count)
{
  solver::Problem problem;
  problem.scene.windings = {{"coil", count, turns, 0.0}};
  return problem;
}

void add_part(solver::Problem& problem, const std::string& name, const mesh::Shape& shape,
              double permeability)
{
  problem.materials[name] = {.permeability = permeability};
  problem.scene.parts.push_back({name, shape, name, 0.0, std::nullopt});
}

/// @brief The formula of that name; fails the test where there is none.
post::FormulaResult named(const std::vector<post::FormulaResult>& list, const std::string& name)
{
  const auto found =
      std::find_if(list.begin(), list.end(), [&](const auto& one) { return one.name == name; });
  CAPTURE(name);
  REQUIRE(found != list.end());
  return *found;
}

double value(const solver::Problem& problem, const std::string& name)
{
  return named(post::formulas(problem), name).value;
}

/// @brief Whether a formula is listed at all.
bool lists(const solver::Problem& problem, const std::string& name)
{
  const auto list = post::formulas(problem);
  return std::any_of(list.begin(), list.end(), [&](const auto& one) { return one.name == name; });
}

/// @brief Largest deviation a formula may show where it says it holds; as its range states.
double claim(const std::string& why)
{
  if (why.starts_with("exact"))
  {
    return 1e-9;
  }
  const double number = std::stod(why);
  return why.find(" ppm") != std::string::npos ? number * 1e-6
         : why.find(" %") != std::string::npos ? number * 1e-2
                                               : number;
}

/// @brief Checks every listed formula that holds and estimates `what` against the truth.
int check_claims(const solver::Problem& problem, post::Estimates what, double truth)
{
  int checked = 0;
  for (const post::FormulaResult& one : post::formulas(problem))
  {
    if (one.holds && one.estimates == what && !one.why.starts_with("rough"))
    {
      CAPTURE(one.name, one.why, one.value, truth);
      CHECK(std::abs(one.value / truth - 1.0) <= claim(one.why));
      ++checked;
    }
  }
  return checked;
}

} // namespace

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

TEST_CASE("circles and rings equal the values computed apart", "[formulas]")
{
  CHECK(post::coaxial_circles(0.25, 0.20, 0.10) == ten_digits(248.7873590 * nH));
  CHECK(post::coaxial_circles(0.25, 0.25, 0.01) == ten_digits(1036.664849 * nH));
  CHECK(post::ring_uniform(10 * mm, 0.5 * mm) == Approx(41.8066057 * nH).epsilon(2e-9));
  CHECK(post::ring_kirchhoff(10 * mm, 0.5 * mm) == Approx(41.7853665 * nH).epsilon(2e-9));
  CHECK(post::ring_uniform(10 * mm, 1 * mm) == Approx(33.1490909 * nH).epsilon(2e-9));
  CHECK(post::ring_kirchhoff(10 * mm, 1 * mm) == Approx(33.0750222 * nH).epsilon(2e-9));
  // Rosa & Grover 1912 print 654.40496 pi cm for a = 25 cm, r = 0.05 cm (from memory).
  CHECK(post::ring_kirchhoff(0.25, 0.0005) ==
        Approx(654.40496 * std::numbers::pi * nH).epsilon(8e-9));
}

TEST_CASE("spheroid factors equal Osborn's closed forms computed apart", "[formulas]")
{
  const double table[][2] = {{2, 0.173563997534},   {5, 0.055820969802},   {10, 0.020285880302},
                             {20, 0.006749054755},  {50, 0.001442973774},  {100, 0.000429898720},
                             {0.5, 0.527200282563}, {0.2, 0.750483912424}, {0.1, 0.860804276528},
                             {0.01, 0.984489706913}};
  for (const auto& [aspect, factor] : table)
  {
    CAPTURE(aspect);
    CHECK(post::spheroid_factor(aspect) == Approx(factor).margin(0.6e-12).epsilon(1e-11));
  }
  // About the sphere the series takes over; its rest is e^4 = 1e-12.
  for (const double aspect : {0.9996, 0.9999, 1.0, 1.0001, 1.0004})
  {
    CAPTURE(aspect);
    CHECK(post::spheroid_factor(aspect) ==
          Approx(reference::spheroid_factor(aspect)).epsilon(1e-12));
  }
}

TEST_CASE("rod permeabilities and fits equal the values computed apart", "[formulas]")
{
  const auto rod = [](double mu, double aspect)
  { return post::apparent_permeability(mu, post::spheroid_factor(aspect)); };
  CHECK(rod(100, 10) == Approx(33.2413418).epsilon(2e-9));
  CHECK(rod(1000, 10) == Approx(47.0243145).epsilon(2e-9));
  CHECK(rod(1000, 20) == Approx(129.1604903).epsilon(1e-9));
  CHECK(rod(10000, 50) == Approx(648.1597708).epsilon(1e-9));
  CHECK(rod(1000, 1) == Approx(2.994011976).epsilon(1e-9));
  CHECK(post::sato_ishii_factor(1) == Approx(0.30705).margin(0.000005)); // Sato & Ishii 1989
  CHECK(post::burhans_factor(10) == Approx(0.01343).margin(0.000005));   // Burhans 1979
  CHECK(post::burhans_factor(5) == Approx(0.03645).margin(0.00001));
}

TEST_CASE("a coating adds mu0 (mu-1) ln(b/a) / 2 pi per metre", "[formulas]")
{
  CHECK(post::coating_inductance(10, 0.5, 1.5) == Approx(1977.50212 * nH).epsilon(3e-9));
  CHECK(post::coating_inductance(100, 0.5, 1.5) == Approx(21752.5233 * nH).epsilon(3e-9));
  CHECK(post::coating_inductance(5, 0.5, 1.5) == Approx(878.890 * nH).epsilon(6e-7));
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
      const double truth = reference::thick_self({0.5 - c / 2, 0.5 + c / 2, 0, l, 1});
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

TEST_CASE("ring formulas are as good as they claim for both current laws", "[formulas]")
{
  for (const double r : {0.05, 0.1, 0.2})
  {
    for (const bool fine : {true, false})
    {
      CAPTURE(r, fine);
      const mesh::RoundTurns turns{.wire_diameter = 2 * r,
                                   .inner_diameter = 2 - 2 * r,
                                   .strand = fine ? mesh::Strand::fine : mesh::Strand::solid};
      const double truth =
          reference::round_ring(1, r, fine ? reference::Spread::even : reference::Spread::inverse);
      CHECK(check_claims(round_coil(turns, 1), post::Estimates::air_inductance, truth) >= 1);
    }
  }
}

TEST_CASE("circles stand for distant sections as well as they claim", "[formulas]")
{
  int checked = 0;
  for (const double z : {0.1, 0.3, 1.0})
  {
    for (const double b : {0.5, 0.3})
    {
      for (const double s : {0.02, 0.1, 0.2})
      {
        CAPTURE(z, b, s);
        solver::Problem pair = block_coil(1 - s, 1 + s, s, 7);
        pair.scene.windings.push_back({"other", 3, mesh::Block{2 * b - s, 2 * b + s, s}, z});
        const double truth =
            reference::thick_mutual({0.5 - s / 2, 0.5 + s / 2, -s / 2, s / 2, 7},
                                    {b - s / 2, b + s / 2, z - s / 2, z + s / 2, 3});
        checked += check_claims(pair, post::Estimates::mutual_inductance, truth);
      }
    }
  }
  CHECK(checked >= 10);
}

TEST_CASE("rod formulas are as good as they claim on every coil of the table", "[formulas]")
{
  int checked = 0;
  for (const reference::RodCoil& row : reference::rod_coils())
  {
    solver::Problem problem = block_coil(11 * mm, 11 * mm, row.coil_length, 100);
    problem.scene.windings[0].centre = row.offset;
    add_part(problem, "core", mesh::Rod{10 * mm, row.rod_length}, row.permeability);
    CAPTURE(row.rod_length, row.coil_length, row.offset, row.permeability);
    checked += check_claims(problem, post::Estimates::inductance, row.inductance);
  }
  CHECK(checked > 80);
}

TEST_CASE("the endless-rod formula approaches the Dodd-Deeds integral", "[formulas]")
{
  // Long coil, low permeability: what is left out is the coil's own ends, about 0.7 D of length.
  solver::Problem problem = block_coil(11 * mm, 11 * mm, 2000 * mm, 100);
  add_part(problem, "core", mesh::Rod{10 * mm, 4000 * mm}, 5.0);
  const double truth =
      reference::current_sheet(5.5 * mm, 2.0, 100) +
      reference::endless_rod_gain(5 * mm, 5.0, {5.5 * mm, 5.5 * mm, -1.0, 1.0, 100});
  const auto endless = named(post::formulas(problem), "rod, endless");
  CHECK(endless.holds);
  CHECK(endless.value == Approx(truth).epsilon(0.01));
}

TEST_CASE("demagnetising formulas are as good as they claim on the cylinder table", "[formulas]")
{
  int checked = 0;
  for (const reference::CylinderFactor& row : reference::cylinder_factors())
  {
    if (row.susceptibility == 0.0 || std::isinf(row.susceptibility))
    {
      continue;
    }
    solver::Problem problem;
    problem.background = 1e-3;
    add_part(problem, "core", mesh::Rod{10 * mm, row.aspect * 10 * mm}, 1 + row.susceptibility);
    CAPTURE(row.aspect, row.susceptibility);
    checked += check_claims(problem, post::Estimates::magnetometric, row.magnetometric);
    checked += check_claims(problem, post::Estimates::ballistic, row.ballistic);
    checked += check_claims(problem, post::Estimates::middle_permeability,
                            post::apparent_permeability(1 + row.susceptibility, row.ballistic));
  }
  CHECK(checked >= 15);
  // Near mu = 1 the table's chi = 0 column stands.
  for (const reference::CylinderFactor& row : reference::cylinder_factors())
  {
    if (row.susceptibility == 0.0)
    {
      CHECK(post::sato_ishii_factor(row.aspect) == Approx(row.magnetometric).epsilon(0.05));
    }
  }
}

TEST_CASE("a ball in a uniform field has the factor one third", "[formulas]")
{
  solver::Problem problem;
  problem.background = 1e-3;
  add_part(problem, "ball", mesh::Ring{0.0, 10 * mm}, 1000.0);
  CHECK(value(problem, "ball") == Approx(1.0 / 3));
  CHECK(value(problem, "ball, middle") == Approx(2.994011976).epsilon(1e-9));
  CHECK(named(post::formulas(problem), "ball").unit == "1");
}

TEST_CASE("a second magnetic part stops the formulas that count one", "[formulas]")
{
  solver::Problem problem = block_coil(11 * mm, 11 * mm, 95 * mm, 100);
  add_part(problem, "core", mesh::Rod{10 * mm, 100 * mm}, 700.0);
  CHECK(named(post::formulas(problem), "rod, spheroid factor").holds);
  add_part(problem, "sleeve", mesh::Tube{14 * mm, 16 * mm, 100 * mm}, 700.0);
  for (const char* name : {"rod, spheroid factor", "rod, short coil", "sleeve, magnetised evenly"})
  {
    const auto formula = named(post::formulas(problem), name);
    CHECK_FALSE(formula.holds);
    CHECK(formula.why == "counts one bare magnetic part; here: core, sleeve");
  }
  problem.materials["sleeve"].permeability = 1.0; // brass, say
  CHECK(named(post::formulas(problem), "rod, spheroid factor").holds);
  problem.scene.parts[0].coating = mesh::Coating{"core", 1 * mm};
  CHECK(named(post::formulas(problem), "rod, spheroid factor").why ==
        "counts one bare magnetic part; here: core, core.coating");
}

TEST_CASE("which formulas are listed follows what is in the scene", "[formulas]")
{
  solver::Problem problem = block_coil(12 * mm, 14 * mm, 50 * mm, 100);
  CHECK_FALSE(lists(problem, "rod, spheroid factor"));
  CHECK_FALSE(lists(problem, "sleeve, magnetised evenly"));
  solver::Problem tube = problem;
  add_part(tube, "tube", mesh::Tube{6 * mm, 12 * mm, 50 * mm}, 5.0);
  CHECK(lists(tube, "tube core, spheroid factor"));
  CHECK_FALSE(lists(tube, "sleeve, magnetised evenly"));
  solver::Problem sleeve = problem;
  add_part(sleeve, "tube", mesh::Tube{14 * mm, 16 * mm, 50 * mm}, 5.0);
  CHECK(lists(sleeve, "sleeve, magnetised evenly"));
  CHECK_FALSE(lists(sleeve, "tube core, spheroid factor"));
  CHECK(post::formulas(solver::Problem{}).empty());
}

TEST_CASE("a tube core tends to the rod as its bore closes", "[formulas]")
{
  solver::Problem rod = block_coil(12 * mm, 12 * mm, 50 * mm, 100);
  solver::Problem tube = rod;
  add_part(rod, "core", mesh::Rod{12 * mm, 50 * mm}, 50.0);
  add_part(tube, "core", mesh::Tube{1e-6 * mm, 12 * mm, 50 * mm}, 50.0);
  CHECK(value(tube, "tube core, spheroid factor") ==
        Approx(value(rod, "rod, spheroid factor")).epsilon(1e-12));
  CHECK(value(tube, "tube core, short coil") ==
        Approx(value(rod, "rod, short coil")).epsilon(1e-12));
}

TEST_CASE("the sleeve's estimates bound a gain that grows with its wall", "[formulas]")
{
  double last = 0.0;
  for (const double wall : {0.1, 0.5, 1.0})
  {
    solver::Problem problem = block_coil(12 * mm, 14 * mm, 50 * mm, 100);
    add_part(problem, "sleeve", mesh::Tube{14 * mm, (14 + 2 * wall) * mm, 60 * mm}, 2000.0);
    const double floor = value(problem, "sleeve, magnetised evenly");
    const double ceiling = value(problem, "sleeve, free way back");
    const double air = value(problem, "air coil, sheet less thickness");
    CAPTURE(wall, air, floor, ceiling);
    CHECK(air < floor);
    CHECK(floor < ceiling);
    CHECK(floor - air > last);
    last = floor - air;
    CHECK(named(post::formulas(problem), "sleeve, magnetised evenly").holds);
  }
  solver::Problem thick = block_coil(12 * mm, 14 * mm, 50 * mm, 100);
  add_part(thick, "sleeve", mesh::Tube{14 * mm, 22 * mm, 60 * mm}, 2000.0);
  CHECK_FALSE(named(post::formulas(thick), "sleeve, magnetised evenly").holds);
}

TEST_CASE("a sleeve's even magnetisation is set by the coil's ends and its own factor",
          "[formulas]")
{
  // Written out apart for a sleeve as long as the coil: 50 mm, coil of 13 mm, sleeve 14/16 mm.
  solver::Problem problem = block_coil(12 * mm, 14 * mm, 50 * mm, 1);
  add_part(problem, "sleeve", mesh::Tube{14 * mm, 16 * mm, 50 * mm}, 1e9);
  const double area = std::numbers::pi * 6.5 * mm * 6.5 * mm;
  const double ends = 1 / (7.5 * mm) - 1 / (std::sqrt(7.5 * 7.5 + 50.0 * 50.0) * mm);
  const double h = area * ends / (2 * std::numbers::pi * 50 * mm * 50 * mm);
  const double wall = std::numbers::pi * (64 - 49) * mm * mm;
  const double factor = reference::spheroid_factor(50.0 / 16) * (64.0 - 49) / 64;
  CHECK(value(problem, "sleeve, magnetised evenly") -
            value(problem, "air coil, sheet less thickness") ==
        Approx(reference::mu0 * wall * 50 * mm * h * h / factor).epsilon(1e-7)); // 1/chi = 1e-9
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

TEST_CASE("coated turns add their coating's flux to the bare coil", "[formulas]")
{
  mesh::RoundTurns turns{
      .wire_diameter = 1 * mm, .inner_diameter = 100 * mm, .insulation = 0.1 * mm};
  turns.coating = mesh::Coating{"dust", 0.9 * mm};
  solver::Problem ring = round_coil(turns, 1);
  ring.materials["dust"] = {.permeability = 10.0};
  const double a = 50 * mm + 0.5 * mm + 0.1 * mm + 0.9 * mm; // middle of the wire
  const auto coated = named(post::formulas(ring), "coated ring");
  CHECK(coated.holds);
  CHECK(coated.value ==
        Approx(post::ring_uniform(a, 0.5 * mm) +
               2 * std::numbers::pi * a * post::coating_inductance(10, 0.6 * mm, 1.5 * mm))
            .epsilon(1e-12));
  turns.coating->thickness = 30 * mm; // as wide as the loop
  ring.scene.windings[0].build = turns;
  CHECK_FALSE(named(post::formulas(ring), "coated ring").holds);
}

TEST_CASE("close coated turns are told apart from distant ones", "[formulas]")
{
  mesh::RoundTurns turns{.wire_diameter = 1 * mm, .inner_diameter = 100 * mm};
  turns.coating = mesh::Coating{"dust", 0.5 * mm};
  for (const bool apart : {false, true})
  {
    turns.pitch = apart ? 8 * mm : 2 * mm;
    solver::Problem coil = round_coil(turns, 5);
    coil.materials["dust"] = {.permeability = 10.0};
    CHECK(named(post::formulas(coil), "coated turns").holds == apart);
  }
}

TEST_CASE("deviation is nothing inside the bracket, else from its nearer end", "[formulas]")
{
  solver::Problem problem = block_coil(11 * mm, 11 * mm, 95 * mm, 100);
  add_part(problem, "core", mesh::Rod{10 * mm, 100 * mm}, 700.0);
  const double rod = value(problem, "rod, spheroid factor");
  const double air = value(problem, "air coil, sheet, exact");
  post::Result result;
  result.windings.resize(1);
  result.windings[0].inductance = {rod / 2, rod / 2.1, rod / 1.9};
  result.windings[0].air_inductance = {air, air * 0.999, air * 1.001};
  const auto judged = post::judged(post::formulas(problem), result);
  CHECK(*named(judged, "rod, spheroid factor").deviation == Approx(0.9)); // 1.9 - 1
  CHECK(*named(judged, "air coil, sheet, exact").deviation == 0.0);
  result.windings[0].inductance = {rod * 2, rod * 1.6, rod * 2.4};
  CHECK(*named(post::judged(judged, result), "rod, spheroid factor").deviation ==
        Approx(1 / 1.6 - 1));
}

TEST_CASE("each formula is judged against what it estimates", "[formulas]")
{
  solver::Problem pair = block_coil(99 * mm, 101 * mm, 1 * mm, 7);
  pair.scene.windings.push_back({"other", 3, mesh::Block{79 * mm, 81 * mm, 1 * mm}, 30 * mm});
  const double M = value(pair, "mutual with other, circles");
  post::Result result;
  result.windings.resize(2);
  result.windings[1].name = "other";
  result.mutual = {{{9, 9, 9}, {M, M / 2, M / 1.25}}, {{}, {}}};
  CHECK(
      *named(post::judged(post::formulas(pair), result), "mutual with other, circles").deviation ==
      Approx(0.25));

  solver::Problem receiver;
  receiver.background = 1e-3;
  add_part(receiver, "core", mesh::Rod{10 * mm, 100 * mm}, 700.0);
  post::Result field;
  field.regions.resize(1);
  field.regions[0].name = "core";
  field.regions[0].demagnetisation =
      post::Demagnetisation{50.0, 0.015, post::Bounded{0.0203, 0.0202, 0.0204}};
  const auto list = post::judged(post::formulas(receiver), field);
  CHECK(*named(list, "rod, spheroid factor").deviation == 0.0);
  CHECK(*named(list, "rod, fitted factor").deviation ==
        Approx(post::burhans_factor(10) / 0.015 - 1));
  CHECK(*named(list, "rod middle, fitted factor").deviation ==
        Approx(post::apparent_permeability(700, post::burhans_factor(10)) / 50 - 1));
  // A field without a magnetometric factor leaves the comparison empty.
  field.regions[0].demagnetisation->magnetometric.reset();
  CHECK_FALSE(
      named(post::judged(post::formulas(receiver), field), "rod, spheroid factor").deviation);
}

TEST_CASE("names fit their column, and each formula has a range and a source", "[formulas]")
{
  solver::Problem everything = block_coil(12 * mm, 14 * mm, 50 * mm, 100);
  everything.background = 1e-3;
  everything.scene.windings.push_back({"pickup", 3, mesh::Block{30 * mm, 31 * mm, 1 * mm}, 0.0});
  add_part(everything, "core", mesh::Rod{10 * mm, 60 * mm}, 700.0);
  add_part(everything, "sleeve", mesh::Tube{20 * mm, 22 * mm, 60 * mm}, 700.0);
  std::set<std::string> names;
  for (const post::FormulaResult& one : post::formulas(everything))
  {
    CAPTURE(one.name);
    CHECK(one.name.size() <= 34);
    CHECK(one.why.size() > 0);
    CHECK(one.source.size() > 0);
    CHECK(std::isfinite(one.value));
    names.insert(one.name + one.subject + one.unit);
  }
  CHECK(names.size() == post::formulas(everything).size());
  CHECK(names.size() >= 15);
}
