// Closed boundaries in the half-plane, of straight and circular pieces, and how two of them lie.
//
// Used by layout() to turn a Scene into curves, and by cases/ to find bodies that overlap.
#pragma once

#include "mesh/scene.hpp"

#include <optional>
#include <span>
#include <vector>

namespace mesh
{

/// @brief Part of a circle; `to` < `from` runs clockwise. Angles [rad] from the +r direction.
struct Arc
{
  Point centre;
  double radius = 0.0;
  double from = 0.0;
  double to = 0.0;
};

/// @brief A straight piece, or a circular one where `arc` is set.
struct Piece
{
  Point from;
  Point to;
  std::optional<Arc> arc = std::nullopt;
};

/// @brief A closed chain of pieces, counter-clockwise, along the axis where the body touches it.
using Outline = std::vector<Piece>;

/// @brief Rectangle r_inner <= r <= r_outer, z_low <= z <= z_high [m].
Outline rectangle(double r_inner, double r_outer, double z_low, double z_high);
/// @brief Circle of the given centre and radius [m], in four quarters; at r >= 0 closed along the
/// axis.
Outline circle(Point centre, double radius);
/// @brief Polygon through the points, in either order; returned counter-clockwise.
Outline polygon(std::span<const Point> points);
/// @brief Boundary of all points within `distance` [m] of the body, corners rounded, r >= 0 kept.
/// @return The outer boundary, then each pocket closed within it, all counter-clockwise; a point
///         where the boundary touches the axis or itself is an end of pieces.
std::vector<Outline> offset(const Outline& body, double distance);

/// @brief How outline a lies to outline b.
enum class Relation
{
  apart,      ///< No common inner point; they may touch.
  inside,     ///< a lies in b; they may touch.
  contains,   ///< b lies in a.
  equal,      ///< The same body twice.
  overlapping ///< Partly in, partly out.
};
Relation relation(const Outline& a, const Outline& b);

/// @brief Whether the polygon of points crosses or touches itself.
bool self_intersecting(std::span<const Point> points);
/// @brief Area of the section [m^2], arcs included, positive.
double area(const Outline& outline);
/// @brief Volume of the body of revolution [m^3].
double volume(const Outline& outline);
/// @brief Smallest box around the outline: low and high corner [m].
struct Extent
{
  Point low;
  Point high;
};
Extent extent(const Outline& outline);

} // namespace mesh
