// The scene as curves: every body's outline with the region it belongs to, every conductor section.
//
// Second station: Scene -> Layout. The mesher reads only this; post/ draws from it.
#pragma once

#include "mesh/clashes.hpp"
#include "mesh/outline.hpp"

#include <string>
#include <variant>
#include <vector>

namespace mesh
{

/// @brief A named region of one material; region 0 is "air" and fills what nothing else does.
///
/// Where outlines nest, the innermost wins; an outline in region 0 is an air pocket.
struct Region
{
  std::string name;
  std::string material;
  std::vector<Outline> outlines;
};

/// @brief Rectangular section of uniform current density [m].
struct BlockSection
{
  double r_inner = 0.0;
  double r_outer = 0.0;
  double z_low = 0.0;
  double z_high = 0.0;
};
/// @brief Endlessly thin section at radius r [m].
struct SheetSection
{
  double r = 0.0;
  double z_low = 0.0;
  double z_high = 0.0;
};
/// @brief One round turn [m].
struct RoundSection
{
  Point centre;
  double radius = 0.0;
  Strand strand = Strand::fine;
};

/// @brief A section that carries `turns` times the current of its winding.
struct Conductor
{
  int winding = 0;    ///< Index into Scene::windings.
  double turns = 1.0; ///< Ampere-turns at 1 A; below 1 each for turns in parallel.
  std::variant<BlockSection, SheetSection, RoundSection> section;
};

struct Layout
{
  std::vector<Region> regions; ///< regions[0] is air.
  std::vector<Conductor> conductors;
};

/// @brief Outlines and sections of a scene whose shapes are valid and do not overlap.
///
/// Air, each part and its coating, then the windings' coatings. Air pockets: hollows closed by a
/// coating, the discs of coated wires, and sections that lie in a part or coating.
Layout layout(const Scene& scene);
/// @brief The same with the insulation of turns drawn, as region `name.insulation`, for fields it
///        counts in.
Layout insulated_layout(const Scene& scene);
/// @brief The closed boundary of a part [m].
Outline outline(const Part& part);
/// @brief Boundary of what a conductor's section fills; a sheet has none (empty).
Outline outline(const Conductor& conductor);
/// @brief Centres of a winding's turns, inner layer first, low z first.
///
/// Inner layers hold turns / layers rounded up, the outermost the rest, centred (10 in 3: 4, 4, 2).
/// Where that leaves none, the first layers hold one more than the others (4 in 3: 2, 1, 1).
std::vector<Point> turn_centres(const Winding& winding);
/// @brief Wire diameter plus insulation and coating on both sides [m].
double full_diameter(const RoundTurns& turns);

} // namespace mesh
