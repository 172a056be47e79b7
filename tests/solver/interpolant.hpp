// A given function put into the space, and the whole matrix assembled plainly: what the patch tests
// compare with. Shares only element matrices and numbering with the code under test.
#pragma once

#include "core_scenes.hpp"

#include "solver/quadrature.hpp"
#include "solver/shapes.hpp"

#include <Eigen/LU>
#include <Eigen/SparseCore>

#include <functional>

namespace solver
{

using Function = std::function<double(double s, double z)>;

/// Coefficients that match f at vertices, along edges and inside triangles, each in the mean after
/// the last; nothing on the rays. Exact for what the space holds.
inline Eigen::VectorXd interpolant(const Space& space, const Function& f)
{
  const int p = space.order;
  Eigen::VectorXd c = Eigen::VectorXd::Zero(space.count);
  for (std::size_t v = 0; v < space.mesh.vertices.size(); ++v)
    c[v] = f(space.mesh.vertices[v].s, space.mesh.vertices[v].z);
  const auto fit = [](const Eigen::MatrixXd& shapes, const Eigen::VectorXd& w,
                      const Eigen::VectorXd& rest) -> Eigen::VectorXd
  {
    const Eigen::MatrixXd weighted = shapes * w.asDiagonal();
    return Eigen::MatrixXd(weighted * shapes.transpose()).partialPivLu().solve(weighted * rest);
  };
  const LineRule& line = line_rule(p + 8);
  const TriangleRule rule = triangle_rule(p + 8, p + 8, 0);
  for (int k = 0; k < static_cast<int>(space.mesh.triangles.size()); ++k)
  {
    const mesh::ElementMap map = mesh::element_map(space.mesh, space.bends, k);
    const Gather gather = triangle_gather(space, k);
    const auto n = static_cast<Eigen::Index>(line.points.size());
    for (int i = 0; i < 3 && p > 1; ++i)
    {
      Eigen::MatrixXd shapes(p - 1, n);
      Eigen::VectorXd rest(n), w(n);
      for (Eigen::Index q = 0; q < n; ++q)
      {
        const double t = line.points[q];
        const Eigen::Vector2d x = mesh::edge_place(map, i, t).point;
        shapes.col(q) = edge_shapes(p, t).value.tail(p - 1);
        rest[q] = f(x[0], x[1]) - (1 - t) * c[gather.index[i]] - t * c[gather.index[(i + 1) % 3]];
        w[q] = line.weights[q];
      }
      const Eigen::VectorXd own = fit(shapes, w, rest);
      for (int m = 0; m < p - 1; ++m)
        c[gather.index[3 + i * (p - 1) + m]] = gather.sign[3 + i * (p - 1) + m] * own[m];
    }
    const int bubbles = bubble_count(p);
    if (bubbles == 0)
      continue;
    const auto points = static_cast<Eigen::Index>(rule.points.size());
    Eigen::MatrixXd shapes(bubbles, points);
    Eigen::VectorXd rest(points), w(points);
    for (Eigen::Index q = 0; q < points; ++q)
    {
      const Eigen::VectorXd all = triangle_shapes(p, rule.points[q]).value;
      const Eigen::Vector2d x = map.at(rule.points[q]).point;
      shapes.col(q) = all.tail(bubbles);
      rest[q] = f(x[0], x[1]);
      for (Eigen::Index i = 0; i < all.size() - bubbles; ++i)
        rest[q] -= gather.sign[i] * all[i] * c[gather.index[i]];
      w[q] = rule.weights[q];
    }
    c(Eigen::seqN(gather.index[3 * p], bubbles)) = fit(shapes, w, rest);
  }
  return c;
}

/// The whole matrix, nothing eliminated, no row held.
inline Eigen::SparseMatrix<double> whole_matrix(const Space& space, Weight weight,
                                                std::span<const double> coefficient, double outside)
{
  std::vector<Eigen::Triplet<double>> entries;
  const auto scatter = [&](const Eigen::MatrixXd& K, const Gather& g)
  {
    for (Eigen::Index i = 0; i < K.rows(); ++i)
      for (Eigen::Index j = 0; j < K.cols(); ++j)
        entries.emplace_back(g.index[i], g.index[j], g.sign[i] * g.sign[j] * K(i, j));
  };
  for (int k = 0; k < static_cast<int>(space.mesh.triangles.size()); ++k)
    scatter(coefficient[k] * triangle_matrix(space, k, weight), triangle_gather(space, k));
  for (int x = 0; x < static_cast<int>(space.exteriors.size()); ++x)
    scatter(outside * exterior_matrix(space, x, weight), exterior_gather(space, x));
  Eigen::SparseMatrix<double> K(space.count, space.count);
  K.setFromTriplets(entries.begin(), entries.end());
  return K;
}

} // namespace solver
