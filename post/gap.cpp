// Air or filler between two flat faces on the axis, found on the mesh, measured in the field.
#include "post/gap.hpp"

#include "mesh/mirror.hpp"
#include "post/core_forms.hpp"
#include "solver/field.hpp"
#include "solver/quadrature.hpp"
#include "solver/solution.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <optional>
#include <span>

namespace post
{

namespace
{

using std::numbers::pi;

/// A core is at least so many times as permeable as what fills its gap.
constexpr double contrast = 10.0;

/// A stretch of the axis in one region.
struct Stretch
{
  double from = 0.0; ///< [m]
  double to = 0.0;
  int region = 0;
};

/// Mesh edges on the axis, from below.
std::vector<Stretch> axis_edges(const mesh::Mesh& mesh)
{
  std::vector<Stretch> edges;
  for (const mesh::Triangle& t : mesh.triangles)
    for (int e = 0; e < 3; ++e)
    {
      const mesh::Vertex& a = mesh.vertices[t.vertices[e]];
      const mesh::Vertex& b = mesh.vertices[t.vertices[(e + 1) % 3]];
      if (mesh::on_axis(a) && mesh::on_axis(b))
        edges.push_back({std::min(a.z, b.z), std::max(a.z, b.z), t.region});
    }
  std::ranges::sort(edges, {}, &Stretch::from);
  return edges;
}

/// Neighbours of one region as one.
std::vector<Stretch> joined(const std::vector<Stretch>& edges)
{
  std::vector<Stretch> list;
  for (const Stretch& edge : edges)
    if (!list.empty() && list.back().region == edge.region)
      list.back().to = edge.to;
    else
      list.push_back(edge);
  return list;
}

/// Edges of a region's surface along one line: from each end the other.
using Steps = std::map<double, double>;

/// The region's edges at `z` from smaller to larger s, or at `s` from `towards` its negative side.
struct Surface
{
  const mesh::Mesh& mesh;
  int region;

