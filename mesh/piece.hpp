// Geometry of one straight or circular piece: points on it, distance to it, where two of them meet.
//
// The kernel under outlines, offsets and relations; knows nothing of bodies.
#pragma once

#include "mesh/outline.hpp"

#include <vector>

namespace mesh
{

inline Point operator+(Point a, Point b)
{
  return {a.r + b.r, a.z + b.z};
}
inline Point operator-(Point a, Point b)
{
  return {a.r - b.r, a.z - b.z};
}
inline Point operator*(double s, Point a)
{
  return {s * a.r, s * a.z};
}
inline double dot(Point a, Point b)
{
  return a.r * b.r + a.z * b.z;
}
/// @brief Positive where b points to the left of a.
inline double cross(Point a, Point b)
{
  return a.r * b.z - a.z * b.r;
}
double distance(Point a, Point b);

/// @brief The arc about `centre`, with end points that belong to its angles.
Piece arc_piece(Point centre, double radius, double from, double to);
/// @brief Point at parameter t in [0, 1], even in length.
Point point_at(const Piece& piece, double t);
/// @brief Unit tangent at parameter t, in the sense of travel.
Point direction_at(const Piece& piece, double t);
double length(const Piece& piece);
/// @brief Parameter of the point of the piece nearest to `point`.
double nearest_parameter(const Piece& piece, Point point);
double distance(const Piece& piece, Point point);
/// @brief The stretch between parameters t0 < t1; the piece's own end points stay bit for bit.
Piece stretch(const Piece& piece, double t0, double t1);
Piece reversed(const Piece& piece);
Outline reversed(const Outline& outline);
Extent extent(const Piece& piece);
/// @brief Distance of a point from the box, 0 inside: a cheap lower bound for what the box holds.
double distance(const Extent& box, Point point);
/// @brief Whether the two boxes come nearer than `margin`.
bool near(const Extent& a, const Extent& b, double margin);

/// @brief Where two pieces cross or touch, to `tolerance` [m]; of a common stretch its ends.
std::vector<Point> meeting_points(const Piece& a, const Piece& b, double tolerance);
/// @brief The piece cut at the given points of it; nothing shorter than `tolerance` is cut off.
std::vector<Piece> cut(const Piece& piece, const std::vector<Point>& at, double tolerance);

/// @brief Shortest way from a point to the boundary [m].
double distance(const Outline& outline, Point point);
/// @brief Whether the point lies inside; undefined on the boundary itself. Arcs of up to half a
/// turn.
bool encloses(const Outline& outline, Point point);
/// @brief Area with sign: positive where the chain runs counter-clockwise [m^2].
double signed_area(const Outline& outline);

} // namespace mesh
