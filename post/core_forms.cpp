// The closed forms of closed and gapped cores; each equation stands with its source in the header.
#include "post/core_forms.hpp"

#include "solver/problem.hpp"

#include <cmath>
#include <numbers>

namespace post
{
namespace
{

using solver::mu0;
using std::numbers::pi;

CoreConstants from_sums(double C1, double C2)
{
  return {C1, C2, C1 * C1 / C2, C1 / C2, C1 * C1 * C1 / (C2 * C2)};
}

} // namespace

CoreConstants core_constants(std::span<const CorePiece> pieces)
{
  double C1 = 0.0;
  double C2 = 0.0;
  for (const CorePiece& piece : pieces)
  {
    C1 += piece.length / piece.area;
    C2 += piece.length / (piece.area * piece.area);
  }
  return from_sums(C1, C2);
}

CorePiece corner_piece(double p, double h, double area_p, double area_h)
{
  return {pi * (p + h) / 8.0, 0.5 * (area_p + area_h)};
}

CoreConstants toroid_constants(double outer_diameter, double inner_diameter, double height)
{
  const double L = std::log(outer_diameter / inner_diameter);
  const double curve = 1.0 / inner_diameter - 1.0 / outer_diameter;
  return from_sums(2.0 * pi / (height * L), 4.0 * pi * curve / (height * height * L * L * L));
}

double core_inductance(const CoreConstants& core, double permeability, double turns)
{
  return mu0 * permeability * turns * turns / core.C1;
}

double toroid_inductance(double outer_diameter, double inner_diameter, double height,
                         double permeability, double turns)
{
  return core_inductance(toroid_constants(outer_diameter, inner_diameter, height), permeability,
                         turns);
}

double gapped_permeability(double permeability, double path, double gap, double fringing)
{
  return permeability / (1.0 + permeability * gap / (fringing * path));
}

double mclyman_fringing(double gap, double area, double winding_length)
{
  return 1.0 + gap / std::sqrt(area) * std::log(2.0 * winding_length / gap);
}

double grown_pole_fringing(double gap, double diameter)
{
  return (1.0 + gap / diameter) * (1.0 + gap / diameter);
}

double corner_fringing(double gap, double diameter, double height)
{
  return 1.0 + 4.0 * gap / (pi * diameter) * (1.0 + std::log(pi * height / (2.0 * gap)));
}

double roters_fringing(double gap, double diameter, double height)
{
  return 1.0 + 4.0 * gap / diameter * (0.26 + std::log(1.0 + 2.0 * height / gap) / pi);
}

} // namespace post
