// Bent triangles: how closely they follow their curves, and when they fold over.
#include "mesh/element_map.hpp"

#include <Eigen/LU>

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace mesh;

namespace
{

constexpr double degree = std::numbers::pi / 180.0;

Vertex at_angle(const Curve& circle, double degrees)
{
  const double r = circle.centre.r + circle.radius * std::cos(degrees * degree);
  return {r * r, circle.centre.z + circle.radius * std::sin(degrees * degree)};
}

/// An arc from `from` to `from` + 45 degrees with a triangle on its inside and one on its outside.
Mesh lens(Point centre, double radius, double from)
{
  const Curve circle{Curve::Kind::arc, centre, radius};
  const Curve inner{Curve::Kind::arc, centre, 0.3 * radius},
      outer{Curve::Kind::arc, centre, 1.5 * radius};
  Mesh mesh;
  mesh.curves = {circle};
  mesh.vertices = {at_angle(circle, from), at_angle(circle, from + 45.0),
                   at_angle(inner, from + 22.5), at_angle(outer, from + 22.5)};
  mesh.triangles = {{{2, 0, 1}, 0, -1}, {{3, 1, 0}, 0, -1}};
  mesh.curved.emplace(edge(0, 1), 0);
  return mesh;
}

Mesh one_triangle(std::array<Vertex, 3> v)
{
  Mesh mesh;
  mesh.vertices.assign(v.begin(), v.end());
  mesh.triangles = {{{0, 1, 2}, 0, -1}};
  return mesh;
}

struct Case
{
  Point centre;
  double radius;
  double from;
};
const Case cases[] = {{{3.0, 1.0}, 1.0, 20.0},   {{3.0, 1.0}, 1.0, 157.5}, {{1.0, 0.0}, 1.0, 100.0},
                      {{1.0, 0.0}, 1.0, 135.0},  {{0.0, 0.0}, 2.0, 0.0},   {{0.0, 0.0}, 2.0, 45.0},
                      {{2e-3, 0.5}, 1e-3, -80.0}};

} // namespace

TEST_CASE("an arc of 45 degrees is followed to 1e-13 of its radius", "[element-map]")
{
  for (const Case& c : cases)
  {
    CAPTURE(c.centre.r, c.radius, c.from);
    const Mesh mesh = lens(c.centre, c.radius, c.from);
    const Bends bent = bends(mesh);
    const ElementMap map = element_map(mesh, bent, 0);
    double off = 0.0, off_s = 0.0;
    for (int i = 1; i < 100; ++i)
    {
      const double t = i / 100.0;
      const Eigen::Vector2d x = edge_place(map, 1, t).point;
      const double dr = std::sqrt(x[0]) - c.centre.r, dz = x[1] - c.centre.z;
      const Vertex told = at_angle(mesh.curves[0], c.from + 45.0 * t);
      off = std::max(off, std::abs(x[1] - told.z));
      off_s = std::max(off_s, std::abs(x[0] - told.s));
      if (told.r() > 0.1 * c.radius) // nearer to the axis r = sqrt(s) says less than s itself
        off = std::max(off, std::abs(std::hypot(dr, dz) - c.radius));
    }
    CHECK(off < 1e-13 * c.radius);
    // Parameter proportional to the angle, on which section fields rely; ds = 2 r dr.
    CHECK(off_s < 2e-13 * c.radius * (c.centre.r + c.radius));
  }
}

TEST_CASE("a straight slope in (r, z) is an exact parabola in (s, z)", "[element-map]")
{
  Mesh mesh = one_triangle({Vertex{0.0, 0.0}, Vertex{9.0, 1.0}, Vertex{1.0, 2.0}});
  mesh.curves = {Curve{}};
  mesh.curved = {{edge(0, 1), 0}, {edge(1, 2), 0}};
  const Bends bent = bends(mesh);
  const ElementMap map = element_map(mesh, bent, 0);
  for (const double t : {0.0, 0.2, 0.5, 0.9, 1.0})
  {
    const Eigen::Vector2d x = edge_place(map, 0, t).point, y = edge_place(map, 1, t).point;
    CHECK(x[0] == Approx(9.0 * t * t).margin(1e-15)); // r = 3 t
    CHECK(x[1] == Approx(t).margin(1e-15));
    CHECK(std::sqrt(y[0]) == Approx(3.0 - 2.0 * t).epsilon(1e-15));
    CHECK(y[1] == Approx(1.0 + t).epsilon(1e-15));
  }
}

