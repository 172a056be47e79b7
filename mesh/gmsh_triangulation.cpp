// The only file that speaks to Gmsh: segments in, triangles out, coordinates scaled to the box.
#include "mesh/triangulation.hpp"

#include "mesh/piece.hpp"
#include "mesh/size_field.hpp"

#include <gmsh.h>

#include <algorithm>
#include <mutex>
#include <stdexcept>
#include <string>
#include <unordered_map>

namespace mesh
{

namespace
{

/// How fast triangles may grow away from a segment, per distance.
constexpr double growth = 1.5;

/// Starts Gmsh for one meshing and ends it, whatever happens between.
class GmshSession
{
public:
  GmshSession() : _alone(guard())
  {
    gmsh::initialize(0, nullptr, false);
    gmsh::option::setNumber("General.Terminal", 0);
    // The default 1e-9 makes zero-area triangles beside strongly graded points; 0 is refused.
    gmsh::option::setNumber("Mesh.RandomFactor", 1e-13);
    gmsh::option::setNumber("Mesh.Algorithm", 5);
    gmsh::option::setNumber("Mesh.MeshSizeExtendFromBoundary", 0);
    gmsh::option::setNumber("Mesh.MeshSizeFromPoints", 0);
    gmsh::option::setNumber("General.NumThreads", 1);
    gmsh::model::add("half-plane");
  }
  ~GmshSession() { gmsh::finalize(); }
  GmshSession(const GmshSession&) = delete;
  GmshSession& operator=(const GmshSession&) = delete;

private:
  static std::mutex& guard()
  {
    static std::mutex one;
    return one;
  }
  std::lock_guard<std::mutex> _alone; // Gmsh has one global state
};

/// Wanted size at each node: the longest segment there.
std::vector<double> sizes(const Skeleton& skeleton)
{
  std::vector<double> size(skeleton.nodes.size(), 0.0);
  for (const auto* list : {&skeleton.kept, &skeleton.outline})
    for (const Segment& s : *list)
    {
      const double l = distance(skeleton.nodes[s.a], skeleton.nodes[s.b]);
      size[s.a] = std::max(size[s.a], l);
      size[s.b] = std::max(size[s.b], l);
    }
  return size;
}

std::vector<int> add_lines(const std::vector<Segment>& segments)
{
  std::vector<int> lines;
  for (const Segment& s : segments)
  {
    lines.push_back(gmsh::model::geo::addLine(s.a + 1, s.b + 1));
    gmsh::model::geo::mesh::setTransfiniteCurve(lines.back(), 2);
  }
  return lines;
}

Triangulation read_back(const Skeleton& skeleton, double scale)
{
  Triangulation made{skeleton.nodes, {}};
  std::vector<std::size_t> tags, elements, corners;
  std::vector<double> x, ignored;
  std::unordered_map<std::size_t, int> index;
  for (std::size_t n = 0; n < skeleton.nodes.size(); ++n)
  {
    gmsh::model::mesh::getNodes(tags, x, ignored, 0, static_cast<int>(n) + 1);
    index[tags.at(0)] = static_cast<int>(n);
  }
  gmsh::model::mesh::getNodes(tags, x, ignored, 2, 1);
  for (std::size_t i = 0; i < tags.size(); ++i)
  {
    index[tags[i]] = static_cast<int>(made.points.size());
    made.points.push_back({x[3 * i] * scale, x[3 * i + 1] * scale});
  }
  gmsh::model::mesh::getElementsByType(2, elements, corners);
  for (std::size_t i = 0; i + 2 < corners.size(); i += 3)
    made.triangles.push_back(
        {index.at(corners[i]), index.at(corners[i + 1]), index.at(corners[i + 2])});
  return made;
}

} // namespace

Triangulation triangulation(const Skeleton& skeleton)
try
{
  const GmshSession session;
  const double scale = skeleton.box.radius;
  const std::vector<double> size = sizes(skeleton);
  for (std::size_t n = 0; n < skeleton.nodes.size(); ++n)
    gmsh::model::geo::addPoint(skeleton.nodes[n].r / scale, skeleton.nodes[n].z / scale, 0.0,
                               size[n] / scale, static_cast<int>(n) + 1);
  const std::vector<int> kept = add_lines(skeleton.kept);
  const std::vector<int> outline = add_lines(skeleton.outline);
  gmsh::model::geo::addPlaneSurface({gmsh::model::geo::addCurveLoop(outline)}, 1);
  gmsh::model::geo::synchronize();
  gmsh::model::mesh::embed(1, kept, 2, 1);
  const SizeField wanted(skeleton.nodes, size, growth);
  gmsh::model::mesh::setSizeCallback(
      [&](int, int, double x, double y, double) {
        return std::min(2.0, wanted.at({x * scale, y * scale}) / scale);
      });
  gmsh::model::mesh::generate(2);
  return read_back(skeleton, scale);
}
catch (const std::string& error)
{
  throw std::runtime_error("the mesh generator failed: " + error);
}

} // namespace mesh
