// Patch tests of both forms: fields the space holds are exact, on any mesh, bent or straight, and
// outward rays carry the outer field of dipoles.
#include "interpolant.hpp"

#include "mesh/refine.hpp"
#include "mesh/skeleton.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace solver;
using scenes::mm;
using scenes::pi;

namespace
{

struct Patch
{
  Space space;
  std::vector<double> ones;
  Eigen::SparseMatrix<double> K;
  Eigen::VectorXd c;
};

/// Inside the box alone: outer space gets the coefficient 0.
Patch patch(const mesh::Scene& scene, int order, Weight weight, const Function& f)
{
  Patch made{space(mesh::coarse_mesh(mesh::layout(scene)), order), {}, {}, {}};
  made.ones.assign(made.space.mesh.triangles.size(), 1.0);
  made.K = whole_matrix(made.space, weight, made.ones, 0.0);
  made.c = interpolant(made.space, f);
  return made;
}

/// Largest residual against functions that vanish on the box (and the axis for weight 1/r), over
/// the largest single contribution.
double interior_residual(const Patch& made, Weight weight)
{
  std::vector<bool> held(made.space.count, false);
  if (weight == Weight::over_r)
    held = made.space.on_axis;
  for (int x = 0; x < static_cast<int>(made.space.exteriors.size()); ++x)
    for (const int i : exterior_gather(made.space, x).index)
      held[i] = true;
  const Eigen::VectorXd residual = made.K * made.c;
  const double scale = (made.K.cwiseAbs() * made.c.cwiseAbs()).maxCoeff();
  double worst = 0.0;
  for (int i = 0; i < made.space.count; ++i)
    if (!held[i])
      worst = std::max(worst, std::abs(residual[i]));
  return worst / scale;
}

double energy(const Patch& made)
{
  return made.c.dot(made.K * made.c);
}

bool has_arcs(const mesh::Scene& scene)
{
  const mesh::Skeleton lines = mesh::skeleton(mesh::layout(scene), 20.0, {});
  return std::any_of(lines.curves.begin(), lines.curves.end(),
                     [](const mesh::Curve& c) { return c.kind == mesh::Curve::Kind::arc; });
}

/// A dipole's flux function s / rho^3 and potential z / rho^3.
double rho(double s, double z)
{
  return std::sqrt(s + z * z);
}
double dipole_flux(double s, double z)
{
  return s / std::pow(rho(s, z), 3);
}
double dipole_potential(double s, double z)
{
  return z / std::pow(rho(s, z), 3);
}

/// Energy beyond the box |z| <= h, r <= R: minus 2 pi of the flow of u w grad u through it.
double outer_energy(Weight weight, double R, double h)
{
  // a(u, u) over the outside = -2 pi int w u du/dn dl, n out of the box, w = 1/r or r.
  const bool flux = weight == Weight::over_r;
  const auto part = [&](double r, double z, double n_r, double n_z)
  {
    const double d = std::hypot(r, z), d3 = d * d * d, d5 = d3 * d * d;
    const double u = flux ? r * r / d3 : z / d3;
    const double u_r = flux ? 2 * r / d3 - 3 * r * r * r / d5 : -3 * r * z / d5;
    const double u_z = flux ? -3 * r * r * z / d5 : 1 / d3 - 3 * z * z / d5;
    return -2 * pi * (flux ? 1 / r : r) * u * (u_r * n_r + u_z * n_z);
  };
  const LineRule& rule = line_rule(60);
  double sum = 0.0;
  for (std::size_t i = 0; i < rule.points.size(); ++i)
  {
    const double x = rule.points[i], w = rule.weights[i];
    sum += w * 2 * h * part(R, h * (2 * x - 1), 1, 0);
    sum += 2 * w * R * part(R * x, h, 0, 1);
  }
  return sum;
}

/// Relative error of the outer energy of a dipole put on the ray elements at order p. At the box it
/// varies as t (flux) or t^2 (potential) along rays, both of which the ray functions hold.
double outer_error(Weight weight, int p)
{
  const Function f = weight == Weight::over_r ? dipole_flux : dipole_potential;
  mesh::Mesh mesh = mesh::coarse_mesh(mesh::layout(scenes::all()[0].scene));
  const std::vector<int> every(mesh.triangles.size(), 1);
  mesh = mesh::refined(mesh, {every, std::vector<int>(mesh.vertices.size(), 0)});
  for (const mesh::Edge& e : mesh.outer) // what the rate below stands on
    REQUIRE(std::abs(mesh.vertices[e.a].z - mesh.vertices[e.b].z) <= 1.001 * mesh.box.half_height);
  const Space s = space(std::move(mesh), p);
  const std::vector<double> zeros(s.mesh.triangles.size(), 0.0);
  const Eigen::SparseMatrix<double> K = whole_matrix(s, weight, zeros, 1.0);
  Eigen::VectorXd c = Eigen::VectorXd::Zero(s.count);
  const Eigen::VectorXd inside = interpolant(
      s, [&](double a, double z) { return a == 0.0 && std::abs(z) < 1e-9 ? 0.0 : f(a, z); });
  for (int x = 0; x < static_cast<int>(s.exteriors.size()); ++x)
  {
    const Gather g = exterior_gather(s, x);
    for (int j = 0; j <= p; ++j)
    {
      c[g.index[j]] = inside[g.index[j]];
      if (weight == Weight::times_r) // t^2 = t - t (1 - t)
        c[g.index[p + 1 + j]] = -inside[g.index[j]] / kernel(2, 0.0).value;
    }
  }
  const double exact = outer_energy(weight, s.mesh.box.radius, s.mesh.box.half_height);
  return std::abs(c.dot(K * c) / exact - 1.0);
}

} // namespace

