// The field as flat arrays of small straight triangles: what pictures and field files are made of.
//
// Filled from a Solution by sampled(); points are repeated where the field jumps (one set a mesh
// triangle), so material edges stay sharp. The last station that knows about polynomials.
#pragma once

#include "mesh/scene.hpp"

#include <array>
#include <string>
#include <vector>

namespace solver
{
struct HeatField;
struct Solution;
} // namespace solver

namespace post
{

/// @brief Field values at points, all windings as driven; arrays run parallel to `points`.
struct Sample
{
  std::vector<mesh::Point> points; ///< [m]
  std::vector<double> flux;        ///< Through the circle of the point, 2 pi psi [Wb].
  std::vector<double> B_r;         ///< [T]
  std::vector<double> B_z;
  std::vector<double> H_r; ///< [A/m]
  std::vector<double> H_z;
  std::vector<std::array<int, 3>> triangles; ///< Into `points`, counter-clockwise in (r, z).
  std::vector<int> region;                   ///< One a triangle, into `region_names`.
  std::vector<double> permeability;          ///< One a triangle, relative.
  std::vector<double> current_density;       ///< One a triangle [A/m^2].
  std::vector<std::string> region_names;     ///< [0] is "air".
  std::vector<double> rise; ///< Of a temperature field, then alone [K]; not a number in open air.
};

/// @brief Samples every mesh triangle on a uniform subdivision into `cuts`^2 small ones.
/// @param cuts  At least 1; 6 looks smooth at order 4 to 6.
Sample sampled(const solver::Solution& solution, int cuts);

/// @brief Points, triangles and rises of a temperature field, likewise.
Sample sampled(const solver::HeatField& field, int cuts);

} // namespace post