TEST_CASE("the Jacobian and the edge tangent agree with central differences", "[element-map]")
{
  const double h = 1e-6; // misses h^2 f''' / 6 and 1e-16 / h of values of order one
  for (const Case& c : {cases[0], cases[2], cases[5]})
  {
    const Mesh mesh = lens(c.centre, c.radius, c.from);
    const Bends bent = bends(mesh);
    for (int k = 0; k < 2; ++k)
    {
      const ElementMap map = element_map(mesh, bent, k);
      CHECK_FALSE(map.straight());
      for (const auto& [x, y] : {std::pair{0.2, 0.3}, {0.6, 0.3}, {0.1, 0.8}})
      {
        const auto point = [&](double a, double b) { return map.at({1 - a - b, a, b}).point; };
        Eigen::Matrix2d J;
        J << (point(x + h, y) - point(x - h, y)) / (2 * h),
            (point(x, y + h) - point(x, y - h)) / (2 * h);
        CHECK((map.at({1 - x - y, x, y}).jacobian - J).cwiseAbs().maxCoeff() < 2e-9);
      }
      for (int i = 0; i < 3; ++i)
        for (const double t : {0.2, 0.7})
        {
          const Eigen::Vector2d tangent =
              (edge_place(map, i, t + h).point - edge_place(map, i, t - h).point) / (2 * h);
          CHECK((edge_place(map, i, t).tangent - tangent).cwiseAbs().maxCoeff() < 2e-9);
          std::array<double, 3> lambda{};
          lambda[i] = 1 - t;
          lambda[(i + 1) % 3] = t;
          CHECK((map.at(lambda).point - edge_place(map, i, t).point).norm() < 1e-14);
        }
    }
  }
}

TEST_CASE("neighbours share their bent edge point by point", "[element-map]")
{
  for (const Case& c : cases)
  {
    const Mesh mesh = lens(c.centre, c.radius, c.from);
    const Bends bent = bends(mesh);
    const ElementMap in = element_map(mesh, bent, 0), out = element_map(mesh, bent, 1);
    const double round_off = 4e-16 * (c.centre.r + c.radius) * (c.centre.r + c.radius) + 4e-16;
    for (int i = 0; i <= 20; ++i)
    {
      const double t = i / 20.0;
      CHECK((in.at({0.0, 1.0 - t, t}).point - out.at({0.0, t, 1.0 - t}).point).norm() < round_off);
    }
  }
}

TEST_CASE("corners stay where they are and straight edges stay straight", "[element-map]")
{
  const Mesh mesh = lens({3.0, 1.0}, 1.0, 20.0);
  const Bends bent = bends(mesh);
  const ElementMap map = element_map(mesh, bent, 0);
  for (int i = 0; i < 3; ++i)
  {
    std::array<double, 3> lambda{};
    lambda[i] = 1.0;
    CHECK((map.at(lambda).point - map.corners[i]).norm() == 0.0);
  }
  const Eigen::Vector2d middle = 0.5 * (map.corners[0] + map.corners[1]);
  CHECK((map.at({0.5, 0.5, 0.0}).point - middle).norm() < 1e-15);
}

TEST_CASE("a triangle that its arc bulges out of is folded, and a clockwise one too",
          "[element-map]")
{
  const auto is_folded = [](const Mesh& mesh)
  {
    const Bends bent = bends(mesh);
    return folded(element_map(mesh, bent, 0));
  };
  Mesh mesh = lens({3.0, 1.0}, 1.0, 20.0);
  CHECK_FALSE(is_folded(mesh));
  std::swap(mesh.triangles[0], mesh.triangles[1]);
  CHECK_FALSE(is_folded(mesh));
  // The arc's sagitta is 0.076: an outer vertex 0.05 beyond the chord lies within the bulge.
  const Curve within{Curve::Kind::arc, {3.0, 1.0}, std::cos(22.5 * degree) + 0.05};
  mesh.vertices[3] = at_angle(within, 42.5);
  CHECK(is_folded(mesh));
  CHECK_FALSE(is_folded(one_triangle({Vertex{1, 0}, Vertex{2, 0}, Vertex{1, 1}})));
  CHECK(is_folded(one_triangle({Vertex{1, 0}, Vertex{1, 1}, Vertex{2, 0}})));
  CHECK(is_folded(one_triangle({Vertex{1, 0}, Vertex{2, 0}, Vertex{3, 0}})));
}

TEST_CASE("the cusp between two touching circles is not folded, overlapping ones are",
          "[element-map]")
{
  // Circles of radius 1 about (3, 0) and (3, 2 - overlap); the triangle lies in the cusp.
  const auto cusp = [](double overlap)
  {
    const Curve low{Curve::Kind::arc, {3.0, 0.0}, 1.0}, high{Curve::Kind::arc, {3.0, 2.0}, 1.0};
    Mesh mesh = one_triangle({at_angle(low, 90.0), at_angle(low, 50.0), at_angle(high, -50.0)});
    mesh.curves = {low, high};
    for (Vertex& v : mesh.vertices)
      if (v.z > 1.0 + 1e-9)
        v.z -= overlap;
    mesh.curves[1].centre.z -= overlap;
    mesh.curved = {{edge(0, 1), 0}, {edge(0, 2), 1}};
    const Bends bent = bends(mesh);
    return folded(element_map(mesh, bent, 0));
  };
  CHECK_FALSE(cusp(0.0));
  CHECK(cusp(0.2));
}
