// Colours, scale, frame and labels of a picture, each by what it promises.
#include "post/drawing/colours.hpp"
#include "post/drawing/flux.hpp"
#include "post/drawing/labels.hpp"
#include "post/drawing/raster.hpp"
#include "post/drawing/words.hpp"
#include "sphere_sample.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace post::drawing;

namespace
{

/// @brief Relative luminance of an sRGB colour (IEC 61966-2-1).
double luminance(const Colour& colour)
{
  const auto linear = [](double value)
  { return value <= 0.04045 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4); };
  return 0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue);
}

Raster sphere_raster(const Frame& frame)
{
  return raster(sphere::sample(), frame, 1.0);
}

Frame sphere_frame()
{
  return frame(sphere::layout(), sphere::sample(), {0.0, 0.0, 740.0, 590.0});
}

} // namespace

TEST_CASE("stronger is darker, evenly, and every colour can be shown", "[files]")
{
  const std::vector<Colour> all = colours(32);
  REQUIRE(all.size() == 32);
  for (const Colour& colour : all)
    for (const double part : {colour.red, colour.green, colour.blue})
      REQUIRE((part >= 0.0 && part <= 1.0));
  for (std::size_t k = 1; k < all.size(); ++k)
    REQUIRE(luminance(all[k]) < luminance(all[k - 1]));
  // Black lines keep a contrast of 3 : 1 on the darkest (WCAG 2.1, 1.4.11, for graphics).
  CHECK((luminance(all.back()) + 0.05) / 0.05 > 3.0);
}

TEST_CASE("OKLab white and black are white and black", "[files]")
{
  const Colour white = shown({1.0, 0.0, 0.0}), black = shown({0.0, 0.0, 0.0});
  CHECK(white.red == Approx(1.0).margin(1e-4)); // the published matrix has ten digits
  CHECK(white.green == Approx(1.0).margin(1e-4));
  CHECK(white.blue == Approx(1.0).margin(1e-4));
  CHECK(black.red + black.green + black.blue == Approx(0.0).margin(1e-9));
}

TEST_CASE("the frame keeps the aspect, holds the body and mirrors at the axis", "[files]")
{
  for (const double length : {0.0002, 0.002, 0.02, 0.2, 2.0})
  {
    const mesh::Point a{0.0, 0.0}, b{0.005, 0.0}, c{0.005, length}, d{0.0, length};
    const mesh::Layout rod{{{"air", "air", {}}, {"rod", "x", {{{a, b}, {b, c}, {c, d}, {d, a}}}}},
                           {}};
    post::Sample wide = sphere::sample(2, 6);
    for (mesh::Point& point : wide.points)
      point = {200.0 * point.r, 200.0 * point.z};
    const Frame frame = post::drawing::frame(rod, wide, {10.0, 20.0, 740.0, 590.0});
    CAPTURE(length);
    CHECK(frame.lying == (length > 0.01));
    const double aspect = frame.box.width / frame.box.height;
    CHECK(aspect >= 1.25 - 1e-9);
    CHECK(aspect <= 3.0 + 1e-9);
    CHECK(frame.box.width <= 740.0 + 1e-9);
    CHECK(frame.box.height <= 590.0 + 1e-9);
    const Spot corner = frame.spot(c), other = frame.spot({-c.r, c.z});
    CHECK(frame.mirrored(corner).x == Approx(other.x));
    CHECK(frame.mirrored(corner).y == Approx(other.y));
    CHECK(corner.x < frame.box.x + frame.box.width);
    CHECK(corner.y > frame.box.y);
  }
}

TEST_CASE("the raster holds the field of both halves", "[files]")
{
  const Frame frame = sphere_frame();
  const Raster field = sphere_raster(frame);
  const auto at = [&](mesh::Point point)
  {
    const Spot spot = frame.spot(point);
    return field.flux_density[int(spot.y - frame.box.y) * field.width + int(spot.x - frame.box.x)];
  };
  for (const double side : {1.0, -1.0})
  {
    CHECK(at({side * 0.004, 0.003}) == Approx(sphere::inside).epsilon(1e-6)); // uniform there
    const mesh::Point out{side * 0.014, 0.004};
    const auto [flux, B_r, B_z] = sphere::field({0.014, 0.004}, false);
    CHECK(at(out) == Approx(std::hypot(B_r, B_z)).epsilon(0.01)); // one pixel off at most
  }
  CHECK(std::none_of(field.flux_density.begin(), field.flux_density.end(),
                     [](float value) { return std::isnan(value); }));
}

TEST_CASE("the scale has round edges and is not set by a peak", "[files]")
{
  Raster field{100, 100, std::vector<float>(10000, 0.0017f)};
  field.flux_density[5] = 3000.0f; // a corner
  std::fill_n(field.flux_density.begin() + 5000, 4000, 0.000105f);
  const Scale mT = scale(field);
  CHECK(mT.unit_name == "mT");
  CHECK(mT.edges.back() == Approx(2.0e-3));
  CHECK(mT.edges.size() == 14); // 0.1 to 2 in steps of R10
  CHECK(mT.edges.front() == Approx(0.1e-3));
  CHECK(mT.band(3000.0) == 14);
  CHECK(mT.band(0.0) == 0);
  CHECK(mT.band(1.7e-3) == 13);
  CHECK(scale(Raster{2, 1, {0.0f, 0.0f}}).edges.size() > 1); // no field at all
}

