// Charts by what they promise: axes, ticks, labels, colours, cuts, classes, and what the pixels
// show.
#include "post/drawing/chart_map.hpp"
#include "post/drawing/chart_page.hpp"
#include "post/drawing/clipping.hpp"
#include "post/drawing/colours.hpp"
#include "post/drawing/drawn.hpp"
#include "post/drawing/sheet.hpp"
#include "post/drawing/style.hpp"

#include <algorithm>
#include <array>
#include <cairo.h>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstring>

using namespace post;
using namespace post::drawing;

namespace
{

const double infinite = HUGE_VAL;

/// @brief A chart with something of each kind.
Chart full_chart()
{
  Chart chart{"Title", "Subtitle", {"length", "m"}, {"inductance", "H"}};
  chart.bands = {{"band", {0.0, 0.02}, {1e-6, 2e-6}, {3e-6, infinite}}};
  for (int k = 0; k < 9; ++k)
    chart.lines.push_back(
        {"line " + std::to_string(k), {0.0, 0.01, 0.02}, {1e-6 * k, NAN, 2.5e-6}});
  chart.points = {{"points", {0.005}, {2e-6}, {-infinite}, {3e-6}, {0.004}, {infinite}}};
  chart.notes = {"A note."};
  return chart;
}

/// @brief Light as seen through one of three kinds of eyes [Machado 2009, severity 1].
std::array<double, 3> through(const std::array<std::array<double, 3>, 3>& eye, const Colour& colour)
{
  const auto linear = [](double value)
  { return value <= 0.04045 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4); };
  const double light[] = {linear(colour.red), linear(colour.green), linear(colour.blue)};
  std::array<double, 3> seen{};
  for (int i = 0; i < 3; ++i)
    for (int j = 0; j < 3; ++j)
      seen[i] += eye[i][j] * light[j];
  return seen;
}

/// @brief OKLab of linear light [Ottosson 2020].
std::array<double, 3> oklab(std::array<double, 3> light)
{
  for (double& part : light)
    part = std::clamp(part, 0.0, 1.0);
  const auto [R, G, B] = light;
  const double l = std::cbrt(0.4122214708 * R + 0.5363325363 * G + 0.0514459929 * B);
  const double m = std::cbrt(0.2119034982 * R + 0.6806995451 * G + 0.1073969566 * B);
  const double s = std::cbrt(0.0883024619 * R + 0.2817188376 * G + 0.6299787005 * B);
  return {0.2104542553 * l + 0.7936177850 * m - 0.0040720468 * s,
          1.9779984951 * l - 2.4285922050 * m + 0.4505937099 * s,
          0.0259040371 * l + 0.7827717662 * m - 0.8086757660 * s};
}

constexpr int fine = 4; ///< Pixels a point.

/// @brief The sheet as drawn, read back from its PNG.
Image pixels(const ChartPage& page)
{
  Canvas canvas(page.width, page.height, fine);
  draw(canvas, page);
  std::string bytes = canvas.bytes();
  cairo_surface_t* surface = cairo_image_surface_create_from_png_stream(
      [](void* rest, unsigned char* to, unsigned int length)
      {
        auto& from = *static_cast<std::string*>(rest);
        std::memcpy(to, from.data(), length);
        from.erase(0, length);
        return CAIRO_STATUS_SUCCESS;
      },
      &bytes);
  REQUIRE(cairo_surface_status(surface) == CAIRO_STATUS_SUCCESS);
  Image image{cairo_image_surface_get_width(surface), cairo_image_surface_get_height(surface), {}};
  const unsigned char* data = cairo_image_surface_get_data(surface);
  for (int row = 0; row < image.height; ++row)
    for (int column = 0; column < image.width; ++column)
    {
      std::uint32_t pixel = 0;
      std::memcpy(&pixel, data + row * cairo_image_surface_get_stride(surface) + 4 * column, 4);
      image.pixels.push_back(pixel & 0xFFFFFFu);
    }
  cairo_surface_destroy(surface);
  return image;
}

/// @brief Whether the pixel at a spot is near a colour, up to blending with its neighbours.
bool shows(const Image& image, Spot at, const Colour& colour)
{
  const std::uint32_t pixel =
      image.pixels[static_cast<int>(fine * at.y) * image.width + static_cast<int>(fine * at.x)];
  const double parts[] = {colour.red, colour.green, colour.blue};
  double worst = 0.0;
  for (int k = 0; k < 3; ++k)
    worst = std::max(worst, std::abs((pixel >> (16 - 8 * k) & 255u) / 255.0 - parts[k]));
  return worst < 0.06;
}

} // namespace

