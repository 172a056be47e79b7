// Gauss rules on the unit interval and, collapsed at a chosen corner, on the triangle.
#pragma once

#include <array>
#include <vector>

namespace solver
{

/// @brief Gauss-Legendre points and weights on [0, 1]; exact to degree 2n - 1.
struct LineRule
{
  std::vector<double> points;
  std::vector<double> weights;
};
const LineRule& line_rule(int n);

/// @brief Rule on the reference triangle in barycentric coordinates; weights sum to 1/2.
struct TriangleRule
{
  std::vector<std::array<double, 3>> points;
  std::vector<double> weights;
};

/// @brief Gauss points collapsed at local vertex `corner`, `outward` of them on each line from
/// there
///        and `across` such lines: exact to degree 2n - 2, n the smaller, and spectrally good for
///        integrands like 1/s that vary fast, or are singular, only there.
TriangleRule triangle_rule(int outward, int across, int corner);

} // namespace solver
