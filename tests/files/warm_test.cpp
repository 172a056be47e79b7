// The temperature picture: even bands over the rises that occur, open air white, words that mark it
// an estimate.
#include "post/drawing/drawn.hpp"
#include "post/drawing/warm_page.hpp"
#include "sphere_sample.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

namespace
{

/// Rises that fall from 30 K in the middle of the ball to 24 K at its surface; open air outside.
post::Sample warm_ball()
{
  post::Sample made = sphere::sample();
  for (const mesh::Point& point : made.points)
  {
    const double part = std::hypot(point.r, point.z) / sphere::radius;
    made.rise.push_back(part <= 1.0 + 1e-9 ? 30.0 - 6.0 * part * part
                                           : std::numeric_limits<double>::quiet_NaN());
  }
  return made;
}

post::Result result()
{
  post::Result made;
  made.title = "A warm ball";
  post::HeatPoint at;
  at.current = 2.0;
  at.heat = 0.5;
  at.bodies = {{"sphere", 0.5, 26.4, 30.0, false}};
  made.heat.points = {at};
  return made;
}

} // namespace

TEST_CASE("the temperature picture has even bands over the rises that occur", "[files]")
{
  const post::drawing::Page page =
      post::drawing::warm_page(warm_ball(), sphere::layout(), result(), 0);
  const std::vector<double>& edges = page.scale.edges;
  REQUIRE(edges.size() >= 6);
  CHECK(edges.size() <= 16);
  CHECK(edges.front() <= 24.0);
  CHECK(edges.back() >= 30.0);
  for (std::size_t k = 2; k < edges.size(); ++k)
    CHECK(edges[k] - edges[k - 1] == Approx(edges[1] - edges[0]).epsilon(1e-9));
  CHECK(page.flux.lines.empty());
  // White outside, where no rise is known; coloured in the ball.
  CHECK(page.field.pixels.front() == 0xFFFFFFu);
  CHECK(std::ranges::any_of(page.field.pixels, [](auto pixel) { return pixel != 0xFFFFFFu; }));
}

TEST_CASE("the temperature picture says what it is, and that it is no approval", "[files]")
{
  const post::drawing::Page page =
      post::drawing::warm_page(warm_ball(), sphere::layout(), result(), 0);
  std::string said;
  for (const auto* lines : {&page.title, &page.headline, &page.notes})
    for (const std::string& line : *lines)
      said += line + " ";
  for (const char* words : {"A warm ball", "26.4 K above the air", "(estimated)", "no approval",
                            "2.00 A of direct current; 500 mW"})
  {
    CAPTURE(words, said);
    CHECK(said.find(words) != std::string::npos);
  }
  CHECK(page.scale.quantity == "temperature rise");
  CHECK(page.scale.unit_name == "K");
  post::Drawn drawn;
  ferrule_drawing_warm(warm_ball(), sphere::layout(), result(), 0, drawn);
  CHECK(drawn.svg.substr(0, 5) == "<?xml");
  CHECK(drawn.png.substr(1, 3) == "PNG");
}
