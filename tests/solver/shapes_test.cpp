// The hierarchic shape functions: what they are on edges, at vertices and at infinity.
#include "solver/quadrature.hpp"
#include "solver/shapes.hpp"

#include <Eigen/QR>

#include <catch2/catch.hpp>

#include <cmath>

using namespace solver;

namespace
{

constexpr int highest = 9;

int first_edge_row(int p, int edge)
{
  return 3 + edge * (p - 1);
}

/// Barycentric point at t on local edge (i, i + 1).
std::array<double, 3> on_edge(int i, double t)
{
  std::array<double, 3> lambda{};
  lambda[i] = 1.0 - t;
  lambda[(i + 1) % 3] = t;
  return lambda;
}

} // namespace

TEST_CASE("the trace of a triangle's functions on an edge is the edge's own functions", "[shapes]")
{
  for (int p = 1; p <= highest; ++p)
    for (int i = 0; i < 3; ++i)
      for (const double t : {0.0, 0.1, 0.37, 0.5, 0.81, 1.0})
      {
        CAPTURE(p, i, t);
        const ShapeValues here = triangle_shapes(p, on_edge(i, t));
        const LineShapes edge = edge_shapes(p, t), back = edge_shapes(p, 1.0 - t);
        REQUIRE(here.value.size() == triangle_shape_count(p));
        Eigen::VectorXd expected = Eigen::VectorXd::Zero(here.value.size());
        expected[i] = edge.value[0];
        expected[(i + 1) % 3] = edge.value[1];
        for (int k = 2; k <= p; ++k)
        {
          expected[first_edge_row(p, i) + k - 2] = edge.value[k];
          // Seen from the other triangle the edge runs the other way: odd degrees change sign.
          CHECK(back.value[k] == Approx((k % 2 == 1 ? -1.0 : 1.0) * edge.value[k]).margin(1e-15));
        }
        // All others, bubbles and other edges, vanish here.
        CHECK((here.value - expected).cwiseAbs().maxCoeff() < 1e-14);
      }
}

TEST_CASE("vertex functions add up to one and each is one at its own vertex", "[shapes]")
{
  for (int p = 1; p <= highest; ++p)
    for (const std::array<double, 3> lambda :
         {std::array{0.2, 0.5, 0.3}, std::array{1.0, 0.0, 0.0}, std::array{0.0, 0.6, 0.4}})
    {
      const ShapeValues here = triangle_shapes(p, lambda);
      CHECK(here.value.head<3>().sum() == Approx(1.0));
      CHECK(here.d1.head<3>().sum() == 0.0);
      CHECK(here.d2.head<3>().sum() == 0.0);
    }
  const ShapeValues corner = triangle_shapes(highest, {0.0, 0.0, 1.0});
  CHECK(corner.value[2] == 1.0);
  CHECK(corner.value.cwiseAbs().sum() == 1.0);
}

TEST_CASE("derivatives of shape functions agree with central differences", "[shapes]")
{
  // The difference misses h^2/6 f''', most at the ends of an edge: f''' = 8 sqrt(17/2) P''_8(1) =
  // 8 sqrt(17/2) 630 at order 9, so 2.45e-7; round-off is 1e-16/h.
  const double h = 1e-5, miss = 2.5e-7;
  const int p = highest;
  for (const auto& [x, y] : {std::pair{0.2, 0.3}, {0.5, 0.1}, {0.05, 0.9}, {0.6, 0.4}})
  {
    CAPTURE(x, y);
    const ShapeValues here = triangle_shapes(p, {1 - x - y, x, y});
    const Eigen::VectorXd d1 = (triangle_shapes(p, {1 - x - h - y, x + h, y}).value -
                                triangle_shapes(p, {1 - x + h - y, x - h, y}).value) /
                               (2 * h),
                          d2 = (triangle_shapes(p, {1 - x - y - h, x, y + h}).value -
                                triangle_shapes(p, {1 - x - y + h, x, y - h}).value) /
                               (2 * h);
    CHECK((here.d1 - d1).cwiseAbs().maxCoeff() < miss);
    CHECK((here.d2 - d2).cwiseAbs().maxCoeff() < miss);
  }
  for (const double t : {0.0, 0.23, 0.5, 0.92, 1.0})
  {
    const Eigen::VectorXd along =
        (edge_shapes(p, t + h).value - edge_shapes(p, t - h).value) / (2 * h);
    CHECK((edge_shapes(p, t).slope - along).cwiseAbs().maxCoeff() < miss);
    const Eigen::VectorXd out = (ray_shapes(p, t + h).value - ray_shapes(p, t - h).value) / (2 * h);
    CHECK((ray_shapes(p, t).slope - out).cwiseAbs().maxCoeff() < miss);
  }
}

