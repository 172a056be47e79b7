// Coarse lines through every body edge, and the splits towards the rod's edges.
#include "grid.hpp"

#include <deal.II/grid/grid_generator.h>

#include <algorithm>
#include <cmath>
#include <vector>

using dealii::Point;
using dealii::Triangulation;

namespace
{

/// @brief Coarse lines from 0 through the rising `marks` to beyond `wall`: steps start at `finest`
///        beside each mark and grow by `growth` away from it.
std::vector<double> lines(const std::vector<double>& marks, double finest, double growth,
                          double wall)
{
  std::vector<double> at{0.0};
  double low = 0.0;
  for (const double mark : marks)
  {
    const double reach = (mark - low) * (low > 0 ? 0.5 : 1.0); // graded to both ends but at 0
    std::vector<double> offsets{0.0};
    for (double step = finest; offsets.back() + step * 1.4 < reach; step *= growth)
      offsets.push_back(offsets.back() + step);
    if (low > 0)
    {
      for (std::size_t i = 1; i < offsets.size(); ++i)
        at.push_back(low + offsets[i]);
      if (offsets.size() > 1)
        at.push_back(low + reach);
    }
    for (std::size_t i = offsets.size(); i-- > 0;)
      at.push_back(mark - offsets[i]);
    low = mark;
  }
  for (double step = finest; at.back() < wall; step *= growth)
    at.push_back(at.back() + step);
  return at;
}

std::vector<double> steps_between(const std::vector<double>& at)
{
  std::vector<double> steps;
  for (std::size_t i = 1; i < at.size(); ++i)
    steps.push_back(at[i] - at[i - 1]);
  return steps;
}

} // namespace

void draw(const Task& task, Triangulation<2>& mesh)
{
  const double a = task.rod_diameter / 2, finest = task.finest * (task.coil_outer / 2 - a);
  const double wall = task.wall * task.rod_length;
  std::vector<double> s =
      lines({a, task.coil_inner / 2, task.coil_outer / 2}, finest, task.growth, wall);
  for (double& r : s)
    r *= r;
  std::vector<double> ends{task.coil_length / 2, task.rod_length / 2};
  std::sort(ends.begin(), ends.end());
  ends.erase(std::unique(ends.begin(), ends.end()), ends.end());
  std::vector<double> z = lines(ends, finest, task.growth, wall);
  if (task.half == 0)
    for (std::size_t i = 1; i < z.size(); i += 2)
      z.insert(z.begin(), -z[i]);
  dealii::GridGenerator::subdivided_hyper_rectangle(mesh, {steps_between(s), steps_between(z)},
                                                    Point<2>(0, z.front()),
                                                    Point<2>(s.back(), z.back()),
                                                    true); // sides: 0 axis, 1 wall, 2 below, 3 wall
  const auto on_edge = [&](const Point<2>& p)
  {
    return std::abs(p[0] / (a * a) - 1) + std::abs(2 * std::abs(p[1]) / task.rod_length - 1) < 1e-9;
  };
  for (int split = 0; split < task.grading; ++split)
  {
    for (const auto& cell : mesh.active_cell_iterators())
      for (const unsigned v : cell->vertex_indices())
        if (on_edge(cell->vertex(v)))
          cell->set_refine_flag();
    mesh.execute_coarsening_and_refinement();
  }
}