TEST_CASE("labels never touch, keep their order and stay in the row", "[files]")
{
  const std::vector<double> widths = {40.0, 60.0, 30.0, 50.0},
                            wanted = {100.0, 100.0, 100.0, 395.0};
  const std::vector<double> at = spread(widths, wanted, 0.0, 400.0, 10.0);
  REQUIRE(at.size() == 4);
  for (std::size_t k = 1; k < 4; ++k)
    CHECK(at[k] - at[k - 1] >= 0.5 * (widths[k] + widths[k - 1]) + 10.0 - 1e-9);
  CHECK(at[3] == Approx(375.0));                                      // not cut off
  CHECK((at[0] + at[1] + at[2]) / 3.0 == Approx(100.0).margin(1e-9)); // about where they belong
  CHECK(spread(widths, wanted, 0.0, 200.0, 10.0).empty());
}

TEST_CASE("names that do not fit become numbers with a legend", "[files]")
{
  mesh::Layout layout = sphere::layout();
  for (int k = 0; k < 12; ++k)
  {
    layout.regions.push_back(layout.regions[1]);
    layout.regions.back().name = "spacer of glass, number " + std::to_string(k);
    for (mesh::Piece& piece : layout.regions.back().outlines[0])
      for (mesh::Point* point : {&piece.from, &piece.to})
        *point = {0.06 * point->r + 0.001 * k, 0.06 * point->z};
    for (mesh::Piece& piece : layout.regions.back().outlines[0])
      piece.arc.reset();
    layout.regions.back().outlines[0].push_back({{0.0006 + 0.001 * k, 0.0}, {0.001 * k, 0.0006}});
  }
  const Frame frame = sphere_frame();
  Canvas measure(10.0, 10.0, 1.0);
  const Font font{10.0};
  const std::vector<Body> all = bodies(layout, {}, sphere::sample(), frame);
  const Labels made = labels(all, frame, measure, font);
  REQUIRE(made.row.size() > 10);
  REQUIRE(made.legend.size() == made.row.size());
  CHECK(made.row[1].words == "2");
  CHECK(made.legend[1].substr(0, 6) == "2\u00A0=\u00A0");
  for (std::size_t k = 1; k < made.row.size(); ++k)
    CHECK(made.row[k].x - made.row[k - 1].x >
          0.5 * (measure.text_width(made.row[k].words, font) +
                 measure.text_width(made.row[k - 1].words, font)));
}

TEST_CASE("a label's leader ends in the body it names", "[files]")
{
  const Frame frame = sphere_frame();
  Canvas measure(10.0, 10.0, 1.0);
  const std::vector<Body> all = bodies(sphere::layout(), {}, sphere::sample(), frame);
  const Labels made = labels(all, frame, measure, {10.0});
  REQUIRE(made.row.size() == 1);
  CHECK(made.row[0].words == "sphere");
  const Spot middle = frame.spot({0.0, 0.0});
  const auto [x, y] = made.row[0].target;
  CHECK(std::hypot(x - middle.x, y - middle.y) < sphere::radius * frame.points_per_metre);
}

TEST_CASE("nothing but printable characters is drawn", "[files]")
{
  const std::string sign = "\xEF\xBF\xBD";
  CHECK(printable("plain \u00B5H \u20AC \U0001F9F2") == "plain \u00B5H \u20AC \U0001F9F2");
  CHECK(printable(std::string("a\0b\n\x7F", 5)) == "a" + sign + "b" + sign + sign);
  CHECK(printable("\xC2\x85") == sign);                      // U+0085
  CHECK(printable("\xC0\xAF") == sign + sign);               // overlong "/"
  CHECK(printable("\xED\xA0\x80") == sign + sign + sign);    // a surrogate
  CHECK(printable("\xF4\x90\x80\x80").substr(0, 3) == sign); // beyond U+10FFFF
  CHECK(printable("ab\xE2\x82") == "ab" + sign + sign);      // cut off
}

TEST_CASE("steps are 1, 2 or 5", "[files]")
{
  CHECK(round_step(0.99) == Approx(0.5));
  CHECK(round_step(1.0) == Approx(1.0));
  CHECK(round_step(4.9e-7) == Approx(2e-7));
  CHECK(round_step(5e-3) == Approx(5e-3));
  CHECK(with_micro_sign("5.1 uH to 6 uH", "H") == "5.1 \u00B5H to 6 \u00B5H");
}

TEST_CASE("flux lines are 12 to 30 levels, fewer where they would crowd", "[files]")
{
  const Frame frame = sphere_frame();
  post::Sample sample = sphere::sample();
  for (std::vector<double>* numbers : {&sample.flux, &sample.B_r, &sample.B_z})
    for (double& number : *numbers)
      number = -number; // downwards: flux falls from 0 on the axis
  Raster field = sphere_raster(frame);
  const FluxPicture plain = flux_picture(sample, frame, field);
  CHECK(plain.lines.size() >= 2 * 12); // each level crosses once, in both halves
  CHECK(plain.lines.size() <= 2 * 30);
  for (const Line& line : plain.lines) // none is the axis itself
    CHECK(std::abs(line.spots.front().x - frame.spot({0.0, 0.0}).x) > 1.0);
  for (float& value : field.flux_density)
    value *= 1e4f;
  const FluxPicture crowded = flux_picture(sample, frame, field);
  CHECK(crowded.step > 1.9 * plain.step);
  CHECK(crowded.lines.size() >= 2 * 6);
}

TEST_CASE("a body's outline has no piece on the axis", "[files]")
{
  const Frame frame = sphere_frame();
  const std::vector<Body> all = bodies(sphere::layout(), {}, sphere::sample(), frame);
  REQUIRE(all.size() == 1);
  CHECK(all[0].edges.size() == 2); // one open arc a half
  for (const Line& edge : all[0].edges)
    CHECK(!edge.closed);
}
