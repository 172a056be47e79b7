// A sweep's collection and each file it names, opened by VTK's own readers.
//
// Hidden: run by tests/command_line/sweep.sh, which makes the collection FERRULE_COLLECTION names.
#include <catch2/catch.hpp>
#include <vtkCellData.h>
#include <vtkNew.h>
#include <vtkSmartPointer.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLDataElement.h>
#include <vtkXMLUnstructuredGridReader.h>
#include <vtkXMLUtilities.h>

#include <cstdlib>
#include <filesystem>

TEST_CASE("a collection names files that open, one a time step", "[.][collection]")
{
  const char* asked = std::getenv("FERRULE_COLLECTION");
  REQUIRE(asked != nullptr);
  const std::filesystem::path path = asked;
  const auto root =
      vtkSmartPointer<vtkXMLDataElement>::Take(vtkXMLUtilities::ReadElementFromFile(asked));
  REQUIRE(root != nullptr);
  CHECK(std::string(root->GetName()) == "VTKFile");
  CHECK(std::string(root->GetAttribute("type")) == "Collection");
  vtkXMLDataElement* const list = root->FindNestedElementWithName("Collection");
  REQUIRE(list != nullptr);
  REQUIRE(list->GetNumberOfNestedElements() == 3);
  const double steps[] = {50.0, 65.0, 80.0}; // sweep.sh varies a length so
  for (int i = 0; i < 3; ++i)
  {
    vtkXMLDataElement* const one = list->GetNestedElement(i);
    double step = 0.0;
    REQUIRE(one->GetScalarAttribute("timestep", step) == 1);
    CHECK(step == steps[i]);
    vtkNew<vtkXMLUnstructuredGridReader> reader;
    reader->SetFileName((path.parent_path() / one->GetAttribute("file")).c_str());
    reader->Update();
    REQUIRE(reader->GetErrorCode() == 0);
    CHECK(reader->GetOutput()->GetNumberOfCells() > 100);
    CHECK(reader->GetOutput()->GetCellData()->GetArray("region") != nullptr);
  }
}
