// The half-plane mesh every later stage reads: vertices, triangles, curves, the box's outer edges.
//
// Vertices are kept as (s, z) with s = r^2: triangles are straight in (s, z) unless an edge follows
// a curve. Plain data; built by mesher.hpp, refined into new meshes by refine.hpp.
#pragma once

#include "mesh/scene.hpp"

#include <array>
#include <cmath>
#include <cstdint>
#include <unordered_map>
#include <vector>

namespace mesh
{

/// @brief A vertex: s = r^2 [m^2], z [m].
struct Vertex
{
  double s = 0.0;
  double z = 0.0;
  double r() const { return std::sqrt(s); }
};

/// @brief What a bent edge follows between its two vertices.
///
/// `slope`: a straight line in (r, z), a parabola in (s, z). `arc`: the shorter way round `centre`,
/// its parameter proportional to the angle.
struct Curve
{
  enum class Kind
  {
    slope,
    arc
  };
  Kind kind = Kind::slope;
  Point centre;
  double radius = 0.0;
};

/// @brief Where a field may be singular: bodies turn or meet at an angle, or touch tangentially.
enum class Corner : unsigned char
{
  none,
  angle,
  touch
};

/// @brief Corner indices counter-clockwise; `conductor` is -1 outside every conductor section.
struct Triangle
{
  std::array<int, 3> vertices{};
  int region = 0;
  int conductor = -1;
};

/// @brief An undirected edge, lower vertex index first.
struct Edge
{
  int a = 0;
  int b = 0;
  bool operator==(const Edge&) const = default;
};
inline Edge edge(int i, int j)
{
  return i < j ? Edge{i, j} : Edge{j, i};
}
struct EdgeHash
{
  std::size_t operator()(const Edge& e) const
  {
    return (static_cast<std::uint64_t>(e.a) << 32U | static_cast<std::uint64_t>(e.b)) *
           0x9E3779B97F4A7C15ULL;
  }
};
template <class T> using EdgeMap = std::unordered_map<Edge, T, EdgeHash>;

/// @brief The meshed cylinder 0 <= r <= radius, |z - middle| <= half_height; beyond it the rays.
struct Box
{
  double radius = 0.0;
  double half_height = 0.0;
  double middle = 0.0;
  bool halved = false; ///< Only z >= middle is meshed: the plane there is a mirror.
};

struct Mesh
{
  std::vector<Vertex> vertices;
  std::vector<Corner> corner; ///< One a vertex.
  std::vector<Triangle> triangles;
  EdgeMap<int> curved; ///< Bent edge -> index into `curves`.
  std::vector<Curve> curves;
  EdgeMap<int> sheets;     ///< Edge on a current sheet -> conductor index.
  std::vector<Edge> outer; ///< Edges on the box, not on the axis.
  Box box;
};

/// @brief Whether the vertex lies on the axis, where s is exactly 0.
inline bool on_axis(const Vertex& v)
{
  return v.s == 0.0;
}

/// @brief Whether the vertex lies on the plane at which a halved mesh ends.
inline bool on_mirror(const Box& box, const Vertex& v)
{
  return box.halved && v.z == box.middle;
}

/// @brief Point of an edge at parameter t from vertex a (t = 0) to b (t = 1), along its curve.
Vertex along(const Mesh& mesh, Edge e, double t);

} // namespace mesh
