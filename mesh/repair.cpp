// Finds folded triangles among the bent ones and mends them one by one.
#include "mesh/repair.hpp"

#include "mesh/element_map.hpp"

#include <algorithm>

namespace mesh
{

namespace
{

bool folded_triangle(const Mesh& mesh, int k)
{
  const Triangle& t = mesh.triangles[k];
  const bool bent = mesh.curved.contains(side(t, 0)) || mesh.curved.contains(side(t, 1)) ||
                    mesh.curved.contains(side(t, 2));
  return bent && would_fold(mesh, t.vertices);
}

/// Turns the diagonal if both new triangles are sound.
bool swap_helps(Refinement& work, Edge e)
{
  const Mesh& mesh = work.mesh();
  const std::array<int, 2> pair = work.beside(e);
  if (pair[0] < 0 || pair[1] < 0 || mesh.curved.contains(e) || mesh.sheets.contains(e))
    return false;
  const Triangle &t = mesh.triangles[pair[0]], &u = mesh.triangles[pair[1]];
  if (t.region != u.region || t.conductor != u.conductor)
    return false;
  const auto apex = [&](const Triangle& of)
  {
    return static_cast<int>(std::find_if(of.vertices.begin(), of.vertices.end(),
                                         [&](int x) { return x != e.a && x != e.b; }) -
                            of.vertices.begin());
  };
  const int i = apex(t), across = u.vertices[apex(u)];
  const std::array<int, 3> v{t.vertices[i], t.vertices[(i + 1) % 3], t.vertices[(i + 2) % 3]};
  if (would_fold(mesh, {v[0], v[1], across}) || would_fold(mesh, {v[0], across, v[2]}))
    return false;
  work.swap_diagonal(e);
  return true;
}

void mend(Refinement& work, int k)
{
  const Triangle t = work.mesh().triangles[k];
  for (int i = 0; i < 3; ++i)
    if (swap_helps(work, side(t, i)))
      return;
  for (int i = 0; i < 3; ++i)
    if (work.mesh().curved.contains(side(t, i)))
    {
      work.halve_at(side(t, i));
      return;
    }
}

} // namespace

bool unfold(Refinement& work, std::vector<int> waiting)
{
  if (work.mesh().curved.empty())
    return true;
  const std::size_t most = 60 + 10 * waiting.size();
  for (std::size_t steps = 0; !waiting.empty();)
  {
    const int k = waiting.back();
    waiting.pop_back();
    if (!folded_triangle(work.mesh(), k))
      continue;
    if (++steps > most)
      return false;
    mend(work, k);
    for (const int other : work.fresh())
      waiting.push_back(other);
    waiting.push_back(k);
  }
  return true;
}

bool unfold_fresh(Refinement& work)
{
  return unfold(work, work.fresh());
}

} // namespace mesh
