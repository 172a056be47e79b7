// Rims of the bodies found in the sample, then VTK's rotational extrusion of them.
#include "post/drawing/revolved.hpp"

#include <cmath>
#include <fmt/format.h>
#include <map>
#include <set>
#include <stdexcept>
#include <vtkAppendPolyData.h>
#include <vtkCell.h>
#include <vtkCellArray.h>
#include <vtkCleanPolyData.h>
#include <vtkDoubleArray.h>
#include <vtkErrorCode.h>
#include <vtkFieldData.h>
#include <vtkIntArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>
#include <vtkRotationalExtrusionFilter.h>
#include <vtkSmartPointer.h>
#include <vtkStringArray.h>
#include <vtkTriangleFilter.h>
#include <vtkXMLPolyDataWriter.h>

namespace post::drawing
{

namespace
{

constexpr double turned = 270.0; // [deg]
constexpr int facets = 108;      // of 2.5 degrees

/// What a triangle belongs to: its region, and whether current flows there; air alone is none.
int body_of(const Sample& sample, std::size_t triangle)
{
  const bool wound = sample.current_density[triangle] != 0.0;
  return 2 * sample.region[triangle] + (wound ? 1 : 0);
}

/// A place to within a billionth of a metre, since every mesh triangle has points of its own.
std::pair<long long, long long> place(const mesh::Point& point)
{
  return {std::llround(point.r * 1e9), std::llround(point.z * 1e9)};
}

using Edge = std::pair<int, int>;

/// Edges that only one triangle of a body has; those on the axis bound nothing.
std::vector<Edge> rims(const Sample& sample)
{
  std::map<std::pair<int, std::set<std::pair<long long, long long>>>, std::pair<int, Edge>> found;
  for (std::size_t t = 0; t < sample.triangles.size(); ++t)
  {
    const int body = body_of(sample, t);
    for (std::size_t k = 0; body > 0 && k < 3; ++k)
    {
      const Edge edge = {sample.triangles[t][k], sample.triangles[t][(k + 1) % 3]};
      auto& [count, any] =
          found[{body, {place(sample.points[edge.first]), place(sample.points[edge.second])}}];
      ++count;
      any = edge;
    }
  }
  std::vector<Edge> list;
  for (const auto& [key, one] : found)
  {
    const auto& [first, second] = one.second;
    if (one.first == 1 && std::max(sample.points[first].r, sample.points[second].r) > 0.0)
    {
      list.push_back(one.second);
    }
  }
  return list;
}

/// The sample's points in the half-plane turned to `angle` [deg] about z, with what they carry.
vtkNew<vtkPolyData> half_plane(const Sample& sample, double angle)
{
  const double phi = angle * std::acos(-1.0) / 180.0;
  vtkNew<vtkPoints> points;
  points->SetDataTypeToDouble();
  vtkNew<vtkDoubleArray> strength, flux;
  vtkNew<vtkIntArray> region;
  strength->SetName("flux density |B| [T]");
  flux->SetName("flux [Wb]");
  region->SetName("region");
  for (std::size_t i = 0; i < sample.points.size(); ++i)
  {
    const auto [r, z] = sample.points[i];
    points->InsertNextPoint(r * std::cos(phi), r * std::sin(phi), z);
    strength->InsertNextValue(std::hypot(sample.B_r[i], sample.B_z[i]));
    flux->InsertNextValue(sample.flux[i]);
    region->InsertNextValue(0);
  }
  for (std::size_t t = 0; t < sample.triangles.size(); ++t)
  {
    for (const int corner : sample.triangles[t])
    {
      region->SetValue(corner, sample.region[t]);
    }
  }
  vtkNew<vtkPolyData> made;
  made->SetPoints(points);
  made->GetPointData()->AddArray(strength);
  made->GetPointData()->AddArray(flux);
  made->GetPointData()->AddArray(region);
  return made;
}

vtkNew<vtkPolyData> cut_face(const Sample& sample, double angle)
{
  vtkNew<vtkPolyData> made = half_plane(sample, angle);
  vtkNew<vtkCellArray> faces;
  for (std::size_t t = 0; t < sample.triangles.size(); ++t)
  {
    const auto& [a, b, c] = sample.triangles[t];
    const vtkIdType corners[] = {a, b, c};
    if (body_of(sample, t) > 0)
    {
      faces->InsertNextCell(3, corners);
    }
  }
  made->SetPolys(faces);
  return made;
}

std::string written(vtkPolyData* data)
{
  const vtkNew<vtkXMLPolyDataWriter> writer;
  writer->SetInputData(data);
  writer->SetDataModeToAppended();
  writer->SetCompressorTypeToZLib();
  writer->WriteToOutputStringOn();
  writer->Write();
  // Write() also returns 1 where it failed; only the error code tells.
  if (writer->GetErrorCode() != vtkErrorCode::NoError)
  {
    throw std::runtime_error(
        fmt::format("revolved file not written: {}",
                    vtkErrorCode::GetStringFromErrorCode(writer->GetErrorCode())));
  }
  return writer->GetOutputString();
}

/// The whole surface.
vtkSmartPointer<vtkPolyData> revolved(const Sample& sample)
{
  const std::vector<Edge> edges = rims(sample);
  if (edges.empty())
  {
    throw std::runtime_error("there is no body and no section with a current to revolve");
  }
  vtkNew<vtkPolyData> outline = half_plane(sample, 0.0);
  vtkNew<vtkCellArray> lines;
  for (const auto& [first, second] : edges)
  {
    const vtkIdType ends[] = {first, second};
    lines->InsertNextCell(2, ends);
  }
  outline->SetLines(lines);
  const vtkNew<vtkRotationalExtrusionFilter> turn;
  turn->SetInputData(outline);
  turn->SetAngle(turned);
  turn->SetResolution(facets);
  turn->CappingOff();
  const vtkNew<vtkAppendPolyData> all;
  all->AddInputConnection(turn->GetOutputPort());
  all->AddInputData(cut_face(sample, 0.0));
  all->AddInputData(cut_face(sample, turned));
  const vtkNew<vtkCleanPolyData> used; // points of air go; those where the field jumps stay two
  used->SetInputConnection(all->GetOutputPort());
  used->PointMergingOff();
  used->Update();
  vtkNew<vtkStringArray> names;
  names->SetName("region names");
  for (const std::string& name : sample.region_names)
  {
    names->InsertNextValue(name);
  }
  used->GetOutput()->GetFieldData()->AddArray(names);
  return used->GetOutput();
}

} // namespace

std::string revolved_file(const Sample& sample)
{
  return written(revolved(sample));
}

Solids solids(const Sample& sample)
{
  const vtkNew<vtkTriangleFilter> triangles; // strips too
  triangles->SetInputData(revolved(sample));
  triangles->Update();
  vtkPolyData* const data = triangles->GetOutput();
  vtkDataArray* const strength = data->GetPointData()->GetArray("flux density |B| [T]");
  vtkDataArray* const region = data->GetPointData()->GetArray("region");
  Solids made;
  for (vtkIdType i = 0; i < data->GetNumberOfPoints(); ++i)
  {
    double at[3];
    data->GetPoint(i, at);
    made.points.push_back({at[0], at[1], at[2]});
    made.strength.push_back(strength->GetTuple1(i));
    made.region.push_back(static_cast<int>(region->GetTuple1(i)));
  }
  for (vtkIdType i = 0; i < data->GetNumberOfCells(); ++i)
  {
    vtkIdList* const corners = data->GetCell(i)->GetPointIds();
    made.triangles.push_back({static_cast<int>(corners->GetId(0)),
                              static_cast<int>(corners->GetId(1)),
                              static_cast<int>(corners->GetId(2))});
  }
  return made;
}

} // namespace post::drawing
