// Rods, tube cores and balls: closed forms and claims against integral equations.
#include "post/closed_forms.hpp"

#include "post/formula_scenes.hpp"
#include "reference/loops.hpp"
#include "reference/magnetic_bodies.hpp"
#include "reference/tables.hpp"

#include <cmath>
#include <utility>

using namespace formula_tests;

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

TEST_CASE("fits to charts give their chart's values", "[formulas]")
{
  CHECK(post::rhea_factor(10, 1000) == Approx(0.028 - 0.0158 - 0.0000915 + 0.0021)); // by hand
  CHECK(post::rhea_factor(2, 100) == Approx(0.14 - 0.0158 - 0.000915 + 0.00063));
  for (const auto& [aspect, factor] :
       {std::pair{10.0, 0.0172}, {20.0, 0.00617}, {50.0, 0.00129}, {100.0, 0.00036}})
  {
    CHECK(post::bozorth_factor(aspect) == Approx(factor).epsilon(1e-12));
  }
  CHECK(post::bozorth_factor(std::sqrt(200.0)) == Approx(std::sqrt(0.0172 * 0.00617)));
}

TEST_CASE("the table of cylinders keeps its nodes and is smooth between them", "[formulas]")
{
  for (const reference::CylinderFactor& row : reference::cylinder_factors())
  {
    CAPTURE(row.aspect, row.susceptibility);
    const auto found = post::cylinder_factors(row.aspect, 1 + row.susceptibility);
    // The two codes agree within 1e-5.
    CHECK(found.ballistic == Approx(row.ballistic).epsilon(1e-5));
    CHECK(found.magnetometric == Approx(row.magnetometric).epsilon(1e-5));
  }
  // Between nodes, at chi = 0, the volume's factor is Lorenz's 1 - K.
  for (const double aspect : {0.12, 0.4, 1.2, 4.0, 12.0, 40.0, 85.0})
  {
    CAPTURE(aspect);
    CHECK(post::cylinder_factors(aspect, 1).magnetometric ==
          Approx(1 - post::sheet_coefficient(1 / aspect)).epsilon(0.002));
  }
  CHECK(post::cylinder_factors(200, 50).ballistic == post::cylinder_factors(100, 50).ballistic);
}

TEST_CASE("a ball in a shell and a tube across the field shield as computed apart", "[formulas]")
{
  const double spheres[][3] = {{0.9, 10, 1.4878},
                               {0.9, 100, 6.90238},
                               {0.9, 1000, 61.101838},
                               {0.99, 1000, 7.587028378},
                               {0.99, 10000, 66.98902244}};
  for (const auto& [ratio, mu, shielding] : spheres)
  {
    CAPTURE(ratio, mu);
    CHECK(1 / post::ball_in_shell(1, mu, ratio) == Approx(shielding).epsilon(1e-9));
  }
  CHECK(post::ball_in_shell(1000, 1, 0.5) == Approx(2.994011976).epsilon(1e-9)); // shell of air
  CHECK(post::ball_in_shell(50, 50, 0.5) == Approx(150.0 / 52));                 // one ball
  CHECK(post::cross_tube_shielding(100, 0.9) ==
        Approx((101 * 101 - 0.81 * 99 * 99) / 400)); // by hand: 5.6557
  CHECK(post::cross_tube_shielding(1, 0.3) == 1.0);

  solver::Problem problem;
  problem.background = 1e-3;
  add_part(problem, "ball", mesh::Ring{0.0, 9 * mm}, 1.0);
  problem.materials["shell"] = {.permeability = 100};
  problem.scene.parts[0].coating = mesh::Coating{"shell", 0.5 * mm};
  const auto list = post::formulas(problem);
  CHECK(list.size() == 1);
  CHECK(named(list, "ball in a shell, middle").value == Approx(1 / 6.90238).epsilon(1e-9));
}
