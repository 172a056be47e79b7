// Mutual inductance of the first winding with each other one, both taken as one circle.
#include "post/formula_families.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace post
{
namespace
{

/// (M1 + ... + M8 - 2 M0)/6: from the middle of each side of one section to the middle of the other
/// section, both ways, and M0 between the middles. Exact to the second order in the sections.
double nine_circles(const CoilShape& a, const CoilShape& b)
{
  const double z = b.centre - a.centre;
  const double p = a.diameter / 2.0;
  const double q = b.diameter / 2.0;
  double sum = -2.0 * coaxial_circles(p, q, z);
  for (const double half : {-0.5, 0.5})
  {
    sum += coaxial_circles(p + half * a.thickness, q, z);
    sum += coaxial_circles(p, q + half * b.thickness, z);
    sum += coaxial_circles(p, q, z + half * a.length);
    sum += coaxial_circles(p, q, z + half * b.length);
  }
  return a.turns * b.turns * sum / 6.0;
}

} // namespace

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
    const Condition air{scene.magnetic.empty(), "counts no magnetic part"};
    list.push_back(formula(
        {fmt::format("mutual with {}, circles", other.name), "[Maxwell 1873, art. 701]",
         "10 % for sections below half their distance", Estimates::mutual_inductance, other.name},
        a.turns * b.turns * coaxial_circles(a.diameter / 2.0, b.diameter / 2.0, z),
        {air, {size <= 0.5 * distance, "for sections below half their distance"}}));
    list.push_back(formula(
        {fmt::format("mutual with {}, nine circles", other.name),
         "Rayleigh's quadrature [Maxwell 1873, art. 706], from memory",
         "5 % for sections below their distance", Estimates::mutual_inductance, other.name},
        nine_circles(a, b), {air, {size <= distance, "for sections below their distance"}}));
  }
  return list;
}

} // namespace post
