// Marks turned into bisections and gradings on one growing mesh, folds mended at the end.
#include "mesh/refine.hpp"

#include "mesh/refinement.hpp"

#include <algorithm>
#include <utility>

namespace mesh
{

namespace
{

std::vector<std::vector<int>> triangles_around(const Mesh& mesh, const std::vector<int>& wanted)
{
  std::vector<int> slot(mesh.vertices.size(), -1);
  for (std::size_t i = 0; i < wanted.size(); ++i)
    slot[wanted[i]] = static_cast<int>(i);
  std::vector<std::vector<int>> around(wanted.size());
  for (std::size_t k = 0; k < mesh.triangles.size(); ++k)
    for (const int v : mesh.triangles[k].vertices)
      if (slot[v] >= 0)
        around[slot[v]].push_back(static_cast<int>(k));
  return around;
}

void grade_all(Refinement& work, std::vector<int> vertices)
{
  // A triangle between two corners can be graded to one of them only after the other is done.
  while (!vertices.empty())
  {
    const auto around = triangles_around(work.mesh(), vertices);
    std::vector<bool> taken(work.mesh().triangles.size(), false);
    std::vector<int> later;
    for (std::size_t i = 0; i < vertices.size(); ++i)
    {
      // Mending folds changes triangles beside: where anything is bent, one corner at a time.
      const bool stale = i > 0 && !work.mesh().curved.empty();
      if (stale || std::any_of(around[i].begin(), around[i].end(), [&](int k) { return taken[k]; }))
      {
        later.push_back(vertices[i]);
        continue;
      }
      for (const int k : around[i])
        taken[k] = true;
      work.grade(vertices[i], around[i]);
    }
    vertices = std::move(later);
  }
}

} // namespace

Mesh refined(const Mesh& mesh, const Marks& marks)
{
  Refinement work(mesh);
  const auto graded = [&](const Triangle& t)
  {
    return std::any_of(t.vertices.begin(), t.vertices.end(),
                       [&](int v) { return marks.layers[v] > 0; });
  };
  std::vector<int> halvings = marks.halvings;
  for (std::size_t k = 0; k < halvings.size(); ++k)
    if (graded(mesh.triangles[k]))
      halvings[k] = 0;
  const int most = halvings.empty() ? 0 : *std::ranges::max_element(halvings);
  // What others' bisections or mending halve on their way counts too.
  for (int done = 0; done < most; ++done)
    for (std::size_t k = 0; k < work.mesh().triangles.size(); ++k)
      if (work.halved(k) < std::min(done + 1, halvings[work.origin(k)]))
        work.bisect(static_cast<int>(k));
  for (int layer = 0;; ++layer)
  {
    std::vector<int> corners;
    for (std::size_t v = 0; v < marks.layers.size(); ++v)
      if (marks.layers[v] > layer)
        corners.push_back(static_cast<int>(v));
    if (corners.empty())
      break;
    grade_all(work, corners);
  }
  return std::move(work).finished();
}

} // namespace mesh
