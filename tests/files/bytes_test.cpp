// The three files as others read them: VTK's own reader, an XML parser, the PNG standard.
#include "post/drawing/drawn.hpp"
#include "post/drawing/field_file.hpp"
#include "post/drawing/page.hpp"
#include "sphere_sample.hpp"

#include <catch2/catch.hpp>
#include <vtkCellData.h>
#include <vtkDataArray.h>
#include <vtkFieldData.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkSmartPointer.h>
#include <vtkStringArray.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLDataElement.h>
#include <vtkXMLUnstructuredGridReader.h>
#include <vtkXMLUtilities.h>

using namespace post::drawing;

namespace
{

vtkSmartPointer<vtkUnstructuredGrid> read(const std::string& bytes)
{
  vtkNew<vtkXMLUnstructuredGridReader> reader;
  reader->ReadFromInputStringOn();
  reader->SetInputString(bytes);
  reader->Update();
  REQUIRE(reader->GetErrorCode() == 0);
  return reader->GetOutput();
}

post::Result hostile()
{
  post::Result result;
  result.title = "</svg><script>alert(1)</script> & \x01\xFF";
  post::WindingResult coil;
  coil.name = "<coil> & \"co\"";
  coil.inductance = {12.34e-6, 12.33e-6, 12.35e-6};
  result.windings = {coil};
  return result;
}

std::string svg(const Page& sheet)
{
  Canvas canvas(sheet.width, sheet.height);
  draw(canvas, sheet);
  return canvas.bytes();
}

int big_endian(const std::string& bytes, std::size_t at)
{
  int value = 0;
  for (std::size_t k = 0; k < 4; ++k)
    value = value * 256 + static_cast<unsigned char>(bytes.at(at + k));
  return value;
}

} // namespace

TEST_CASE("VTK's reader finds every value of the sample under its name and unit", "[files]")
{
  const post::Sample sample = sphere::sample();
  const auto grid = read(field_file(sample));
  REQUIRE(grid->GetNumberOfPoints() == static_cast<vtkIdType>(sample.points.size()));
  REQUIRE(grid->GetNumberOfCells() == static_cast<vtkIdType>(sample.triangles.size()));
  vtkDataArray* flux = grid->GetPointData()->GetArray("flux [Wb]");
  vtkDataArray* B = grid->GetPointData()->GetArray("flux density B [T]");
  vtkDataArray* H = grid->GetPointData()->GetArray("field strength H [A/m]");
  REQUIRE((flux && B && H));
  for (int p = 0; p < static_cast<int>(sample.points.size()); ++p)
  {
    const double* at = grid->GetPoint(p);
    REQUIRE((at[0] == sample.points[p].r && at[1] == sample.points[p].z && at[2] == 0.0));
    REQUIRE(flux->GetTuple1(p) == sample.flux[p]);
    const double* vector = B->GetTuple3(p);
    REQUIRE((vector[0] == sample.B_r[p] && vector[1] == sample.B_z[p] && vector[2] == 0.0));
    vector = H->GetTuple3(p);
    REQUIRE((vector[0] == sample.H_r[p] && vector[1] == sample.H_z[p] && vector[2] == 0.0));
  }
}

TEST_CASE("VTK's reader finds triangles, regions and materials", "[files]")
{
  post::Sample sample = sphere::sample();
  sample.region_names[1] = "core <&> \u00B5";
  sample.current_density[3] = 1.25e6;
  const auto grid = read(field_file(sample));
  vtkDataArray* region = grid->GetCellData()->GetArray("region");
  vtkDataArray* mu = grid->GetCellData()->GetArray("relative permeability");
  vtkDataArray* J = grid->GetCellData()->GetArray("current density [A/m^2]");
  auto* names =
      vtkStringArray::SafeDownCast(grid->GetFieldData()->GetAbstractArray("region names"));
  REQUIRE((region && mu && J && names));
  CHECK(names->GetNumberOfValues() == 2);
  CHECK(names->GetValue(1) == "core <&> \u00B5");
  CHECK(J->GetTuple1(3) == 1.25e6);
  for (int t = 0; t < static_cast<int>(sample.triangles.size()); ++t)
  {
    REQUIRE(region->GetTuple1(t) == sample.region[t]);
    REQUIRE(mu->GetTuple1(t) == sample.permeability[t]);
    vtkIdType count = 0;
    const vtkIdType* corners = nullptr;
    grid->GetCellPoints(t, count, corners);
    REQUIRE((count == 3 && corners[0] == sample.triangles[t][0] &&
             corners[2] == sample.triangles[t][2]));
  }
}

TEST_CASE("the SVG is XML below 1 MB, and names stay words", "[files]")
{
  const std::string text = svg(page(sphere::sample(), sphere::layout("<a>&b"), hostile()));
  CHECK(text.size() < 1000000);
  const auto root = vtkSmartPointer<vtkXMLDataElement>::Take(
      vtkXMLUtilities::ReadElementFromString(text.c_str()));
  REQUIRE(root != nullptr);
  CHECK(std::string(root->GetName()) == "svg");
  CHECK(text.find("script") == std::string::npos);
  CHECK(text.find("<a>") == std::string::npos);
  CHECK(text.find("<path") != std::string::npos);
}

TEST_CASE("the PNG says it is one and is 1600 pixels wide", "[files]")
{
  post::Drawn drawn;
  ferrule_drawing_draw(sphere::sample(), sphere::layout(), hostile(), drawn);
  REQUIRE(drawn.png.substr(0, 8) == "\x89PNG\r\n\x1A\n"); // PNG, 3rd ed., section 5.2
  CHECK(drawn.png.substr(12, 4) == "IHDR");
  CHECK(big_endian(drawn.png, 16) == 1600);
  CHECK(drawn.png.substr(drawn.png.size() - 8, 4) == "IEND");
  CHECK(drawn.field.substr(0, 5) == "<?xml");
  CHECK(drawn.svg.substr(0, 5) == "<?xml");
}

TEST_CASE("the page says inductance, bracket and what is capped", "[files]")
{
  post::Result result = hostile();
  result.regions = {{"sphere", 8.0, 0.5, 1e-6, 0.1, true, {}},
                    {"air", 1.0, 0.5, 0.0, 0.1, true, {}}};
  post::Sample sample = sphere::sample();
  sample.B_z[40] = 50.0; // a peak
  const Page sheet = page(sample, sphere::layout(), result);
  REQUIRE(sheet.headline.size() == 1);
  const std::string start = "<coil> & \"co\": 12.34 \u00B5H, guaranteed 12.3";
  CHECK(sheet.headline[0].substr(0, start.size()) == start);
  std::string notes;
  for (const std::string& line : sheet.notes)
    notes += line + " ";
  CAPTURE(notes);
  CHECK(notes.find("corner (sphere) depends on the mesh and is capped") != std::string::npos);
  CHECK(notes.find("Between neighbouring flux lines flow") != std::string::npos);
}

TEST_CASE("a sample without an area is refused in words", "[files]")
{
  CHECK_THROWS_WITH(page({}, {}, {}), "nothing to draw: the field sample is empty or flat");
}
