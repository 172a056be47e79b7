// Fields at points: in triangles, across the box, far away, and on the axis against closed forms.
#include "core_scenes.hpp"

#include "reference/loops.hpp"
#include "solver/field.hpp"
#include "solver/solution.hpp"
#include "solver/solve.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace solver;
using scenes::mm;
using scenes::pi;

namespace
{

Solution solved(const mesh::Scene& scene, double accuracy, std::optional<double> background = {})
{
  Problem problem;
  problem.scene = scene;
  problem.materials = {{"core", {.permeability = 80.0}}, {"dust", {.permeability = 6.0}}};
  problem.background = background;
  problem.accuracy = accuracy;
  return solve(problem);
}

DrivenField driven(const Solution& s)
{
  return driven_field(s, drive(s));
}

/// On-axis B_z of a current sheet of radius a, |z| <= l/2: mu0 N/(2 l) (cos - cos) of the angles to
/// its ends [Smythe 1950, 7.15, from memory; Jackson 1999, problem 5.3].
double sheet_axis(double a, double l, double turns, double z)
{
  const auto cosine = [&](double x) { return x / std::hypot(x, a); };
  return mu0 * turns / (2.0 * l) * (cosine(z + l / 2) - cosine(z - l / 2));
}

/// On-axis B_z of a block: mu0 J/2 times x ln((r2 + hypot(r2, x)) / (r1 + hypot(r1, x))) between
/// its ends: sheet_axis() integrated over the radius.
double block_axis(double r1, double r2, double l, double turns, double z)
{
  const auto end = [&](double x)
  { return x * std::log((r2 + std::hypot(r2, x)) / (r1 + std::hypot(r1, x))); };
  return mu0 * turns / (2.0 * l * (r2 - r1)) * (end(z + l / 2) - end(z - l / 2));
}

} // namespace

TEST_CASE("the field at a point is that of the triangle it lies in", "[field]")
{
  for (const int scene : {0, 3, 6, 8})
  {
    CAPTURE(scenes::all()[scene].name);
    const Solution s = solved(scenes::all()[scene].scene, 1e-2);
    const DrivenField flux = driven(s);
    const mesh::Mesh& mesh = s.space.mesh;
    const double typical = std::abs(field_at(s, flux, {0.0, mesh.box.middle}).B_z);
    for (int k = 0; k < static_cast<int>(mesh.triangles.size()); k += 7)
    {
      const std::array<double, 3> lambda{0.2, 0.5, 0.3};
      const Eigen::Vector2d x = mesh::element_map(mesh, s.space.bends, k).at(lambda).point;
      const FieldPoint in = field_in(s, flux, k, lambda),
                       at = field_at(s, flux, {std::sqrt(x[0]), x[1]});
      CAPTURE(k, x[0], x[1]);
      CHECK(at.region == mesh.triangles[k].region);
      CHECK(at.B_z == Approx(in.B_z).epsilon(1e-8).margin(1e-8 * typical));
      CHECK(at.B_r == Approx(in.B_r).epsilon(1e-8).margin(1e-8 * typical));
      CHECK(at.flux == Approx(in.flux).epsilon(1e-9));
      CHECK(at.H_z == Approx(at.B_z / (mu0 * s.permeability[at.region])));
      CHECK(at.H_r == Approx(at.B_r / (mu0 * s.permeability[at.region])));
    }
  }
}