TEST_CASE("lines and areas are cut at the frame", "[files]")
{
  const Box box{0.0, 0.0, 10.0, 10.0};
  const std::vector<Line> through = clipped_line(
      std::vector<Spot>{{-1e9, 5.0}, {5.0, 5.0}, {5.0, 1e9}, {8.0, 1e9}, {8.0, 2.0}}, box);
  REQUIRE(through.size() == 2);
  REQUIRE(through[0].spots.size() == 3);
  CHECK(through[0].spots[0].x == Approx(0.0).margin(1e-6)); // 1e9 points leave six digits
  CHECK(through[0].spots[2].y == Approx(10.0).margin(1e-6));
  CHECK(through[1].spots[1].y == Approx(2.0));
  CHECK(clipped_line(std::vector<Spot>{{-3.0, 9.0}, {3.0, 13.0}}, box).empty()); // past a corner
  CHECK(clipped_line(std::vector<Spot>{{3.0, 3.0}}, box).size() == 1);
  // A triangle with one corner far off leaves a quadrilateral.
  const Line area = clipped_area({{{2.0, 2.0}, {1e4, 2.0}, {2.0, 8.0}}, true}, box);
  double doubled = 0.0;
  for (std::size_t k = 0; k < area.spots.size(); ++k)
  {
    const Spot a = area.spots[k], b = area.spots[(k + 1) % area.spots.size()];
    doubled += a.x * b.y - b.x * a.y;
  }
  // Height at x: 8 - 6 (x - 2) / (1e4 - 2); over 8 wide: 48 - 3 * 64 / 9998.
  CHECK(0.5 * doubled == Approx(48.0 - 192.0 / 9998.0));
}

TEST_CASE("no label covers another, and all of them stand on the sheet", "[files]")
{
  Canvas measure(sheet_width, sheet_width, 1e-2);
  const ChartPage page = chart_page(full_chart());
  REQUIRE(page.labels.size() == 11);
  double low = page.frame.y - 9.0;
  for (const EndLabel& label : page.labels)
  {
    const double half = 0.5 * 12.5 * static_cast<double>(label.words.size());
    CHECK(label.y - half >= low);
    low = label.y + half + 2.9;
    for (const std::string& line : label.words)
      CHECK(page.frame.x + page.frame.width + 44.0 + measure.text_width(line, label_font) <=
            page.width - margin + 0.1);
  }
  CHECK(low <= page.frame.y + page.frame.height + 12.0);
  Chart crowd = full_chart();
  for (int k = 0; k < 60; ++k)
    crowd.lines.push_back(crowd.lines[0]);
  CHECK(chart_page(crowd).labels.empty());
  CHECK(chart_page(crowd).notes.back() == "Too many labels to name all that is drawn.");
}

TEST_CASE("colours of lines stay apart for every kind of eye and on white", "[files]")
{
  constexpr std::array<std::array<double, 3>, 3> eyes[] = {
      {{{1.0, 0.0, 0.0}, {0.0, 1.0, 0.0}, {0.0, 0.0, 1.0}}},
      {{{0.152286, 1.052583, -0.204868},
        {0.114503, 0.786281, 0.099216},
        {-0.003882, -0.048116, 1.051998}}}, // without red
      {{{0.367322, 0.860646, -0.227968},
        {0.280085, 0.672501, 0.047413},
        {-0.011820, 0.042940, 0.968881}}}}; // without green
  for (const auto& eye : eyes)
    for (int a = 0; a < 6; ++a)
      for (int b = 0; b < a; ++b)
      {
        CAPTURE(a, b);
        const auto first = oklab(through(eye, series_colour(a)));
        const auto second = oklab(through(eye, series_colour(b)));
        // Three times the step between neighbours that the eye just tells apart, about 0.02.
        CHECK(std::hypot(first[0] - second[0], first[1] - second[1], first[2] - second[2]) > 0.06);
      }
  for (int k = 0; k < 6; ++k)
  {
    const auto light = through(eyes[0], series_colour(k));
    const double luminance = 0.2126 * light[0] + 0.7152 * light[1] + 0.0722 * light[2];
    CHECK(1.05 / (luminance + 0.05) >= 3.0); // WCAG 2.1, 1.4.11, for graphics
  }
  for (int a = 0; a < 30; ++a)
    for (int b = 0; b < a; ++b)
    {
      const Colour one = series_colour(a), other = series_colour(b);
      CHECK((one.red != other.red || series_pen(a).dashes != series_pen(b).dashes));
    }
}

