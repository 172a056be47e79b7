// The lines a mesh must follow: outlines and sections cut at their meeting points and into pieces
// short enough for what lies beside them.
//
// Third station: Layout -> Skeleton -> Mesh. Knows lengths and distances, no field.
#pragma once

#include "mesh/layout.hpp"
#include "mesh/mesh.hpp"

#include <vector>

namespace mesh
{

/// @brief One mesh edge to be kept: node indices, and the curve it follows (-1: straight).
struct Segment
{
  int a = 0;
  int b = 0;
  int curve = -1;
  int sheet = -1; ///< Conductor index where it lies on a current sheet.
};

struct Skeleton
{
  std::vector<Point> nodes;
  std::vector<Corner> corner;   ///< One a node.
  std::vector<Segment> kept;    ///< Interfaces, section boundaries, sheets.
  std::vector<Segment> outline; ///< Axis, box and mirror, counter-clockwise from (0, low).
  std::vector<Curve> curves;
  Box box;
};

/// @brief How much of a scene to mesh.
enum class Portion
{
  whole,
  half_if_mirrored ///< What lies above the middle plane, where the scene is its own image there.
};

/// @brief Cuts the layout's curves into mesh edges.
/// @param slimness  Longest segment over the distance to what lies beside it: thin clearances get
///                  long triangles, refined later only if the field needs it.
/// @param crowded  Middles of bent segments to be halved although the clearances allow them.
/// @throws std::invalid_argument for a layout without any curve.
Skeleton skeleton(const Layout& layout, double slimness, const std::vector<Point>& crowded,
                  Portion portion = Portion::whole);

} // namespace mesh
