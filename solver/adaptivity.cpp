// Gap shares into marks; corners graded by how singular they are.
#include "solver/adaptivity.hpp"

#include "mesh/refine.hpp"
#include "solver/bracket.hpp"
#include "solver/form.hpp"

#include <algorithm>
#include <cmath>
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

/// What to refine; see solved_finer().
mesh::Marks marks(const Space& space, const Eigen::VectorXd& gap, std::span<const double> contrast,
                  double target)
{
  const mesh::Mesh& mesh = space.mesh;
  const double share = target / static_cast<double>(gap.size());
  const double least = std::max(share, 5e-2 * gap.maxCoeff());
  const std::vector<double> decades = decades_a_layer(mesh, contrast);
  mesh::Marks made{std::vector<bool>(mesh.triangles.size(), false),
                   std::vector<int>(mesh.vertices.size(), 0)};
  mesh::EdgeMap<int> beside;
  for (std::size_t k = 0; k < mesh.triangles.size(); ++k)
  {
    const auto& v = mesh.triangles[k].vertices;
    made.bisect[k] = gap[k] > least;
    for (int i = 0; i < 3; ++i)
    {
      beside[mesh::edge(v[i], v[(i + 1) % 3])] = static_cast<int>(k);
      if (made.bisect[k] && decades[v[i]] > 0.0)
        made.layers[v[i]] = std::max(
            made.layers[v[i]],
            std::clamp(static_cast<int>(std::ceil(std::log10(gap[k] / share) / decades[v[i]])), 1,
                       6));
    }
  }
  for (std::size_t x = 0; x < space.exteriors.size(); ++x)
    if (gap[mesh.triangles.size() + x] > least)
      made.bisect[beside.at(space.exteriors[x].edge)] = true;
  return made;
}

} // namespace

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
