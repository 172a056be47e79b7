// The peer's starting mesh: graded coarse lines, split towards the rod's edges.
#pragma once

#include "task.hpp"

#include <deal.II/grid/tria.h>

/// @brief Draws quadrilaterals in (s, z), s = r^2 [m^2, m]; sides: 0 axis, 1 wall, 2 below, 3 wall.
void draw(const Task& task, dealii::Triangulation<2>& mesh);