TEST_CASE("edge functions are integrated Legendre polynomials of slope norm two", "[shapes]")
{
  // kernel(k) = 4 sqrt((2k-1)/2) P'_(k-1) / (k(k-1)), and (1-x^2) P'_(k-1) / (k(k-1)) integrates
  // P_(k-1) up to sign [Szabo-Babuska 1991, 6.1]: slopes on [0, 1] are orthogonal with norm^2 2.
  const LineRule& rule = line_rule(highest + 1);
  Eigen::MatrixXd products = Eigen::MatrixXd::Zero(highest + 1, highest + 1);
  for (std::size_t i = 0; i < rule.points.size(); ++i)
  {
    const Eigen::VectorXd slope = edge_shapes(highest, rule.points[i]).slope;
    products += rule.weights[i] * slope * slope.transpose();
  }
  const Eigen::MatrixXd inner = products.bottomRightCorner(highest - 1, highest - 1);
  CHECK((inner - 2.0 * Eigen::MatrixXd::Identity(highest - 1, highest - 1)).cwiseAbs().maxCoeff() <
        1e-13);
  CHECK(kernel(2, 0.3).value == Approx(2.0 * std::sqrt(1.5)));
  CHECK(kernel(3, 0.3).value == Approx(2.0 / 3.0 * std::sqrt(2.5) * 3.0 * 0.3));
}

TEST_CASE("functions of order p span every polynomial of degree p and none beyond", "[shapes]")
{
  for (int p = 1; p <= 7; ++p)
  {
    CAPTURE(p);
    const TriangleRule rule = triangle_rule(p + 2, p + 2, 0);
    const auto points = static_cast<Eigen::Index>(rule.points.size());
    const int within = triangle_shape_count(p);
    Eigen::MatrixXd shapes(points, within), beyond(points, 1), monomials(points, within);
    for (Eigen::Index i = 0; i < points; ++i)
    {
      const double x = rule.points[i][1], y = rule.points[i][2];
      shapes.row(i) = triangle_shapes(p, rule.points[i]).value.transpose();
      int n = 0;
      for (int a = 0; a <= p; ++a)
        for (int b = 0; a + b <= p; ++b)
          monomials(i, n++) = std::pow(x, a) * std::pow(y, b);
      beyond(i, 0) = std::pow(x, p + 1);
    }
    const Eigen::ColPivHouseholderQR<Eigen::MatrixXd> fit(shapes);
    CHECK(fit.rank() == within);
    const auto miss = [&](const Eigen::MatrixXd& f)
    { return (shapes * fit.solve(f) - f).cwiseAbs().maxCoeff(); };
    CHECK(miss(monomials) < 1e-13);
    CHECK(miss(beyond) > 1e-7);
  }
}

TEST_CASE("ray functions vanish at infinity and only the first reaches the box", "[shapes]")
{
  for (int q = 2; q <= highest; ++q)
  {
    const LineShapes far = ray_shapes(q, 0.0), box = ray_shapes(q, 1.0);
    REQUIRE(far.value.size() == q);
    CHECK(far.value.cwiseAbs().maxCoeff() == 0.0);
    CHECK(box.value[0] == 1.0);
    CHECK(box.value.tail(q - 1).cwiseAbs().maxCoeff() == 0.0);
    CHECK(ray_shapes(q, 0.3).value[0] == 0.3);
  }
}
