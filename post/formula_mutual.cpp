// Mutual inductance of the first winding with each other one, both taken as one circle.
#include "post/formula_families.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace post
{

std::vector<FormulaResult> mutual_formulas(const FormulaScene& scene)
{
  std::vector<FormulaResult> list;
  for (const mesh::Winding& other : scene.problem.scene.windings)
  {
    if (&other == scene.winding)
    {
      continue;
    }
    const CoilShape a = scene.coil;
    const CoilShape b = coil_shape(other);
    const double z = b.centre - a.centre;
    const double distance = std::hypot((a.diameter - b.diameter) / 2.0, z);
    if (distance == 0.0)
    {
      continue; // one circle twice has no mutual inductance
    }
    const double size = std::max({a.length, a.thickness, b.length, b.thickness});
    const double M = a.turns * b.turns * coaxial_circles(a.diameter / 2.0, b.diameter / 2.0, z);
    list.push_back(formula(
        {fmt::format("mutual with {}, circles", other.name), "[Maxwell 1873, art. 701]",
         "10 % for sections below half their distance", Estimates::mutual_inductance, other.name},
        M,
        {{scene.magnetic.empty(), "counts no magnetic part"},
         {size <= 0.5 * distance, "for sections below half their distance"}}));
  }
  return list;
}

} // namespace post
