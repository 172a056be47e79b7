// Panels and kernels of rod_surface.hpp.
#include "reference/rod_surface.hpp"

#include <algorithm>
#include <cmath>

namespace reference
{
namespace
{

void add_nodes(RodSurface& surface, const std::vector<Stretch>& panels, bool on_face)
{
  for (const Stretch& panel : panels)
  {
    const double half = (panel.to - panel.from) / 2.0;
    for (int i = 0; i < surface.rule.node.size(); ++i)
    {
      const double along = panel.from + half * (1.0 + surface.rule.node[i]);
      surface.nodes.push_back(
          {on_face, on_face ? along : 0.0, on_face ? 0.0 : along, half * surface.rule.weight[i]});
    }
  }
}

/// Field at `target` that counts there, by a circle of unit density at `source` or its mirror
/// image.
double kernel(const RodSurface& surface, Bound bound, const SurfaceNode& target,
              const SurfaceNode& source, bool mirrored)
{
  if (target.on_face && source.on_face && !mirrored)
  {
    return 0.0; // a plane's sources make no mean field across (charge) or along it (current)
  }
  const double up =
      mirrored ? 2.0 * surface.half_length - target.down - source.down : source.down - target.down;
  const Sight sight{1.0 - source.inward, 1.0 - target.inward, source.inward - target.inward, up};
  if (bound == Bound::charge)
  {
    const Field F = charged_circle(sight);
    return target.on_face ? F.z : F.r;
  }
  const Field H = current_circle(sight);
  return target.on_face ? -H.r : H.z;
}

/// The kernel between points of the side, the same for both bounds: (K - E) / (2 pi D).
double side_kernel(double distance)
{
  return current_circle({1.0, 1.0, 0.0, distance}).z;
}

/// Weights of the side's panel at a target on the side, where it is too near for its own nodes.
Eigen::VectorXd near_weights(const RodSurface& surface, const SurfaceNode& target,
                             const Stretch& panel, bool mirrored)
{
  if (!mirrored)
  {
    return singular_weights(surface.rule, {panel.from - target.down, panel.to - target.down},
                            side_kernel);
  }
  const double image = 2.0 * surface.half_length - target.down;
  return singular_weights(surface.rule, {image - panel.to, image - panel.from}, side_kernel)
      .reverse();
}

bool is_near(const RodSurface& surface, const SurfaceNode& target, const Stretch& panel,
             bool mirrored)
{
  const double at = mirrored ? 2.0 * surface.half_length - target.down : target.down;
  const double distance = std::max({0.0, panel.from - at, at - panel.to});
  return !target.on_face && distance < panel.to - panel.from;
}

} // namespace

RodSurface::RodSurface(double half, const std::vector<Field>& loops, const Fineness& fineness)
    : half_length(half), rule(fineness.nodes)
{
  constexpr double longest = 0.7; // of the radius, on which circles' fields vary
  side = graded(half, fineness.levels,
                [&](const Stretch& s)
                {
                  const auto distance = [&](const Field& loop)
                  {
                    const double down = half - std::abs(loop.z);
                    return std::hypot(loop.r, std::max({0.0, s.from - down, down - s.to}));
                  };
                  double limit = longest;
                  for (const Field& loop : loops)
                  {
                    limit = std::min(limit, distance(loop));
                  }
                  return s.to - s.from > limit;
                });
  face = graded(1.0, fineness.levels, [](const Stretch& s) { return s.to - s.from > longest; });
  add_nodes(*this, side, false);
  add_nodes(*this, face, true);
}

Coupling coupling(const RodSurface& surface, Bound bound)
{
  const int count = static_cast<int>(surface.nodes.size());
  const int order = static_cast<int>(surface.rule.node.size());
  const int sides = static_cast<int>(surface.side.size());
  Coupling result{Eigen::MatrixXd(count, count), Eigen::MatrixXd(count, count)};
  for (const bool mirrored : {false, true})
  {
    Eigen::MatrixXd& matrix = mirrored ? result.mirrored : result.direct;
    for (int panel = 0; panel * order < count; ++panel)
    {
      for (int i = 0; i < count; ++i)
      {
        const SurfaceNode& target = surface.nodes[i];
        if (panel < sides && is_near(surface, target, surface.side[panel], mirrored))
        {
          matrix.row(i).segment(panel * order, order) =
              near_weights(surface, target, surface.side[panel], mirrored);
          continue;
        }
        for (int j = panel * order; j < (panel + 1) * order; ++j)
        {
          const SurfaceNode& source = surface.nodes[j];
          matrix(i, j) = source.weight * kernel(surface, bound, target, source, mirrored);
        }
      }
    }
  }
  return result;
}

} // namespace reference
