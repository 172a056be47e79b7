// Cuts the first segments at a tip at one distance and joins the cuts.
#include "mesh/tips.hpp"

#include "mesh/piece.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace mesh
{

namespace
{

struct Ray
{
  Segment* segment = nullptr;
  int far = 0;        ///< Node at its other end.
  double angle = 0.0; ///< From the axis.
};

int far_end(const Segment& s, int tip)
{
  return s.a == tip ? s.b : s.a;
}

/// The axis segment and the slopes that leave a tip upwards (sense 1) or downwards (-1), by angle.
std::vector<Ray> rays(Skeleton& skeleton, int tip, double sense)
{
  std::vector<Ray> found;
  for (auto* list : {&skeleton.outline, &skeleton.kept})
    for (Segment& s : *list)
    {
      if (s.a != tip && s.b != tip)
        continue;
      const Point way = skeleton.nodes[far_end(s, tip)] - skeleton.nodes[tip];
      const bool slope = s.curve >= 0 && skeleton.curves[s.curve].kind == Curve::Kind::slope;
      if (sense * way.z > 0.0 && (way.r == 0.0 || slope))
        found.push_back({&s, far_end(s, tip), std::atan2(way.r, sense * way.z)});
    }
  std::sort(found.begin(), found.end(),
            [](const Ray& a, const Ray& b) { return a.angle < b.angle; });
  return found;
}

void tie(Skeleton& skeleton, int tip, double sense)
{
  std::vector<Ray> list = rays(skeleton, tip, sense);
  if (list.size() < 2 || list.front().angle != 0.0)
    return;
  double reach = std::numeric_limits<double>::infinity();
  for (const Ray& ray : list)
    reach = std::min(reach, 0.5 * distance(skeleton.nodes[tip], skeleton.nodes[ray.far]));
  std::vector<Segment> more_axis, more_kept;
  int before = -1;
  for (const Ray& ray : list)
  {
    const Point start = skeleton.nodes[tip], way = skeleton.nodes[ray.far] - start;
    const int cut = static_cast<int>(skeleton.nodes.size());
    skeleton.nodes.push_back(start + reach / distance(start, skeleton.nodes[ray.far]) * way);
    skeleton.corner.push_back(Corner::none);
    Segment rest = *ray.segment;
    (ray.segment->a == tip ? ray.segment->b : ray.segment->a) = cut;
    (rest.a == tip ? rest.a : rest.b) = cut;
    (ray.angle == 0.0 ? more_axis : more_kept).push_back(rest);
    if (before >= 0)
      more_kept.push_back({before, cut, -1, -1});
    before = cut;
  }
  // The outline stays a chain: the rest of the axis segment follows or precedes its first part.
  for (const Segment& rest : more_axis)
  {
    const auto part =
        std::find_if(skeleton.outline.begin(), skeleton.outline.end(),
                     [&](const Segment& s) { return s.b == rest.a || s.a == rest.b; });
    skeleton.outline.insert(part->b == rest.a ? part + 1 : part, rest);
  }
  skeleton.kept.insert(skeleton.kept.end(), more_kept.begin(), more_kept.end());
  skeleton.corner[tip] = Corner::touch;
}

} // namespace

void tie_tips(Skeleton& skeleton)
{
  const int nodes = static_cast<int>(skeleton.nodes.size());
  for (int n = 0; n < nodes; ++n)
    if (skeleton.nodes[n].r == 0.0)
      for (const double sense : {1.0, -1.0})
        tie(skeleton, n, sense);
}

} // namespace mesh