TEST_CASE("the field comes to the slope of the flux, inside the box and beyond it", "[field]")
{
  // B_z = dPhi/dr / (2 pi r), B_r = -dPhi/dz / (2 pi r), by differences within one element. The
  // field is the mean of both solutions', so it differs by half of what they do: energy a thousand
  // times closer makes the field thirty times closer; half of that is asked.
  double before = 0.0;
  for (const double accuracy : {1e-3, 1e-6})
  {
    const Solution s = solved(scenes::all()[0].scene, accuracy);
    const DrivenField driven_by = driven(s);
    const double R = s.space.mesh.box.radius, h = 1e-6 * R;
    const auto flux = [&](double r, double z) { return field_at(s, driven_by, {r, z}).flux; };
    double worst = 0.0;
    for (const mesh::Point p : {mesh::Point{0.11 * R, 0.03 * R},
                                {0.7 * R, -0.4 * R},
                                {1.3 * R, 0.2 * R},
                                {0.3 * R, -1.7 * R},
                                {5 * R, 7.1 * R}})
    {
      const FieldPoint f = field_at(s, driven_by, p);
      const double B_z = (flux(p.r + h, p.z) - flux(p.r - h, p.z)) / (4 * pi * h * p.r);
      const double B_r = (flux(p.r, p.z - h) - flux(p.r, p.z + h)) / (4 * pi * h * p.r);
      worst = std::max(worst, std::hypot(f.B_r - B_r, f.B_z - B_z) / std::hypot(f.B_r, f.B_z));
    }
    CAPTURE(accuracy, worst, before);
    if (before > 0.0)
      CHECK(worst < before / 15.0);
    before = worst;
  }
  CHECK(before < 1e-3);
}

TEST_CASE("the flux is continuous across the box, the field to the solution's accuracy", "[field]")
{
  // A gap of 2 x accuracy in energy is the root of it in the field, in the mean over all space and
  // against the field in the coil. Refinement minds that mean: the few per cent of it left at the
  // box are known less well by their own measure.
  for (const double accuracy : {1e-3, 1e-6})
  {
    const Solution s = solved(scenes::all()[0].scene, accuracy);
    const DrivenField flux = driven(s);
    const double middle = std::abs(field_at(s, flux, {0.0, 0.0}).B_z);
    const mesh::Box& box = s.space.mesh.box;
    double jump = 0.0;
    for (int i = 1; i < 20; ++i)
    {
      const double x = i / 20.0, in = 1 - 1e-9, out = 1 + 1e-9;
      const std::pair<mesh::Point, mesh::Point> pairs[] = {
          {{box.radius * in, box.middle + box.half_height * (2 * x - 1)},
           {box.radius * out, box.middle + box.half_height * (2 * x - 1)}},
          {{box.radius * x, box.middle + box.half_height * in},
           {box.radius * x, box.middle + box.half_height * out}}};
      for (const auto& [inside, outside] : pairs)
      {
        const FieldPoint a = field_at(s, flux, inside), b = field_at(s, flux, outside);
        CHECK(a.flux == Approx(b.flux).epsilon(1e-7)); // 2e-9 apart, flux falls by some 1e-8
        jump = std::max(jump, std::hypot(a.B_r - b.B_r, a.B_z - b.B_z));
      }
    }
    CAPTURE(accuracy, jump, middle);
    CHECK(jump < std::sqrt(2.0 * accuracy) * middle);
  }
}

TEST_CASE("on the axis a sheet and a block have their closed field, near and far", "[field]")
{
  const Solution sheet = solved({{}, {scenes::block(10, 10, 8, 20)}}, 1e-6),
                 block = solved({{}, {scenes::block(10, 16, 8, 20)}}, 1e-6);
  const DrivenField of_sheet = driven(sheet), of_block = driven(block);
  const double middle = sheet_axis(5 * mm, 8 * mm, 20, 0.0);
  for (const double z : {0.0, 2.0, 3.9, 6.0, 11.0, 20.0, 60.0, 500.0})
  {
    CAPTURE(z);
    const FieldPoint a = field_at(sheet, of_sheet, {0.0, z * mm}),
                     b = field_at(block, of_block, {0.0, -z * mm});
    const double exact = sheet_axis(5 * mm, 8 * mm, 20, z * mm);
    // The energy is good to 1e-6, so the field to 1e-3 in the mean; far off relative to itself.
    CHECK(std::abs(a.B_z - exact) < 1e-3 * (z < 10.0 ? middle : exact));
    const double thick = block_axis(5 * mm, 8 * mm, 8 * mm, 20, z * mm);
    CHECK(std::abs(b.B_z - thick) < 1e-3 * (z < 10.0 ? middle : thick));
    CHECK(a.B_r == 0.0);
    CHECK(a.H_r == 0.0);
    CHECK(a.flux == 0.0);
  }
}

