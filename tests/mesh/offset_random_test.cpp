// Offsets of random bodies against the definition: the distance of random points to the body.
#include "mesh/outline.hpp"
#include "mesh/piece.hpp"
#include "sound.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

using namespace mesh;

namespace
{

constexpr double pi = std::numbers::pi;

/// Points of a box around the body that the offset puts on the wrong side of its boundary.
int wrong_points(const Outline& body, double reach, std::mt19937& random)
{
  const std::vector<Outline> loops = offset(body, reach);
  const Extent box = extent(body);
  std::uniform_real_distribution<double> r(0.0, box.high.r + 2 * reach);
  std::uniform_real_distribution<double> z(box.low.z - 2 * reach, box.high.z + 2 * reach);
  int wrong = 0;
  for (int i = 0; i < 200; ++i)
  {
    const Point point{r(random), z(random)};
    const double apart = encloses(body, point) ? 0.0 : distance(body, point);
    bool within = encloses(loops.front(), point);
    for (std::size_t hole = 1; hole < loops.size(); ++hole)
      within = within && !encloses(loops[hole], point);
    if (std::abs(apart - reach) > 1e-6 * reach)
      wrong += within != (apart < reach);
  }
  return wrong;
}

} // namespace

TEST_CASE("random bodies: the offset holds exactly the points within its distance", "[offset]")
{
  std::mt19937 random(20240917);
  std::uniform_real_distribution<double> unit(0.0, 1.0);
  int tried = 0;
  for (int i = 0; i < 400; ++i)
  {
    std::vector<Point> points;
    const int corners = 3 + static_cast<int>(unit(random) * 9);
    const double scale = std::pow(10.0, -6 + 8 * unit(random));
    for (int k = 0; k < corners; ++k)
    {
      const double angle = 2 * pi * k / corners;
      const double reach = 0.3 + 2.2 * unit(random);
      points.push_back(
          {scale * std::max(0.0, 2 + reach * std::cos(angle)), scale * reach * std::sin(angle)});
    }
    if (self_intersecting(points))
      continue;
    const double reach = scale * std::pow(10.0, -3 + 4 * unit(random));
    CAPTURE(i, scale, reach / scale);
    CHECK(wrong_points(polygon(points), reach, random) == 0);
    for (const Outline& loop : offset(polygon(points), reach))
      require_sound(loop, reach);
    ++tried;
  }
  CHECK(tried > 300);
}
