// Every mesh triangle cut into small straight ones, with the field at their corners.
#include "post/sample.hpp"

#include "solver/field.hpp"
#include "solver/heat.hpp"
#include "solver/section_field.hpp"
#include "solver/solution.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace post
{

namespace
{

double driven_density(const solver::Solution& solution, const Eigen::VectorXd& currents,
                      int triangle)
{
  const mesh::Triangle& t = solution.space.mesh.triangles[triangle];
  if (t.conductor < 0)
    return 0.0;
  const mesh::Conductor& conductor = solution.layout.conductors[t.conductor];
  const mesh::ElementMap::Place middle =
      mesh::element_map(solution.space.mesh, solution.space.bends, triangle)
          .at({1.0 / 3.0, 1.0 / 3.0, 1.0 / 3.0});
  return solver::current_density(conductor, conductor.turns * currents[conductor.winding],
                                 middle.point[0], middle.point[1]);
}

/// Corners of the small triangles a triangle is cut into, row by row.
std::vector<std::array<double, 3>> cut_points(int cuts)
{
  std::vector<std::array<double, 3>> made;
  for (int i = 0; i <= cuts; ++i)
    for (int j = 0; i + j <= cuts; ++j)
    {
      const double a = static_cast<double>(i) / cuts, b = static_cast<double>(j) / cuts;
      made.push_back({std::max(0.0, 1.0 - a - b), a, b});
    }
  return made;
}

/// The same just inside: at a touching point the map of a bent triangle has no inverse.
std::vector<std::array<double, 3>> inside(std::vector<std::array<double, 3>> points)
{
  for (std::array<double, 3>& lambda : points)
    for (double& l : lambda)
      l = 1e-6 / 3.0 + (1.0 - 1e-6) * l;
  return points;
}

/// Where to look in a triangle.
struct Looks
{
  std::vector<std::array<double, 3>> lambda;
  solver::FieldPoints straight, bent;
};

void add_points(const solver::Solution& solution, const solver::DrivenField& driven, int triangle,
                const Looks& looks, Sample& made)
{
  const mesh::ElementMap map =
      mesh::element_map(solution.space.mesh, solution.space.bends, triangle);
  for (const std::array<double, 3>& lambda : looks.lambda)
  {
    const Eigen::Vector2d x = map.at(lambda).point;
    made.points.push_back({std::sqrt(std::max(0.0, x[0])), x[1]});
  }
  const solver::FieldPoints& points = map.straight() ? looks.straight : looks.bent;
  for (const solver::FieldPoint& f : points.in(solution, driven, triangle))
  {
    made.flux.push_back(f.flux);
    made.B_r.push_back(f.B_r);
    made.B_z.push_back(f.B_z);
    made.H_r.push_back(f.H_r);
    made.H_z.push_back(f.H_z);
  }
}

/// What a halved mesh leaves to its mirror image about z = middle.
void add_image(double middle, Sample& made)
{
  const auto points = static_cast<int>(made.points.size());
  for (int i = 0; i < points; ++i)
    made.points.push_back({made.points[i].r, 2.0 * middle - made.points[i].z});
  for (std::vector<double>* even : {&made.flux, &made.B_z, &made.H_z})
    for (int i = 0; i < points; ++i)
      even->push_back((*even)[i]);
  for (std::vector<double>* odd : {&made.B_r, &made.H_r})
    for (int i = 0; i < points; ++i)
      odd->push_back(-(*odd)[i]);
  const std::size_t triangles = made.triangles.size();
  for (std::size_t k = 0; k < triangles; ++k)
  {
    const auto [a, b, c] = made.triangles[k];
    made.triangles.push_back({points + a, points + c, points + b});
    made.region.push_back(made.region[k]);
    made.permeability.push_back(made.permeability[k]);
    made.current_density.push_back(made.current_density[k]);
  }
}

void add_triangles(int first, int cuts, Sample& made)
{
  // Row i holds cuts + 1 - i points.
  int row = first;
  for (int i = 0; i < cuts; ++i)
  {
    const int length = cuts + 1 - i, next = row + length;
    for (int j = 0; j + 1 < length; ++j)
    {
      made.triangles.push_back({row + j, next + j, row + j + 1});
      if (j + 2 < length)
        made.triangles.push_back({next + j, next + j + 1, row + j + 1});
    }
    row = next;
  }
}

} // namespace

Sample sampled(const solver::Solution& solution, int cuts)
{
  Sample made;
  const Eigen::VectorXd currents = solver::drive(solution);
  const solver::DrivenField driven = solver::driven_field(solution, currents);
  for (const mesh::Region& region : solution.layout.regions)
    made.region_names.push_back(region.name);
  const int order = solution.space.order;
  const std::vector<std::array<double, 3>> lambda = cut_points(cuts);
  const Looks looks{lambda, {order, lambda}, {order, inside(lambda)}};
  for (std::size_t k = 0; k < solution.space.mesh.triangles.size(); ++k)
  {
    const int region = solution.space.mesh.triangles[k].region;
    const std::size_t before = made.triangles.size();
    const int first = static_cast<int>(made.points.size());
    add_points(solution, driven, static_cast<int>(k), looks, made);
    add_triangles(first, cuts, made);
    const std::size_t added = made.triangles.size() - before;
    made.region.insert(made.region.end(), added, region);
    made.permeability.insert(made.permeability.end(), added, solution.permeability[region]);
    made.current_density.insert(made.current_density.end(), added,
                                driven_density(solution, currents, static_cast<int>(k)));
  }
  if (solution.space.mesh.box.halved)
    add_image(solution.space.mesh.box.middle, made);
  return made;
}

Sample sampled(const solver::HeatField& field, int cuts)
{
  Sample made;
  const mesh::Mesh& mesh = field.space.mesh;
  const std::vector<std::array<double, 3>> looks = cut_points(cuts);
  for (std::size_t k = 0; k < mesh.triangles.size(); ++k)
  {
    const mesh::ElementMap map = mesh::element_map(mesh, field.space.bends, static_cast<int>(k));
    const int first = static_cast<int>(made.points.size());
    for (const std::array<double, 3>& lambda : looks)
    {
      const Eigen::Vector2d x = map.at(lambda).point;
      made.points.push_back({std::sqrt(std::max(0.0, x[0])), x[1]});
      made.rise.push_back(field.open[k] ? std::numeric_limits<double>::quiet_NaN()
                                        : solver::rise_in(field, static_cast<int>(k), lambda));
    }
    add_triangles(first, cuts, made);
  }
  return made;
}

} // namespace post
