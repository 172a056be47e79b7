// Mixing rules against a table of the closed forms worked out apart, and against what must hold.
//
// The table's numbers were computed to 20 digits from the published equations (Hashin & Shtrikman
// 1962, Maxwell Garnett 1904, Bruggeman 1935, Lichtenecker 1926) by a general-purpose
// multiprecision library, then rounded to the digits given here.
#include "solver/powder.hpp"
#include "solver/problem.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

namespace
{

using solver::MixingRule;
using solver::Powder;

double effective(double particle, double packing, MixingRule rule)
{
  return solver::effective_permeability({particle, packing, rule});
}

/// @brief Value rounded to `digits` significant ones.
double rounded(double value, int digits)
{
  const double unit = std::pow(10.0, std::floor(std::log10(std::abs(value))) + 1 - digits);
  return std::round(value / unit) * unit;
}

struct Row
{
  double packing;
  double wiener_lower_2300;
  double maxwell_garnett[3]; // particles of 2300, 1000, 100
  double differential[3];
  double lichtenecker[3];
  double symmetric[3];
  double hashin_shtrikman_upper[3];
};
// As printed: 4, 5, 3..4, 3..4, 3..4 and 3..4 digits; the digits of each entry are read off it.
const Row table[] = {
    {0.30,
     1.428,
     {2.2833, 2.2802, 2.2324},
     {2.908, 2.899, 2.762},
     {10.20, 7.94, 3.98},
     {9.29, 8.61, 5.19},
     {512, 223, 23.1}},
    {0.50,
     1.999,
     {3.9922, 3.9821, 3.8286},
     {7.928, 7.837, 6.697},
     {47.96, 31.62, 10.0},
     {577, 252, 27.1},
     {921, 401, 40.7}},
    {0.55,
     2.221,
     {4.6561, 4.6424, 4.4353},
     {10.83, 10.66, 8.628},
     {70.6, 44.7, 12.6},
     {749, 327, 34.1},
     {1033, 450, 45.6}},
    {0.60,
     2.498,
     {5.4854, 5.4665, 5.1831},
     {15.33, 14.98, 11.26},
     {104, 63.1, 15.8},
     {921, 401, 41.3},
     {1151, 501, 50.6}},
    {0.64,
     2.776,
     {6.3141, 6.2892, 5.9193},
     {20.88, 20.22, 14.03},
     {142, 83.2, 19.1},
     {1059, 461, 47.1},
     {1248, 543, 54.8}},
    {0.74,
     3.841,
     {9.4958, 9.4410, 8.6472},
     {53.1, 49.1, 24.9},
     {307, 166, 30.2},
     {1404, 611, 61.7},
     {1507, 655, 65.9}},
};
const double particles[3] = {2300.0, 1000.0, 100.0};

/// @brief Smallest number of significant digits, 3 to 5, that writes the printed entry.
int printed_digits(double entry)
{
  int digits = 3;
  while (digits < 5 && std::abs(rounded(entry, digits) - entry) > 1e-9 * entry)
  {
    ++digits;
  }
  return digits;
}

void check_printed(double value, double entry)
{
  CAPTURE(value, entry);
  CHECK(rounded(value, printed_digits(entry)) == Approx(entry).epsilon(1e-9));
}

const double packings[] = {0.0, 1e-12, 0.1, 1.0 / 3.0, 0.6366, 0.9, 1.0 - 1e-12, 1.0};
const double permeabilities[] = {1e-9, 0.01, 0.5, 1.0 - 1e-12, 1.0, 1.0 + 1e-12, 2.0, 700.0, 1e9};

} // namespace

TEST_CASE("mixing rules and bounds give every digit of the printed table", "[powder]")
{
  for (const Row& row : table)
  {
    CAPTURE(row.packing);
    check_printed(solver::powder_bounds({2300.0, row.packing}).wiener_lower, row.wiener_lower_2300);
    for (int i = 0; i < 3; ++i)
    {
      const double mu = particles[i];
      CAPTURE(mu);
      check_printed(effective(mu, row.packing, MixingRule::maxwell_garnett),
                    row.maxwell_garnett[i]);
      check_printed(effective(mu, row.packing, MixingRule::bruggeman_differential),
                    row.differential[i]);
      check_printed(effective(mu, row.packing, MixingRule::lichtenecker), row.lichtenecker[i]);
      check_printed(effective(mu, row.packing, MixingRule::bruggeman), row.symmetric[i]);
      check_printed(solver::powder_bounds({mu, row.packing}).hashin_shtrikman_upper,
                    row.hashin_shtrikman_upper[i]);
    }
  }
}

TEST_CASE("mixing rules satisfy the equation each is defined by", "[powder]")
{
  for (const double mu : {0.3, 10.0, 700.0})
  {
    for (const double f : {0.2, 0.6})
    {
      CAPTURE(mu, f);
      // Round-off only: the equations are of order one.
      const double g = effective(mu, f, MixingRule::maxwell_garnett);
      CHECK((g - 1) / (g + 2) == Approx(f * (mu - 1) / (mu + 2)).epsilon(1e-12));
      const double b = effective(mu, f, MixingRule::bruggeman);
      CHECK(f * (mu - b) / (mu + 2 * b) + (1 - f) * (1 - b) / (1 + 2 * b) ==
            Approx(0.0).margin(1e-12));
      const double d = effective(mu, f, MixingRule::bruggeman_differential);
      CHECK((mu - d) / (mu - 1) / std::cbrt(d) == Approx(1 - f).epsilon(1e-12));
      const double l = effective(mu, f, MixingRule::looyenga);
      CHECK(std::cbrt(l) == Approx(f * std::cbrt(mu) + 1 - f).epsilon(1e-12));
    }
  }
}

