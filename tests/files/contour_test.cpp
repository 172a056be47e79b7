// Flux lines of a closed-form field: their levels, that they are whole, and how they thin out.
#include "post/drawing/contour.hpp"
#include "sphere_sample.hpp"

#include <catch2/catch.hpp>

using namespace post::drawing;

namespace
{

const mesh::Extent all = {{0.0, -0.05}, {0.05, 0.05}};

/// @brief Largest error of the closed form's flux against the level, relative: of points on
///        edges, and of those midway through triangles.
struct Errors
{
  double edges = 0.0;
  double midway = 0.0;
};

Errors errors(int rings, std::span<const double> levels)
{
  Errors largest;
  for (const FluxLine& line : flux_lines(sphere::sample(rings, 6 * rings), levels, all))
    for (std::size_t k = 0; k < line.points.size(); ++k)
    {
      const double rho = std::hypot(line.points[k].r, line.points[k].z);
      // Straight edges cut the sphere's surface short: there the sample itself is second order.
      if (std::abs(rho - sphere::radius) < 0.1 * sphere::radius)
        continue;
      const double flux = sphere::field(line.points[k], rho < sphere::radius).flux;
      double& error = k % 2 == 0 ? largest.edges : largest.midway;
      error = std::max(error, std::abs(flux / line.flux - 1.0));
    }
  return largest;
}

std::vector<double> levels()
{
  const double most = sphere::field({sphere::radius, 0.0}, true).flux;
  return {0.1 * most, 0.3 * most, 0.6 * most, 0.9 * most, 1.5 * most};
}

} // namespace

TEST_CASE("along a flux line the flux is its level to 1e-6", "[files]")
{
  const Errors coarse = errors(20, levels()), fine = errors(40, levels());
  CAPTURE(coarse.edges, fine.edges, coarse.midway, fine.midway);
  CHECK(fine.edges < 1e-6);
  CHECK(fine.midway < 5e-6); // a line's width is some 1e-3
  // Edges: a cubic of values and slopes, order 4 in the end (3.8 from 40 to 80 rings). Midway:
  // directions linear along edges are of order 2, times the chord makes 3.
  CHECK(std::log2(coarse.edges / fine.edges) > 3.5);
  CHECK(std::log2(coarse.midway / fine.midway) > 2.6);
}

TEST_CASE("where flux grows as r^2 its lines are exact on any mesh", "[files]")
{
  post::Sample uniform = sphere::sample(3, 10);
  for (std::size_t p = 0; p < uniform.points.size(); ++p)
  {
    const double r = uniform.points[p].r;
    uniform.flux[p] = sphere::pi * r * r;
    uniform.B_r[p] = 0.0;
    uniform.B_z[p] = 1.0;
  }
  const std::vector<double> level = {sphere::pi * 1e-6, sphere::pi * 0.02 * 0.02};
  for (const FluxLine& line : flux_lines(uniform, level, all))
    for (const mesh::Point& point : line.points)
      CHECK(sphere::pi * point.r * point.r == Approx(line.flux).epsilon(1e-9)); // 40 halvings
}

TEST_CASE("a level that crosses once is one chain over all repeated points", "[files]")
{
  const std::vector<FluxLine> lines = flux_lines(sphere::sample(), levels(), all);
  REQUIRE(lines.size() == levels().size());
  for (const FluxLine& line : lines)
  {
    CHECK(line.points.size() > 100);
    CHECK(std::abs(line.points.front().z - line.points.back().z) > 0.08); // end to end
  }
}

TEST_CASE("repeated points that differ by round-off are still one line", "[files]")
{
  post::Sample sample = sphere::sample();
  for (std::size_t p = 0; p < sample.points.size(); ++p)
  {
    sample.points[p].r += 2e-11 * double(p % 3); // of 0.05; lines stop where more than 1e-10 parts
    sample.flux[p] *= 1.0 + 1e-14 * double(p % 5);
  }
  CHECK(flux_lines(sample, levels(), all).size() == levels().size());
}

TEST_CASE("a line around a maximum closes", "[files]")
{
  post::Sample sample = sphere::sample();
  for (std::size_t p = 0; p < sample.points.size(); ++p)
    sample.flux[p] = -std::hypot(sample.points[p].r - 0.02, sample.points[p].z);
  const std::vector<double> level = {-0.01137}; // passes through no point of the grid
  const std::vector<FluxLine> lines = flux_lines(sample, level, all);
  REQUIRE(lines.size() == 1);
  CHECK(lines[0].points.front().r == lines[0].points.back().r);
  CHECK(lines[0].points.front().z == lines[0].points.back().z);
}

TEST_CASE("triangles that reach to infinity are passed over", "[files]")
{
  post::Sample sample = sphere::sample();
  for (std::size_t p = 0; p < sample.points.size(); ++p) // all round, across every line
    if (sample.points[p].z > 0.02 && sample.points[p].z < 0.03)
      sample.points[p] = {p % 2 == 0 ? std::numeric_limits<double>::infinity() : std::nan(""), 0.0};
  const std::vector<FluxLine> lines = flux_lines(sample, levels(), all);
  CHECK(lines.size() > levels().size()); // cut in two
  for (const FluxLine& line : lines)
    for (const mesh::Point& point : line.points)
      REQUIRE(std::isfinite(point.r + point.z));
}

TEST_CASE("a simplified chain keeps its ends and leaves out nothing farther off", "[files]")
{
  std::vector<mesh::Point> circle;
  for (int k = 0; k <= 1000; ++k)
    circle.push_back({2.0 + std::cos(2e-3 * sphere::pi * k), std::sin(2e-3 * sphere::pi * k)});
  circle.back() = circle.front();
  const std::vector<mesh::Point> few = simplified(circle, 1e-3);
  CHECK(few.front().r == circle.front().r);
  CHECK(few.back().z == circle.back().z);
  // A chord of angle a stands off by 1 - cos(a/2): 1e-3 allows 71 pieces at the least, and
  // halving may double that.
  CHECK(few.size() > 71);
  CHECK(few.size() < 160);
  for (std::size_t k = 0; k + 1 < few.size(); ++k)
    REQUIRE(std::hypot(0.5 * (few[k].r + few[k + 1].r) - 2.0, 0.5 * (few[k].z + few[k + 1].z)) >
            1.0 - 1.001e-3);
}