  template <class Take> void each(Take take) const
  {
    mesh::EdgeMap<int> sides; // triangles of the region at an edge: one on its surface
    for (const mesh::Triangle& t : mesh.triangles)
      for (int e = 0; e < 3 && t.region == region; ++e)
        ++sides[mesh::edge(t.vertices[e], t.vertices[(e + 1) % 3])];
    for (const auto& [edge, count] : sides)
      if (count == 1)
        take(mesh.vertices[edge.a], mesh.vertices[edge.b]);
  }
  Steps across(double z) const
  {
    Steps steps;
    each(
        [&](const mesh::Vertex& a, const mesh::Vertex& b)
        {
          if (a.z == z && b.z == z)
            steps[std::min(a.s, b.s)] = std::max(a.s, b.s);
        });
    return steps;
  }
  Steps along(double s, bool up) const
  {
    Steps steps;
    each(
        [&](const mesh::Vertex& a, const mesh::Vertex& b)
        {
          if (a.s != s || b.s != s)
            return;
          const auto [low, high] = std::minmax(a.z, b.z);
          steps[up ? low : high] = up ? high : low;
        });
    return steps;
  }
};

/// Places of the steps one after the other, `start` the first.
std::vector<double> run(const Steps& steps, double start)
{
  std::vector<double> places = {start};
  for (auto next = steps.find(start); next != steps.end(); next = steps.find(places.back()))
    places.push_back(next->second);
  return places;
}

/// One side of a gap: a face, and the post's side that begins at its rim.
struct Pole
{
  double s = 0.0;           ///< Radius of the face, squared [m^2].
  std::vector<double> side; ///< z from the face on [m].
};
Pole pole(const mesh::Mesh& mesh, int region, double face, bool up)
{
  const Surface surface{mesh, region};
  Pole made;
  made.s = run(surface.across(face), 0.0).back();
  made.side = run(surface.along(made.s, up), face);
  return made;
}

/// What of greatest size passes the post's sections beside the gap.
double greatest_flux(const solver::Solution& solution, const solver::DrivenField& driven,
                     const Pole& pole)
{
  double greatest = 0.0;
  for (std::size_t i = 0; i < pole.side.size(); ++i)
    for (const double share : {0.0, 0.5})
    {
      const double next = pole.side[std::min(i + 1, pole.side.size() - 1)];
      const double z = pole.side[i] + share * (next - pole.side[i]);
      const double flux = solver::field_at(solution, driven, {std::sqrt(pole.s), z}).flux;
      greatest = std::abs(flux) > std::abs(greatest) ? flux : greatest;
    }
  return greatest;
}

/// int H_z dz along the axis.
double potential(const solver::Solution& solution, const solver::DrivenField& driven,
                 const std::vector<Stretch>& edges, double from, double to)
{
  const solver::LineRule& rule = solver::line_rule(10);
  double sum = 0.0;
  for (const Stretch& edge : edges)
    for (std::size_t i = 0; edge.from >= from && edge.to <= to && i < rule.points.size(); ++i)
    {
      const double length = edge.to - edge.from, z = edge.from + rule.points[i] * length;
      sum += rule.weights[i] * length * solver::field_at(solution, driven, {0.0, z}).H_z;
    }
  return sum;
}

/// Longest winding that lies over the gap, along the axis; 0 for none.
double winding_over(const solver::Problem& problem, double from, double to)
{
  double longest = 0.0;
  for (const mesh::Winding& winding : problem.scene.windings)
  {
    double length = 0.0;
    if (const auto* block = std::get_if<mesh::Block>(&winding.build))
      length = block->length;
    else
    {
      const auto centres = mesh::turn_centres(winding);
      const auto [low, high] = std::ranges::minmax(centres, {}, &mesh::Point::z);
      length = high.z - low.z + mesh::full_diameter(std::get<mesh::RoundTurns>(winding.build));
    }
    if (winding.centre - 0.5 * length <= from && winding.centre + 0.5 * length >= to)
      longest = std::max(longest, length);
  }
  return longest;
}

std::vector<FringingRule> rules(const GapResult& gap, double height, double winding)
{
  const double g = gap.length, D = 2.0 * gap.radius, A = pi * gap.radius * gap.radius;
  const bool air = gap.filled == "air", small = g <= 0.2 * D;
  std::vector<FringingRule> list = {{"pole grown by one gap", grown_pole_fringing(g, D),
                                     air && small, "air, gap below D/5",
                                     "(1 + g/D)^2, common practice, no source"}};
  if (winding > 0.0)
    list.push_back({"by winding length", mclyman_fringing(g, A, winding),
                    air && small && winding > g, "air, gap below D/5",
                    "[McLyman 2004], from memory; range common practice"});
  if (height > 0.0)
  {
    list.push_back({"plane corner", corner_fringing(g, D, height),
                    air && small && height >= 2.0 * g, "air, gap below D/5 and half the post",
                    "[Balakrishnan, Joines & Wilson 1997], from memory"});
    list.push_back({"probable paths", roters_fringing(g, D, height),
                    air && small && height >= 2.0 * g, "air, gap below D/5 and half the post",
                    "[Roters 1941], from memory"});
  }
  return list;
}

GapResult told(const solver::Solution& solution, const solver::DrivenField& driven,
               const mesh::Mesh& mesh, const std::vector<Stretch>& edges,
               std::span<const Stretch> run)
{
  const auto& regions = solution.layout.regions;
  const Stretch &low = run.front(), &high = run.back();
  const Pole below = pole(mesh, low.region, low.to, false),
             above = pole(mesh, high.region, high.from, true);
  GapResult made;
  if (below.s <= 0.0 || std::abs(below.s - above.s) > 1e-9 * below.s)
    return made;
  made.between = regions[low.region].name;
  if (high.region != low.region)
    made.between += " and " + regions[high.region].name;
  for (const Stretch& part : run.subspan(1, run.size() - 2))
  {
    made.filled += (made.filled.empty() ? "" : " and ") + regions[part.region].name;
    made.equivalent += (part.to - part.from) / solution.permeability[part.region];
  }
  made.length = high.from - low.to;
  made.radius = std::sqrt(below.s);
  const double under = greatest_flux(solution, driven, below),
               over = greatest_flux(solution, driven, above);
  made.flux = std::abs(under) > std::abs(over) ? under : over;
  made.potential = potential(solution, driven, edges, low.to, high.from);
  if (made.potential != 0.0)
    made.fringing = made.flux / made.potential * made.equivalent / (solver::mu0 * pi * below.s);
  const double height = std::min(low.to - below.side.back(), above.side.back() - high.from);
  made.rules = rules(made, height, winding_over(solution.problem, low.to, high.from));
  return made;
}

} // namespace

std::vector<GapResult> gaps(const solver::Solution& solution)
{
  const mesh::Mesh mesh = mesh::whole(solution.space.mesh);
  const std::vector<Stretch> edges = axis_edges(mesh);
  const std::vector<Stretch> parts = joined(edges);
  const auto mu = [&](std::size_t i) { return solution.permeability[parts[i].region]; };
  std::optional<solver::DrivenField> driven; // none without a gap
  std::vector<GapResult> list;
  for (std::size_t low = 0; low < parts.size(); ++low)
  {
    double most = 0.0; // of what is between
    for (std::size_t high = low + 1; high < parts.size() && most * contrast <= mu(low); ++high)
    {
      if (high > low + 1 && mu(high) >= contrast * most)
      {
        if (!driven)
          driven = solver::driven_field(solution, solver::drive(solution));
        GapResult one = told(solution, *driven, mesh, edges, {&parts[low], high - low + 1});
        if (one.fringing > 0.0)
          list.push_back(std::move(one));
        break;
      }
      most = std::max(most, mu(high));
    }
  }
  return list;
}

} // namespace post
