// A breadth-first tree over triangles, rooted at the axis or the box; currents add up from the
// leaves.
#include "solver/circulation.hpp"

#include "solver/quadrature.hpp"
#include "solver/section_field.hpp"

#include <algorithm>
#include <cmath>

namespace solver
{

namespace
{

/// The tree: each triangle's way out, and the order in which the tree was grown.
struct Tree
{
  std::vector<int> exit_edge;            ///< Local edge a triangle's current leaves by.
  std::vector<int> order;                ///< Root first.
  std::vector<std::array<int, 2>> sides; ///< Triangles at each global edge, -1 where none.
};

/// Where the tree is rooted: at every edge on the axis, or at the first one of the box.
enum class Root
{
  axis,
  box
};

bool is_root(const Space& space, Root root, int a, int b)
{
  if (root == Root::box)
    return mesh::edge(a, b) == space.mesh.outer.front();
  return mesh::on_axis(space.mesh.vertices[a]) && mesh::on_axis(space.mesh.vertices[b]);
}

Tree tree(const Space& space, Root root)
{
  const auto& triangles = space.mesh.triangles;
  Tree made;
  made.sides.assign(space.edge_count, {-1, -1});
  for (std::size_t k = 0; k < triangles.size(); ++k)
    for (const int e : space.triangle_edges[k])
      made.sides[e][made.sides[e][0] < 0 ? 0 : 1] = static_cast<int>(k);
  made.exit_edge.assign(triangles.size(), -1);
  const auto reach = [&](int k, int local)
  {
    if (made.exit_edge[k] >= 0)
      return;
    made.exit_edge[k] = local;
    made.order.push_back(k);
  };
  for (std::size_t k = 0; k < triangles.size(); ++k)
    for (int i = 0; i < 3; ++i)
      if (is_root(space, root, triangles[k].vertices[i], triangles[k].vertices[(i + 1) % 3]))
        reach(static_cast<int>(k), i);
  for (std::size_t head = 0; head < made.order.size(); ++head)
  {
    const int k = made.order[head];
    for (const int e : space.triangle_edges[k])
      for (const int other : made.sides[e])
        if (other >= 0 && other != k)
        {
          const auto& own = space.triangle_edges[other];
          reach(other, static_cast<int>(std::find(own.begin(), own.end(), e) - own.begin()));
        }
  }
  return made;
}

/// Line integral of the section field along a local edge, from its first vertex to its second [A].
double section_circulation(const mesh::ElementMap& map, int local, const mesh::Conductor& conductor,
                           double ampere_turns)
{
  const Eigen::Vector2d &a = map.corners[local], &b = map.corners[(local + 1) % 3];
  if (const auto* block = std::get_if<mesh::BlockSection>(&conductor.section))
  {
    // int (r_outer - sqrt s) dz along a straight (s, z) edge, in closed form.
    const double p = std::sqrt(a[0]), q = std::sqrt(b[0]);
    const double mean_r = 2.0 / 3.0 * (b[0] + p * q + a[0]) / (p + q);
    const double J = current_density(conductor, ampere_turns, b[0], b[1]);
    return J * (block->r_outer - mean_r) * (b[1] - a[1]);
  }
  const LineRule& rule = line_rule(24);
  double sum = 0.0;
  for (std::size_t i = 0; i < rule.points.size(); ++i)
  {
    const mesh::EdgePlace x = mesh::edge_place(map, local, rule.points[i]);
    sum += rule.weights[i] *
           section_field(conductor, ampere_turns, x.point[0], x.point[1]).dot(x.tangent);
  }
  return sum;
}

double sheet_current(const mesh::Conductor& conductor, double ampere_turns, const mesh::Vertex& a,
                     const mesh::Vertex& b)
{
  const auto& sheet = std::get<mesh::SheetSection>(conductor.section);
  return ampere_turns * std::abs(a.z - b.z) / (sheet.z_high - sheet.z_low);
}

/// Per triangle and local edge, counter-clockwise: the section field's own circulation, with the
/// sheet current of an edge charged to the first triangle beside it.
struct Own
{
  std::vector<Eigen::Vector3d> section;
  std::vector<Eigen::Vector3d> sheet;
};

Own own_circulations(const Space& space, const Tree& grown, const mesh::Layout& layout,
                     std::span<const double> ampere_turns)
{
  const auto& triangles = space.mesh.triangles;
  Own own{std::vector<Eigen::Vector3d>(triangles.size(), Eigen::Vector3d::Zero()), {}};
  own.sheet = own.section;
  for (std::size_t k = 0; k < triangles.size(); ++k)
  {
    const mesh::Triangle& t = triangles[k];
    const bool carries = t.conductor >= 0 && ampere_turns[t.conductor] != 0.0;
    if (!carries && space.mesh.sheets.empty())
      continue;
    const mesh::ElementMap map = mesh::element_map(space.mesh, space.bends, static_cast<int>(k));
    for (int i = 0; i < 3; ++i)
    {
      if (carries)
        own.section[k][i] =
            section_circulation(map, i, layout.conductors[t.conductor], ampere_turns[t.conductor]);
      const mesh::Edge e = mesh::edge(t.vertices[i], t.vertices[(i + 1) % 3]);
      const auto found = space.mesh.sheets.find(e);
      if (found != space.mesh.sheets.end() &&
          grown.sides[space.triangle_edges[k][i]][0] == static_cast<int>(k))
        own.sheet[k][i] =
            sheet_current(layout.conductors[found->second], ampere_turns[found->second],
                          space.mesh.vertices[e.a], space.mesh.vertices[e.b]);
    }
  }
  return own;
}

/// Offsets in each triangle from its own circulations, carried out along the tree.
/// @param sheet  Sheet current of each edge charged to a triangle; empty where there are none.
template <class Scalar>
std::vector<Eigen::Matrix<Scalar, 3, 1>>
carried(const Space& space, const Tree& grown, std::span<const Eigen::Matrix<Scalar, 3, 1>> section,
        std::span<const Eigen::Matrix<Scalar, 3, 1>> sheet)
{
  using Triple = Eigen::Matrix<Scalar, 3, 1>;
  const Triple none = Triple::Zero();
  // Current of a triangle: minus the counter-clockwise circulation, since J = dH_r/dz - dH_z/dr.
  std::vector<Scalar> current(section.size());
  for (std::size_t k = 0; k < section.size(); ++k)
    current[k] = -section[k].sum() + (sheet.empty() ? none : sheet[k]).sum();
  std::vector<Scalar> through(space.edge_count, Scalar{0}); // outflow of what exits there
  for (auto it = grown.order.rbegin(); it != grown.order.rend(); ++it)
  {
    const int e = space.triangle_edges[*it][grown.exit_edge[*it]];
    through[e] = current[*it];
    for (const int parent : grown.sides[e])
      if (parent >= 0 && parent != *it)
        current[parent] += current[*it];
  }
  std::vector<Triple> offset(section.size());
  for (std::size_t k = 0; k < section.size(); ++k)
  {
    Triple step; // offset difference along each local edge
    for (int i = 0; i < 3; ++i)
    {
      const Scalar out = through[space.triangle_edges[k][i]];
      const Scalar circulation =
          (i == grown.exit_edge[k] ? -out : out) + (sheet.empty() ? none : sheet[k])[i];
      step[i] = section[k][i] - circulation;
    }
    offset[k] = {Scalar{0}, step[0], step[0] + step[1]};
  }
  return offset;
}

} // namespace

std::vector<Eigen::Vector3d> current_offsets(const Space& space, const mesh::Layout& layout,
                                             std::span<const double> ampere_turns)
{
  const Tree grown = tree(space, Root::axis);
  const Own own = own_circulations(space, grown, layout, ampere_turns);
  return carried<double>(space, grown, own.section, own.sheet);
}

std::vector<Eigen::Vector3cd> eddy_offsets(const Space& space,
                                           std::span<const Eigen::Vector3cd> circulation)
{
  return carried<std::complex<double>>(space, tree(space, Root::axis), circulation, {});
}

std::vector<Eigen::Vector3d> flux_offsets(const Space& space, std::span<const Eigen::Vector3d> step)
{
  return carried<double>(space, tree(space, Root::box), step, {});
}

} // namespace solver