TEST_CASE("off the axis the flux of a sheet is that of its circles", "[field]")
{
  // Flux through a circle: mutual inductance with the sheet [Maxwell 1873, 701], by quadrature.
  const Solution s = solved({{}, {scenes::block(10, 10, 8, 20)}}, 1e-6);
  const DrivenField flux = driven(s);
  for (const mesh::Point p : {mesh::Point{2 * mm, 1 * mm},
                              {4 * mm, 9 * mm},
                              {9 * mm, 2 * mm},
                              {3 * mm, -30 * mm},
                              {80 * mm, 60 * mm}})
  {
    CAPTURE(p.r, p.z);
    double exact = 0.0;
    for (int i = 0; i < 200; ++i) // smooth there: the midpoint rule is good to 1e-5
      exact += reference::coaxial_circles(p.r, 5 * mm, p.z - 8 * mm * ((i + 0.5) / 200 - 0.5)) / 10;
    CHECK(field_at(s, flux, p).flux == Approx(exact).epsilon(5e-4));
  }
}

TEST_CASE("far away the field is that of a dipole", "[field]")
{
  // Moment N pi a^2 of a sheet; the next multipole is (a/rho)^2 of it, 1e-4 at rho = 100 a.
  const Solution s = solved({{}, {scenes::block(10, 10, 8, 20)}}, 1e-6);
  const DrivenField flux = driven(s);
  const double moment = 20 * pi * 25e-6, rho = 0.5;
  for (const double degrees : {5.0, 30.0, 60.0, 88.0, 130.0, 175.0})
  {
    const double th = degrees * pi / 180, c = std::cos(th), sine = std::sin(th);
    const FieldPoint f = field_at(s, flux, {rho * sine, rho * c});
    const double unit = mu0 * moment / (4 * pi * rho * rho * rho);
    CAPTURE(degrees);
    CHECK(f.B_z == Approx(unit * (3 * c * c - 1)).margin(1e-3 * unit));
    CHECK(f.B_r == Approx(unit * 3 * c * sine).margin(1e-3 * unit));
    CHECK(f.flux == Approx(mu0 * moment * sine * sine / (2 * rho)).epsilon(1e-3));
    CHECK(f.region == 0);
  }
}

TEST_CASE("a body of air in a background field leaves it as it was, everywhere", "[field]")
{
  Problem problem;
  problem.scene.parts = {scenes::rod(6, 20)};
  problem.materials = {{"core", {.permeability = 1.0}}};
  problem.background = 2e-3;
  const Solution s = solve(problem);
  CHECK(s.accuracy_reached);
  const DrivenField flux = driven(s);
  for (const mesh::Point p : {mesh::Point{1 * mm, 3 * mm}, {9 * mm, 3 * mm}, {1.0, -2.0}})
  {
    const FieldPoint f = field_at(s, flux, p);
    CHECK(f.B_z == Approx(2e-3).epsilon(1e-14));
    CHECK(f.B_r == 0.0);
    CHECK(f.flux == Approx(2e-3 * pi * p.r * p.r).epsilon(1e-14));
  }
}

TEST_CASE("currents drive the field in proportion, and add up", "[field]")
{
  Problem problem;
  problem.scene = scenes::all()[1].scene;
  problem.scene.windings[1].name = "other";
  problem.currents = {2.0, -3.0};
  const Solution s = solve(problem);
  Eigen::VectorXd one = Eigen::VectorXd::Zero(2), two = one;
  one[0] = two[1] = 1.0;
  const mesh::Point p{3 * mm, 2 * mm};
  const FieldPoint both = field_at(s, driven(s), p), a = field_at(s, driven_field(s, one), p),
                   b = field_at(s, driven_field(s, two), p);
  CHECK(both.B_z == Approx(2.0 * a.B_z - 3.0 * b.B_z).epsilon(1e-12));
  CHECK(both.flux == Approx(2.0 * a.flux - 3.0 * b.flux).epsilon(1e-12));
}