TEST_CASE("a uniform axial field is exact on straight and sloping meshes of any order", "[patch]")
{
  // psi = s / 2 (B = 1 T) and phi = z solve both homogeneous equations.
  for (const scenes::Named& one : scenes::all())
    for (const int p : {2, 3, 5})
    {
      CAPTURE(one.name, p);
      if (has_arcs(one.scene))
        continue; // s and z are no polynomials of the element's own coordinates there
      const Patch flux =
                      patch(one.scene, p, Weight::over_r, [](double s, double) { return s / 2; }),
                  potential =
                      patch(one.scene, p, Weight::times_r, [](double, double z) { return z; });
      CHECK(interior_residual(flux, Weight::over_r) < 1e-13);
      CHECK(interior_residual(potential, Weight::times_r) < 1e-13);
    }
}

TEST_CASE("beside arcs the uniform field's residual falls a hundredfold every two orders",
          "[patch]")
{
  // E of an arc of 45 degrees is analytic; two more degrees win (pi/8)^2 / 4 and more.
  const mesh::Scene ring = scenes::all()[6].scene;
  double before = 0.0;
  for (const int p : {2, 4, 6, 8})
  {
    const double now = interior_residual(
        patch(ring, p, Weight::over_r, [](double s, double) { return s / 2; }), Weight::over_r);
    CAPTURE(p, before, now);
    if (before > 0.0)
      CHECK(now < before / 100.0);
    before = now;
  }
  CHECK(before < 1e-9);
}

TEST_CASE("energies of polynomial fields have their closed form", "[patch]")
{
  for (const scenes::Named& one : scenes::all())
  {
    CAPTURE(one.name);
    if (has_arcs(one.scene))
      continue;
    const Patch plain = patch(one.scene, 3, Weight::over_r, [](double s, double) { return s; });
    const mesh::Box& box = plain.space.mesh.box;
    const double S = box.radius * box.radius, h = box.half_height, m = box.middle;
    const double low = m - h, high = m + h;
    // 2 pi int 2 ds dz
    CHECK(energy(plain) == Approx(2 * pi * 2 * S * 2 * h).epsilon(1e-13));
    if (!plain.space.mesh.curved.empty())
      continue; // s z and s^2 have degree 4 on a slope
    // u = s z: 2 pi int (2 z^2 + s / 2)
    const double z2 = (std::pow(high, 3) - std::pow(low, 3)) / 3;
    CHECK(energy(patch(one.scene, 2, Weight::over_r, [](double s, double z) { return s * z; })) ==
          Approx(2 * pi * (2 * S * z2 + 0.25 * S * S * 2 * h)).epsilon(1e-12));
    // u = z: 2 pi int 1/2; u = s: 2 pi int 2 s; u = s z: 2 pi int (2 s z^2 + s^2 / 2)
    CHECK(energy(patch(one.scene, 1, Weight::times_r, [](double, double z) { return z; })) ==
          Approx(2 * pi * 0.5 * S * 2 * h).epsilon(1e-13));
    CHECK(energy(patch(one.scene, 1, Weight::times_r, [](double s, double) { return s; })) ==
          Approx(2 * pi * S * S * 2 * h).epsilon(1e-13));
    CHECK(energy(patch(one.scene, 2, Weight::times_r, [](double s, double z) { return s * z; })) ==
          Approx(2 * pi * (S * S * z2 + S * S * S / 6 * 2 * h)).epsilon(1e-12));
  }
}

TEST_CASE("ray elements carry the outer energy of dipoles spectrally in the order", "[patch]")
{
  // On box edges no longer than half its height h the nearest pole z = i R, R = h, lies on the
  // ellipse of rho = 4.6 (Bernstein's bound [Trefethen 2008]): the trace, and so the energy, errs
  // by C rho^-p. Measured C: 0.16 at most, over p = 2 to 11.
  for (const Weight weight : {Weight::over_r, Weight::times_r})
    for (int p = 2; p <= 11; ++p)
    {
      CAPTURE(static_cast<int>(weight), p);
      CHECK(outer_error(weight, p) < 0.2 * std::pow(4.6, -p));
    }
}

TEST_CASE("element matrices are symmetric and leave constants without energy", "[patch]")
{
  const Space s = space(mesh::coarse_mesh(mesh::layout(scenes::all()[6].scene)), 4);
  for (int k = 0; k < static_cast<int>(s.mesh.triangles.size()); k += 5)
  {
    const Eigen::MatrixXd K = triangle_matrix(s, k, Weight::times_r);
    Eigen::VectorXd one = Eigen::VectorXd::Zero(K.rows());
    one.head<3>().setOnes();
    CHECK((K - K.transpose()).cwiseAbs().maxCoeff() <= 1e-14 * K.cwiseAbs().maxCoeff());
    CHECK((K * one).cwiseAbs().maxCoeff() < 1e-12 * K.cwiseAbs().maxCoeff());
  }
}