TEST_CASE("a map shows each class where the value lies in it, and white where there is none",
          "[files]")
{
  ChartMap map{"deviation", {1.0, 10.0, 100.0},      {0.0, 1.0}, {0.0, 2.0, 10.0, 0.0, 2.0, NAN},
               {1.0, 5.0},  {"good", "fair", "poor"}};
  const MapGrid grid = map_grid(map, true, false);
  CHECK(map_class(map, grid, std::sqrt(10.0) * 0.999, 0.0) == 0); // value 1 halfway in log x
  CHECK(map_class(map, grid, std::sqrt(10.0) * 1.001, 0.0) == 1);
  CHECK(map_class(map, grid, 90.0, 0.0) == -1); // one corner unknown
  CHECK(map_class(map, grid, 101.0, 0.0) == -1);
  map.cells = true;
  const MapGrid cells = map_grid(map, true, false);
  CHECK(cells.x.front() == Approx(std::sqrt(0.1)));
  CHECK(map_class(map, cells, 3.1, 0.0) == 0);
  CHECK(map_class(map, cells, 3.2, 0.0) == 1);
  CHECK(map_class(map, cells, 90.0, 0.0) == 2);
  CHECK(map_class(map, cells, 90.0, 1.0) == -1);

  const ChartMap rising{"", {1.0, 2.0}, {0.0, 1.0}, {4.0, 4.0, 8.0, 8.0}, {5.98}, {"low", "high"}};
  const MapGrid plane = map_grid(rising, false, false);
  CHECK(map_class(rising, plane, 1.5, 0.49) == 0); // value 5.96
  CHECK(map_class(rising, plane, 1.5, 0.50) == 1);
  map.limits = {2.0, 10.0};
  CHECK(map_class(map, cells, 3.2, 0.0) == 0); // on a limit: the class below it
  CHECK(map_class(map, cells, 90.0, 0.0) == 1);
  map.limits = {1.0, 5.0};

  Chart chart{"Map", "", {"x", "", true}, {"y", ""}};
  chart.map = map;
  const ChartPage page = chart_page(chart);
  const Image image = pixels(page);
  const std::vector<Colour> colours = map_colours(map);
  const auto at = [&](double x, double y) { return Spot{page.x.at(x), page.y.at(y)}; };
  CHECK(shows(image, at(1.7, 0.83), colours[0]));
  CHECK(shows(image, at(17.0, 0.83), colours[1]));
  CHECK(shows(image, at(170.0, 0.17), colours[2]));
  CHECK(shows(image, at(170.0, 0.83), {1.0, 1.0, 1.0}));
  REQUIRE(page.map_key.size() == 3);
  CHECK(shows(image, {page.map_key[2].at.x + 10.0, page.map_key[2].at.y - 4.0}, colours[2]));
}

TEST_CASE("bands, lines, bars, arrows and gaps show where their numbers say", "[files]")
{
  Chart chart{"Marks", "", {"x", "", false, 0.0, 10.0}, {"y", "", false, 0.0, 10.0}};
  chart.bands = {{"", {0.0, 10.0}, {7.1, 7.1}, {8.9, infinite}}};
  chart.lines = {{"", {0.0, 3.0, 4.0, 6.0, 10.0}, {3.3, 3.3, NAN, 3.3, 3.3}}};
  chart.points = {{"", {5.1}, {5.1}, {-infinite}, {6.7}}};
  const ChartPage page = chart_page(chart);
  const Image image = pixels(page);
  const auto at = [&](double x, double y) { return Spot{page.x.at(x), page.y.at(y)}; };
  const Colour white{1.0, 1.0, 1.0};
  CHECK(shows(image, at(1.1, 7.7), band_colour(0, 1)));
  CHECK(shows(image, at(9.7, 9.8), band_colour(0, 1))); // up to the frame
  CHECK(shows(image, at(1.1, 6.7), white));
  CHECK(shows(image, at(1.1, 3.3), series_colour(0)));
  CHECK(shows(image, at(5.7, 3.3), white)); // gap
  CHECK(shows(image, at(9.1, 3.3), series_colour(0)));
  const Spot mark = at(5.1, 5.1);
  CHECK(shows(image, mark, series_colour(0)));
  const Spot tip = at(5.1, 0.0);
  CHECK(shows(image, {tip.x + 1.5, tip.y - 6.0}, series_colour(0))); // the arrow's width
  CHECK(shows(image, {tip.x + 2.5, tip.y - 20.0}, white));           // above it only the bar
  const Spot cap = at(5.1, 6.7);
  CHECK_FALSE(shows(image, {cap.x + 2.0, cap.y}, white));
  CHECK(shows(image, {cap.x + 2.0, cap.y - 6.0}, white));
}

TEST_CASE("the module draws a chart as SVG and as PNG of one size, hostile words and all",
          "[files]")
{
  Chart chart = full_chart();
  chart.title = "</svg><script>alert(1)</script> & \x01\xFF";
  chart.lines[0].label = "<line> & \"x\"";
  DrawnChart drawn;
  ferrule_drawing_chart(chart, drawn);
  CHECK(drawn.svg.find("<script") == std::string::npos);
  CHECK(drawn.svg.find("viewBox=\"0 0 800 ") != std::string::npos);
  CHECK(drawn.png.substr(0, 8) == "\x89PNG\r\n\x1A\n");
  CHECK(drawn.png.substr(16, 4) == std::string("\0\0\x06\x40", 4)); // 1600 pixels for 800 points
}
