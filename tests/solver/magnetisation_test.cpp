// Curves of saturating materials against their own derivatives, integrals and inverses.
#include "solver/magnetisation.hpp"
#include "solver/problem.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace solver;

namespace
{

/// Rows of a soft ferrite, invented.
const CurveRows rows = {{0.0, 0.0},     {20.0, 0.05},  {50.0, 0.15},  {100.0, 0.24},
                        {200.0, 0.315}, {500.0, 0.37}, {1200.0, 0.4}, {3000.0, 0.42}};

std::vector<Magnetisation> curves()
{
  return {Magnetisation(FroehlichKennelly{0.45, 2000.0}),
          Magnetisation(HyperbolicTangent{0.4, 700.0}), Magnetisation(ArcTangent{0.5, 90.0}),
          Magnetisation(Brauer{100.0, 6.0, 120.0}), Magnetisation(rows)};
}

/// Fields from far below to far above the knee [A/m].
const std::vector<double> fields = {0.0,   1e-6, 1e-2,  1.0, 17.0, 47.0, 133.0,
                                    410.0, 1e3,  2.9e3, 2e4, 1e5,  1e7};

} // namespace

TEST_CASE("a curve read by field and by flux density is one curve", "[magnetisation]")
{
  for (const Magnetisation& curve : curves())
    for (const double H : fields)
    {
      CAPTURE(curve.law().index(), H);
      const MagneticState at = curve.at_field(H), back = curve.at_flux(at.B);
      CHECK(back.H == Approx(H).epsilon(1e-10).margin(1e-300)); // flat curves lose digits of H
      CHECK(back.B == at.B);
      CHECK(back.slope == Approx(at.slope).epsilon(1e-8));
      CHECK(back.coenergy == Approx(at.coenergy).epsilon(1e-9).margin(1e-300));
    }
}

TEST_CASE("the slope of a curve is its derivative and nowhere below that of air", "[magnetisation]")
{
  for (const Magnetisation& curve : curves())
    for (const double H : fields)
    {
      CAPTURE(curve.law().index(), H);
      const MagneticState at = curve.at_field(H);
      CHECK(at.slope >= mu0 * (1.0 - 1e-12));
      const double h = 1e-4 * H;
      if (h < 1e-3)
        continue;
      // Second differences: the error falls with h^2, here 1e-8 of the bend.
      const double slope = (curve.at_field(H + h).B - curve.at_field(H - h).B) / (2.0 * h);
      CHECK(slope == Approx(at.slope).epsilon(1e-5));
    }
}

TEST_CASE("coenergy is the area under the curve, and both energies make up B times H",
          "[magnetisation]")
{
  for (const Magnetisation& curve : curves())
    for (const double H : {1.0, 17.0, 133.0, 3e3, 2e4})
    {
      CAPTURE(curve.law().index(), H);
      double area = 0.0;
      constexpr int panels = 4000; // the table's kinks of the second derivative cost 1e-8
      for (int i = 0; i < panels; ++i)
      {
        const double a = H * i / panels, b = H * (i + 1) / panels, m = 0.5 * (a + b);
        area +=
            (b - a) / 6.0 * (curve.at_field(a).B + 4.0 * curve.at_field(m).B + curve.at_field(b).B);
      }
      const MagneticState at = curve.at_field(H);
      CHECK(at.coenergy == Approx(area).epsilon(1e-7));
      CHECK(at.energy() + at.coenergy == Approx(at.B * H).epsilon(1e-14));
    }
}

TEST_CASE("formulas start at their permeability and end at their saturation", "[magnetisation]")
{
  const std::vector<Magnetisation> all = curves();
  CHECK(all[0].initial_permeability() == Approx(2000.0).epsilon(1e-12));
  CHECK(all[1].initial_permeability() == Approx(700.0).epsilon(1e-12));
  CHECK(all[2].initial_permeability() == Approx(90.0).epsilon(1e-12));
  CHECK(all[3].initial_permeability() == Approx(1.0 / (mu0 * 220.0)).epsilon(1e-12));
  for (int k : {0, 1, 2})
  {
    const MagneticState far = all[k].at_field(1e9);
    CHECK(far.B - mu0 * far.H == Approx(all[k].saturation()).epsilon(1e-3));
  }
}

TEST_CASE("a table passes through its rows, level at the last, and goes on as air",
          "[magnetisation]")
{
  const Magnetisation curve(rows);
  for (const CurveRow& row : rows)
    CHECK(curve.at_field(row.H).B == Approx(row.B).epsilon(1e-14).margin(1e-300));
  CHECK(curve.at_field(3000.0).slope == Approx(mu0).epsilon(1e-12));
  CHECK(curve.at_field(5000.0).B == Approx(0.42 + mu0 * 2000.0).epsilon(1e-14));
  CHECK(curve.at_flux(0.42 + mu0 * 2000.0).H == Approx(5000.0).epsilon(1e-10));
}

TEST_CASE("rows that make no curve are refused by number", "[magnetisation]")
{
  const auto fault = [](CurveRows list)
  {
    try
    {
      const Magnetisation curve(std::move(list));
    }
    catch (const LawFault& refused)
    {
      return refused.row;
    }
    return -9;
  };
  CHECK(fault({{0, 0}, {10, 0.1}}) == -1);
  CHECK(fault({{1, 0}, {10, 0.1}, {20, 0.2}}) == 0);
  CHECK(fault({{0, 0}, {10, 0.1}, {10, 0.2}}) == 2);
  CHECK(fault({{0, 0}, {10, 0.1}, {1000, 0.1}, {2000, 0.2}}) == 2);
  CHECK(fault({{0, 0}, {10, 10 * mu0}, {1000, 0.1}}) == 1);
  CHECK(fault(rows) == -9);
  CHECK_THROWS_AS(Magnetisation(FroehlichKennelly{0.0, 100.0}), LawFault);
  CHECK_THROWS_AS(Magnetisation(HyperbolicTangent{0.4, 1.0}), LawFault);
  CHECK_THROWS_AS(Magnetisation(Brauer{1e6, 1.0, 1.0}), LawFault);
}