TEST_CASE("an empty powder is air and a full one is its particle", "[powder]")
{
  for (const double mu : permeabilities)
  {
    for (const solver::RuleInfo& info : solver::mixing_rules())
    {
      CAPTURE(mu, info.name);
      CHECK(effective(mu, 0.0, info.rule) == Approx(1.0).epsilon(1e-13));
      CHECK(effective(mu, 1.0, info.rule) == Approx(mu).epsilon(1e-13));
    }
    for (const double f : {0.0, 1.0})
    {
      const solver::PowderBounds bounds = solver::powder_bounds({mu, f});
      const double only = f == 0.0 ? 1.0 : mu;
      CHECK(bounds.wiener_lower == Approx(only).epsilon(1e-13));
      CHECK(bounds.wiener_upper == Approx(only).epsilon(1e-13));
      CHECK(bounds.hashin_shtrikman_lower == Approx(only).epsilon(1e-13));
      CHECK(bounds.hashin_shtrikman_upper == Approx(only).epsilon(1e-13));
    }
  }
}

TEST_CASE("a powder of air is air whatever its packing", "[powder]")
{
  for (const double f : packings)
  {
    for (const solver::RuleInfo& info : solver::mixing_rules())
    {
      CHECK(effective(1.0, f, info.rule) == Approx(1.0).epsilon(1e-14));
    }
  }
}

TEST_CASE("bounds nest, and each rule keeps inside those it is said to keep", "[powder]")
{
  const double slack = 1e-12; // round-off: at the ends all of them meet
  for (const double mu : permeabilities)
  {
    for (const double f : packings)
    {
      CAPTURE(mu, f);
      const solver::PowderBounds bounds = solver::powder_bounds({mu, f});
      CHECK(bounds.wiener_lower <= bounds.hashin_shtrikman_lower * (1 + slack));
      CHECK(bounds.hashin_shtrikman_lower <= bounds.hashin_shtrikman_upper * (1 + slack));
      CHECK(bounds.hashin_shtrikman_upper <= bounds.wiener_upper * (1 + slack));
      for (const solver::RuleInfo& info : solver::mixing_rules())
      {
        const double value = effective(mu, f, info.rule);
        CAPTURE(info.name);
        if (info.keeps_isotropic_bounds)
        {
          CHECK(value >= bounds.hashin_shtrikman_lower * (1 - slack));
          CHECK(value <= bounds.hashin_shtrikman_upper * (1 + slack));
        }
        CHECK(value >= bounds.wiener_lower * (1 - slack));
        CHECK(value <= bounds.wiener_upper * (1 + slack));
      }
    }
  }
}

TEST_CASE("Lichtenecker's rule can leave the isotropic bounds at low contrast", "[powder]")
{
  const solver::PowderBounds bounds = solver::powder_bounds({2.0, 0.5});
  CHECK(effective(2.0, 0.5, MixingRule::lichtenecker) == Approx(std::sqrt(2.0)));
  CHECK(bounds.hashin_shtrikman_lower == Approx(10.0 / 7.0));
  CHECK(effective(2.0, 0.5, MixingRule::lichtenecker) < bounds.hashin_shtrikman_lower);
}

TEST_CASE("Looyenga's rule keeps the isotropic bounds wherever it was tried", "[powder]")
{
  for (double mu = 1e-4; mu < 1.1e6; mu *= std::pow(10.0, 0.125))
  {
    for (int i = 1; i < 200; ++i)
    {
      const double f = i / 200.0;
      CAPTURE(mu, f);
      const solver::PowderBounds bounds = solver::powder_bounds({mu, f});
      const double value = effective(mu, f, MixingRule::looyenga);
      const double slack = 1e-12 * value; // near mu = 1 all three meet
      REQUIRE(value >= bounds.hashin_shtrikman_lower - slack);
      REQUIRE(value <= bounds.hashin_shtrikman_upper + slack);
    }
  }
}

TEST_CASE("permeability grows with packing when particles exceed air, else falls", "[powder]")
{
  for (const solver::RuleInfo& info : solver::mixing_rules())
  {
    for (const double mu : {0.01, 700.0, 1e9})
    {
      double last = 1.0;
      for (int i = 1; i <= 50; ++i)
      {
        const double next = effective(mu, i / 50.0, info.rule);
        CAPTURE(info.name, mu, i);
        CHECK((mu > 1.0 ? next > last : next < last));
        last = next;
      }
    }
  }
}

TEST_CASE("endless particle permeability leaves the limits the geometry sets", "[powder]")
{
  // mu -> infinity: 1 + 3f/(1-f) and (1-f)^-3; the rest is O(1/mu) resp. O(mu^-1 m^(1/3)).
  CHECK(effective(1e9, 0.6, MixingRule::maxwell_garnett) == Approx(5.5).epsilon(1e-7));
  CHECK(effective(1e9, 0.6, MixingRule::bruggeman_differential) == Approx(15.625).epsilon(1e-6));
}

TEST_CASE("air and copper exist without an entry and a missing material is named", "[materials]")
{
  solver::Problem problem;
  CHECK(solver::material(problem, "air").permeability == 1.0);
  CHECK(solver::material(problem, "copper").permeability == 1.0);
  CHECK(solver::material(problem, "copper").conductivity == 58e6); // IEC 60028, from memory
  CHECK_THROWS_WITH(solver::material(problem, "dust"), Catch::Contains("\"dust\""));
  problem.materials["dust"] = {.permeability = 5.5};
  CHECK(solver::material(problem, "dust").permeability == 5.5);
}
