// Solids of revolution: their size and surface against closed forms.
#include "post/drawing/revolved.hpp"
#include "post/drawing/sheet.hpp"
#include "post/drawing/solid_picture.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <vtkCell.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPolyData.h>
#include <vtkTriangle.h>
#include <vtkXMLPolyDataReader.h>

namespace
{

/// A rod of radius 1 and length 2 in two triangles that share no points, beside air.
post::Sample rod()
{
  post::Sample sample;
  sample.points = {{0.0, 0.0}, {1.0, 0.0}, {1.0, 2.0}, {0.0, 0.0}, {1.0, 2.0},
                   {0.0, 2.0}, {1.0, 0.0}, {2.0, 0.0}, {1.0, 2.0}};
  sample.flux.assign(9, 0.5);
  sample.B_r.assign(9, 3.0);
  sample.B_z.assign(9, 4.0);
  sample.triangles = {{0, 1, 2}, {3, 4, 5}, {6, 7, 8}};
  sample.region = {1, 1, 0};
  sample.permeability = {9.0, 9.0, 1.0};
  sample.current_density = {0.0, 0.0, 0.0};
  sample.region_names = {"air", "rod"};
  return sample;
}

vtkNew<vtkXMLPolyDataReader> read(const std::string& bytes)
{
  vtkNew<vtkXMLPolyDataReader> reader;
  reader->ReadFromInputStringOn();
  reader->SetInputString(bytes);
  reader->Update();
  return reader;
}

double area(vtkPolyData* data)
{
  double sum = 0.0;
  for (vtkIdType i = 0; i < data->GetNumberOfCells(); ++i)
  {
    vtkPoints* const points = data->GetCell(i)->GetPoints();
    for (vtkIdType k = 0; k + 2 < points->GetNumberOfPoints(); ++k) // a strip or a triangle
    {
      double a[3], b[3], c[3];
      points->GetPoint(k, a);
      points->GetPoint(k + 1, b);
      points->GetPoint(k + 2, c);
      sum += vtkTriangle::TriangleArea(a, b, c);
    }
  }
  return sum;
}

} // namespace

TEST_CASE("a revolved rod has three quarters of a cylinder's surface and two cut faces", "[files]")
{
  const auto reader = read(post::drawing::revolved_file(rod()));
  vtkPolyData* const data = reader->GetOutput();
  double box[6];
  data->GetBounds(box);
  for (const int k : {1, 3})
  {
    CHECK(box[k] == Approx(1.0)); // x and y up to the radius: air is left out
    CHECK(box[k - 1] == Approx(-1.0));
  }
  CHECK(box[4] == Approx(0.0).margin(1e-12));
  CHECK(box[5] == Approx(2.0));
  // Mantle 2 pi r h and two ends pi r^2, three quarters of each; two faces r h. Facets of 2.5
  // degrees have less by (2.5 deg)^2 / 6 at most, 3.2e-4.
  const double pi = std::numbers::pi, whole = 0.75 * (2.0 * pi * 2.0 + 2.0 * pi) + 2.0 * 2.0;
  CHECK(area(data) < whole);
  CHECK(area(data) == Approx(whole).epsilon(4e-4));
  double range[2];
  data->GetPointData()->GetArray("flux density |B| [T]")->GetRange(range);
  CHECK(range[0] == Approx(5.0));
  CHECK(range[1] == Approx(5.0));
}

TEST_CASE("air alone cannot be revolved", "[files]")
{
  post::Sample sample = rod();
  sample.region = {0, 0, 0};
  CHECK_THROWS_WITH(post::drawing::revolved_file(sample), Catch::Contains("no body"));
}

TEST_CASE("a picture of a rod covers its shadow, in its colour, the nearest face in front",
          "[files]")
{
  using namespace post::drawing;
  Solids bodies = solids(rod());
  CHECK(bodies.triangles.size() > 200);
  // What lies behind has another field, which must not show: a speck in the middle of the rod.
  const int first = static_cast<int>(bodies.points.size());
  for (const std::array<double, 3>& one :
       {std::array{-0.1, 0.1, 1.0}, {-0.1, 0.2, 1.0}, {-0.2, 0.1, 1.1}})
  {
    bodies.points.push_back(one);
    bodies.strength.push_back(50.0);
    bodies.region.push_back(7);
  }
  bodies.triangles.push_back({first, first + 1, first + 2});
  Scale scale;
  scale.edges = {1.0, 10.0};
  const std::vector<Colour> colours = {{0.0, 0.0, 1.0}, {1.0, 0.0, 0.0}, {0.0, 1.0, 0.0}};
  const int side = 400;
  const Image made = solid_image(bodies, side, side, scale, colours);
  REQUIRE(made.pixels.size() == std::size_t(side) * side);
  int covered = 0, lines = 0, red = 0;
  for (const std::uint32_t pixel : made.pixels)
  {
    covered += pixel != 0xffffff ? 1 : 0;
    lines += pixel == 0x212429 || pixel == 0x21242b ? 1 : 0;
    red += pixel != 0xffffff && (pixel & 0xffffU) == 0 && pixel >> 16U > 170 ? 1 : 0;
  }
  CAPTURE(covered, lines, red);
  CHECK(red > 0.97 * covered);
  CHECK(red + lines == covered); // no green, no blue
  // The whole rod's shadow, radius 1 and length 2, along a direction of cosine c to its axis:
  // 4 s + pi c, of which the cut takes a little near its lower end. What is left spans 94 % of the
  // height: 2 s, c behind, and c / sqrt 2 in front, where the cut faces end.
  const double c = 0.48 / std::sqrt(2.0 * 0.62 * 0.62 + 0.48 * 0.48), s = std::sqrt(1.0 - c * c);
  const double pixels_a_metre = 0.94 * side / (2.0 * s + c * (1.0 + std::sqrt(0.5)));
  const double shadow = (4.0 * s + std::numbers::pi * c) * pixels_a_metre * pixels_a_metre;
  CHECK(covered < 1.01 * shadow);
  CHECK(covered > 0.85 * shadow);
}
