// Gap shares into marks; corners graded by how singular they are.
#include "solver/adaptivity.hpp"

#include "mesh/refine.hpp"
#include "solver/bracket.hpp"
#include "solver/form.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <stdexcept>

namespace solver
{

namespace
{

/// Decades the gap at a corner falls by with each layer of grading: the field goes as d^(lambda -
/// 1), lambda down to 2/3 where permeabilities meet at a right angle, else the corner is mild.
std::vector<double> decades_a_layer(const mesh::Mesh& mesh, std::span<const double> contrast)
{
  std::vector<double> low(mesh.vertices.size(), std::numeric_limits<double>::infinity()),
      high(mesh.vertices.size(), 0.0), decades(mesh.vertices.size(), 0.0);
  for (const mesh::Triangle& t : mesh.triangles)
    for (const int v : t.vertices)
    {
      low[v] = std::min(low[v], contrast[t.region]);
      high[v] = std::max(high[v], contrast[t.region]);
    }
  for (std::size_t v = 0; v < decades.size(); ++v)
    if (mesh.corner[v] != mesh::Corner::none)
      decades[v] = high[v] > low[v] ? 1.0 : 3.0;
  return decades;
}

/// Share of a smooth field's gap that halving its element leaves: 1/64 at order 6, if all goes
/// well.
constexpr double left_by_halving = 1.0 / 32.0;

int halvings(double gap, double least)
{
  return gap <= least ? 0 : gap * left_by_halving <= least ? 1 : 2;
}

/// The gap above which elements are refined: the fewest that bring the sum near the target at one
/// go, down to a hundredth of the greatest: below that a solution on the finer mesh tells better.
/// @param graded  Elements at corners, where layers leave next to nothing.
double threshold(const Eigen::VectorXd& gap, const std::vector<bool>& graded, double target)
{
  constexpr double room = 0.35, lowest = 1e-2;
  const auto left = [&](double least)
  {
    double sum = 0.0;
    for (Eigen::Index k = 0; k < gap.size(); ++k)
      if (gap[k] <= least || !graded[static_cast<std::size_t>(k)])
        sum += gap[k] * std::pow(left_by_halving, halvings(gap[k], least));
    return sum;
  };
  std::vector<double> tried(gap.begin(), gap.end());
  std::ranges::sort(tried, std::greater{});
  const double even = target / static_cast<double>(gap.size());
  const double floor = std::max(even, lowest * tried.front());
  const auto enough = std::ranges::partition_point(
      tried, [&](double least) { return least > floor && left(least) > room * target; });
  return std::max(floor, enough == tried.end() ? 0.0 : *enough);
}

/// What to refine; see solved_finer().
mesh::Marks marks(const Space& space, const Eigen::VectorXd& gap, std::span<const double> contrast,
                  double target)
{
  const mesh::Mesh& mesh = space.mesh;
  const double share = target / static_cast<double>(gap.size());
  const std::vector<double> decades = decades_a_layer(mesh, contrast);
  std::vector<bool> graded(static_cast<std::size_t>(gap.size()), false);
  for (std::size_t k = 0; k < mesh.triangles.size(); ++k)
    graded[k] =
        std::ranges::any_of(mesh.triangles[k].vertices, [&](int v) { return decades[v] > 0.0; });
  const double least = threshold(gap, graded, target);
  mesh::Marks made{std::vector<int>(mesh.triangles.size(), 0),
                   std::vector<int>(mesh.vertices.size(), 0)};
  mesh::EdgeMap<int> beside;
  for (std::size_t k = 0; k < mesh.triangles.size(); ++k)
  {
    const auto& v = mesh.triangles[k].vertices;
    made.halvings[k] = halvings(gap[k], least);
    for (int i = 0; i < 3; ++i)
    {
      beside[mesh::edge(v[i], v[(i + 1) % 3])] = static_cast<int>(k);
      if (made.halvings[k] > 0 && decades[v[i]] > 0.0)
        made.layers[v[i]] = std::max(
            made.layers[v[i]],
            std::clamp(static_cast<int>(std::ceil(std::log10(gap[k] / share) / decades[v[i]])), 1,
                       6));
    }
  }
  for (std::size_t x = 0; x < space.exteriors.size(); ++x)
    if (gap[mesh.triangles.size() + x] > least)
    {
      int& own = made.halvings[beside.at(space.exteriors[x].edge)];
      own = std::max(own, 1);
    }
  return made;
}

} // namespace

void solved_graded(const mesh::Mesh& coarse, std::span<const double> contrast, double accuracy,
                   const std::function<void(const mesh::Mesh&)>& solve)
{
  const double rounding = 1e-9;
  const int sharp = static_cast<int>(std::floor(0.5 * (-std::log10(accuracy) - 2.0) + rounding));
  const std::vector<double> decades = decades_a_layer(coarse, contrast);
  mesh::Marks made{std::vector<int>(coarse.triangles.size(), 0),
                   std::vector<int>(coarse.vertices.size(), 0)};
  for (std::size_t v = 0; v < decades.size(); ++v)
    if (decades[v] > 0.0)
      made.layers[v] = std::max(0, decades[v] > 1.0 ? sharp - 1 : sharp);
  if (std::ranges::any_of(made.layers, [](int n) { return n > 0; }))
    try
    {
      return solve(mesh::refined(coarse, made));
    }
    catch (const FoldedElement&)
    {
    }
  solve(coarse);
}

Eigen::VectorXd indicators(const Bracket& b)
{
  const Eigen::VectorXd scale = (b.lower + 0.5 * b.gap.diagonal()).cwiseAbs().cwiseInverse();
  Eigen::VectorXd all(b.triangle_gap.rows() + b.exterior_gap.rows());
  all << (b.triangle_gap * scale.asDiagonal()).rowwise().maxCoeff(),
      (b.exterior_gap * scale.asDiagonal()).rowwise().maxCoeff();
  return all;
}

double relative_half_width(const Bracket& b)
{
  double worst = 0.0;
  for (Eigen::Index j = 0; j < b.lower.size(); ++j)
  {
    if (b.lower[j] == 0.0 && b.gap(j, j) == 0.0)
      continue; // a background field that meets no body
    const double width = 0.5 * b.gap(j, j) / std::abs(b.lower[j] + 0.5 * b.gap(j, j));
    if (!std::isfinite(width))
      throw std::runtime_error("the solution is not finite: permeabilities or sizes too far apart");
    worst = std::max(worst, width);
  }
  return worst;
}

std::string solved_finer(const Space& space, const Eigen::VectorXd& gap,
                         std::span<const double> contrast, double target,
                         const std::function<std::string(const mesh::Mesh&)>& solve)
{
  for (const double factor : {1.0, 0.3, 3.0, 0.1})
    try
    {
      return solve(mesh::refined(space.mesh, marks(space, gap, contrast, factor * target)));
    }
    catch (const FoldedElement&)
    {
      continue;
    }
  return "curved boundaries so close together fold the finer mesh";
}

int order_for(double accuracy)
{
  const double digits = -std::log10(accuracy);
  return std::clamp(static_cast<int>(std::lround(digits < 5.5 ? digits + 1.0 : digits)), 3, 8);
}

} // namespace solver
