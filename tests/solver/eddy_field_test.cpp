// The table of fields with given curl: curl, traces, and what is kept of a density.
#include "solver/eddy_field.hpp"

#include "core_scenes.hpp"
#include "solver/quadrature.hpp"
#include "solver/shapes.hpp"

#include <Eigen/LU>

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <list>
#include <random>

using namespace solver;

namespace
{

using Place = std::array<double, 2>; ///< lambda_1, lambda_2.

/// The table at any places; kept, since tables are found again by their address.
const EddyTable& table_at(int p, const std::vector<Place>& places)
{
  static std::list<ShapeTable> kept;
  ShapeTable& shapes = kept.emplace_back();
  shapes.value.resize(triangle_shape_count(p), static_cast<Eigen::Index>(places.size()));
  shapes.d1 = shapes.d2 = shapes.value;
  for (std::size_t i = 0; i < places.size(); ++i)
  {
    const auto [l1, l2] = places[i];
    const ShapeValues at = triangle_shapes(p, {1.0 - l1 - l2, l1, l2});
    const auto column = static_cast<Eigen::Index>(i);
    shapes.value.col(column) = at.value;
    shapes.d1.col(column) = at.d1;
    shapes.d2.col(column) = at.d2;
  }
  ElementTable table;
  table.shapes = &shapes;
  return eddy_table(table);
}

/// What a column at a time differs by, at most.
double worst(const Eigen::MatrixXd& found, const Eigen::MatrixXd& expected)
{
  return (found - expected).cwiseAbs().maxCoeff();
}

} // namespace

TEST_CASE("each field of the table has its shape function as curl", "[eddy]")
{
  // Four-point differences of polynomials of degree at most 9: h^4 |E^(5)| / 30 about 1e-9.
  constexpr double h = 1e-3;
  for (int p = 1; p <= 8; ++p)
    for (const Place x : {Place{0.2, 0.3}, Place{0.1, 0.7}, Place{0.6, 0.15}, Place{0.01, 0.02}})
    {
      CAPTURE(p, x[0], x[1]);
      std::vector<Place> places;
      for (const double step : {-2.0, -1.0, 1.0, 2.0})
        places.push_back({x[0] + step * h, x[1]});
      for (const double step : {-2.0, -1.0, 1.0, 2.0})
        places.push_back({x[0], x[1] + step * h});
      const EddyTable& E = table_at(p, places);
      const Eigen::Vector4d weight = Eigen::Vector4d(1.0, -8.0, 8.0, -1.0) / (12.0 * h);
      const Eigen::VectorXd curl = E.E_2.leftCols(4) * weight - E.E_1.rightCols(4) * weight;
      const Eigen::VectorXd N = triangle_shapes(p, {1.0 - x[0] - x[1], x[0], x[1]}).value;
      CHECK(worst(curl, N) < 1e-7);
    }
}

TEST_CASE("its trace is zero on two edges and the density's integral all along the third", "[eddy]")
{
  for (int p = 1; p <= 8; ++p)
    for (const double t : {0.05, 0.3, 0.5, 0.81})
    {
      CAPTURE(p, t);
      const EddyTable& E = table_at(p, {{t, 0.0}, {0.0, t}, {1.0 - t, t}});
      const Eigen::VectorXd zero = Eigen::VectorXd::Zero(E.integral.size());
      CHECK(worst(E.E_1.col(0), zero) < 1e-13);
      CHECK(worst(E.E_2.col(1), zero) < 1e-13);
      CHECK(worst(E.E_2.col(2) - E.E_1.col(2), E.integral) < 1e-13);
    }
}

TEST_CASE("a polynomial density is kept whole, its total in any case", "[eddy]")
{
  std::mt19937 random(4);
  for (const scenes::Named& one : scenes::all())
  {
    CAPTURE(one.name);
    const Space space = solver::space(mesh::coarse_mesh(mesh::layout(one.scene)), 3);
    double polynomial = 0.0, total = 0.0;
    for (int k = 0; k < static_cast<int>(space.mesh.triangles.size()); k += 7)
    {
      const ElementTable table = triangle_table(space, k, Care::bracketing);
      Eigen::MatrixXcd given(table.shapes->value.rows(), 1);
      for (Eigen::Index i = 0; i < given.rows(); ++i)
        given(i, 0) = {std::ldexp(static_cast<double>(random()), -32), 1.0};
      const Eigen::MatrixXcd again =
          density_coefficients(table, table.shapes->value.transpose() * given);
      polynomial = std::max(polynomial, (again - given).cwiseAbs().maxCoeff());

      Eigen::MatrixXcd rough(static_cast<Eigen::Index>(table.points.size()), 1);
      std::complex<double> expected = 0.0;
      for (Eigen::Index c = 0; c < rough.rows(); ++c)
      {
        const ElementPoint& x = table.points[static_cast<std::size_t>(c)];
        rough(c, 0) = {std::exp(3.0 * table.shapes->value(0, c)), table.shapes->value(1, c)};
        expected += rough(c, 0) * x.weight * x.gradient.determinant();
      }
      const std::complex<double> kept =
          (eddy_table(table).integral.transpose() * density_coefficients(table, rough)).value();
      total = std::max(total, std::abs(kept - expected));
    }
    // Round-off of a mass matrix of order 3.
    CHECK(polynomial < 1e-11);
    CHECK(total < 1e-12);
  }
}
