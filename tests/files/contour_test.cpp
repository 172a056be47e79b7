// Flux lines of a closed-form field: their levels, that they are whole, and how they thin out.
#include "post/drawing/contour.hpp"
#include "sphere_sample.hpp"

#include <catch2/catch.hpp>

using namespace post::drawing;

namespace
{

const mesh::Extent all = {{0.0, -0.05}, {0.05, 0.05}};

/// @brief Flux of the sample at a place, linear in the triangle that holds it best.
double flux_at(const post::Sample& sample, mesh::Point p)
{
  double best = -1e9, flux = 0.0;
  for (const auto& [i, j, k] : sample.triangles)
  {
    const mesh::Point a = sample.points[i], b = sample.points[j], c = sample.points[k];
    const auto turn = [](mesh::Point u, mesh::Point v, mesh::Point w)
    { return (v.r - u.r) * (w.z - u.z) - (v.z - u.z) * (w.r - u.r); };
    const double area = turn(a, b, c);
    const double at_a = turn(b, c, p) / area, at_b = turn(c, a, p) / area, at_c = 1 - at_a - at_b;
    const double worst = std::min({at_a, at_b, at_c});
    if (worst <= best)
      continue;
    best = worst;
    flux = at_a * sample.flux[i] + at_b * sample.flux[j] + at_c * sample.flux[k];
  }
  return flux;
}

std::vector<double> levels()
{
  const double most = sphere::field({sphere::radius, 0.0}, true).flux;
  return {0.1 * most, 0.3 * most, 0.6 * most, 0.9 * most, 1.5 * most};
}

} // namespace

TEST_CASE("along a flux line the flux is its level to 1e-6", "[files]")
{
  const post::Sample sample = sphere::sample();
  for (const FluxLine& line : flux_lines(sample, levels(), all))
    for (const mesh::Point& point : line.points)
      REQUIRE(flux_at(sample, point) == Approx(line.flux).epsilon(1e-6));
}

TEST_CASE("a flux line lies where the closed form has its level", "[files]")
{
  // Linear interpolation errs by h^2/8 of the second derivative: at most 2 % of the flux on
  // this grid, where a cell is up to 2 mm and the lines pass no nearer the axis than 2 mm.
  for (const FluxLine& line : flux_lines(sphere::sample(20, 120), levels(), all))
    for (const mesh::Point& point : line.points)
    {
      const bool in = std::hypot(point.r, point.z) < sphere::radius;
      REQUIRE(sphere::field(point, in).flux == Approx(line.flux).epsilon(0.02));
    }
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
