// Sample -> vtkUnstructuredGrid -> bytes. The one file that names VTK.
#include "post/drawing/field_file.hpp"

#include <fmt/format.h>
#include <vtkCellData.h>
#include <vtkDoubleArray.h>
#include <vtkErrorCode.h>
#include <vtkFieldData.h>
#include <vtkIntArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkStringArray.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLUnstructuredGridWriter.h>

#include <stdexcept>

namespace post::drawing
{

namespace
{

template <class Array, class Number>
void add(vtkFieldData* data, const char* name, const std::vector<Number>& numbers)
{
  vtkNew<Array> array;
  array->SetName(name);
  array->SetNumberOfTuples(static_cast<vtkIdType>(numbers.size()));
  for (std::size_t i = 0; i < numbers.size(); ++i)
    array->SetValue(static_cast<vtkIdType>(i), numbers[i]);
  data->AddArray(array);
}

void add_vectors(vtkFieldData* data, const char* name, const std::vector<double>& along_r,
                 const std::vector<double>& along_z)
{
  vtkNew<vtkDoubleArray> array;
  array->SetName(name);
  array->SetNumberOfComponents(3);
  array->SetNumberOfTuples(static_cast<vtkIdType>(along_r.size()));
  for (std::size_t i = 0; i < along_r.size(); ++i)
    array->SetTuple3(static_cast<vtkIdType>(i), along_r[i], along_z[i], 0.0);
  data->AddArray(array);
}

void add_words(vtkFieldData* data, const char* name, const std::vector<std::string>& words)
{
  vtkNew<vtkStringArray> array;
  array->SetName(name);
  for (const std::string& word : words)
    array->InsertNextValue(word);
  data->AddArray(array);
}

vtkNew<vtkUnstructuredGrid> grid(const Sample& sample)
{
  vtkNew<vtkPoints> points;
  points->SetDataTypeToDouble();
  for (const mesh::Point& point : sample.points)
    points->InsertNextPoint(point.r, point.z, 0.0);
  vtkNew<vtkUnstructuredGrid> grid;
  grid->SetPoints(points);
  grid->Allocate(static_cast<vtkIdType>(sample.triangles.size()));
  for (const auto& [a, b, c] : sample.triangles)
  {
    const vtkIdType corners[] = {a, b, c};
    grid->InsertNextCell(VTK_TRIANGLE, 3, corners);
  }
  add<vtkDoubleArray>(grid->GetPointData(), "flux [Wb]", sample.flux);
  add_vectors(grid->GetPointData(), "flux density B [T]", sample.B_r, sample.B_z);
  add_vectors(grid->GetPointData(), "field strength H [A/m]", sample.H_r, sample.H_z);
  add<vtkIntArray>(grid->GetCellData(), "region", sample.region);
  add<vtkDoubleArray>(grid->GetCellData(), "relative permeability", sample.permeability);
  add<vtkDoubleArray>(grid->GetCellData(), "current density [A/m^2]", sample.current_density);
  add_words(grid->GetFieldData(), "region names", sample.region_names);
  add_words(grid->GetFieldData(), "coordinates",
            {"x = r [m], y = z [m], z = 0; the axis of rotation is x = 0; vectors are (r part, z "
             "part, 0); flux is that through the circle about the axis; peak values"});
  return grid;
}

} // namespace

std::string field_file(const Sample& sample)
{
  const vtkNew<vtkUnstructuredGrid> data = grid(sample);
  vtkNew<vtkXMLUnstructuredGridWriter> writer;
  writer->SetInputData(data);
  writer->SetDataModeToAppended();
  writer->SetCompressorTypeToZLib();
  writer->WriteToOutputStringOn();
  writer->Write();
  // Write() also returns 1 where it failed; only the error code tells.
  if (writer->GetErrorCode() != vtkErrorCode::NoError)
    throw std::runtime_error(
        fmt::format("field file not written: {}",
                    vtkErrorCode::GetStringFromErrorCode(writer->GetErrorCode())));
  return writer->GetOutputString();
}

} // namespace post::drawing
