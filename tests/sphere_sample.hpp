// A magnetic sphere in a uniform field as a sample: closed form, no field solved.
//
// Inside B = 3 mu / (mu + 2) B0; outside B0 and a dipole in the middle, beta = (mu - 1) / (mu + 2)
// a^3 (Jackson, Classical Electrodynamics, 3rd ed., section 5.11). Points are repeated for every
// quadrilateral of the (rho, theta) grid, as a real sample's are for every mesh triangle.
#pragma once

#include "mesh/layout.hpp"
#include "post/sample.hpp"

#include <cmath>
#include <numbers>

namespace sphere
{

inline constexpr double pi = std::numbers::pi;
inline constexpr double radius = 0.01; // m
inline constexpr double mu = 8.0;
inline constexpr double B0 = 2e-3; // T
inline constexpr double inside = 3.0 * mu / (mu + 2.0) * B0;

struct Field
{
  double flux, B_r, B_z;
};

inline Field field(mesh::Point at, bool in)
{
  const auto [r, z] = at;
  if (in)
    return {pi * r * r * inside, 0.0, inside};
  const double beta = (mu - 1.0) / (mu + 2.0) * std::pow(radius, 3);
  const double rho = std::hypot(r, z);
  return {pi * r * r * B0 * (1.0 + 2.0 * beta / std::pow(rho, 3)),
          B0 * 3.0 * beta * r * z / std::pow(rho, 5),
          B0 * (1.0 + beta * (2.0 * z * z - r * r) / std::pow(rho, 5))};
}

inline void add_point(post::Sample& sample, mesh::Point at, bool in)
{
  const auto [flux, B_r, B_z] = field(at, in);
  const double permeability = (in ? mu : 1.0) * 4e-7 * pi;
  sample.points.push_back(at);
  sample.flux.push_back(flux);
  sample.B_r.push_back(B_r);
  sample.B_z.push_back(B_z);
  sample.H_r.push_back(B_r / permeability);
  sample.H_z.push_back(B_z / permeability);
}

/// @brief `rings` rings of quadrilaterals inside the sphere, four times as many outside, to
///        five radii; `sectors` from pole to pole.
inline post::Sample sample(int rings = 10, int sectors = 60)
{
  post::Sample sample;
  sample.region_names = {"air", "sphere"};
  const auto at = [&](int i, int j) -> mesh::Point
  {
    const double rho = radius * i / rings, theta = pi * j / sectors;
    return {j % sectors == 0 ? 0.0 : rho * std::sin(theta), -rho * std::cos(theta)};
  };
  for (int i = 0; i < 5 * rings; ++i)
    for (int j = 0; j < sectors; ++j)
    {
      const bool in = i < rings;
      const int first = static_cast<int>(sample.points.size());
      for (const mesh::Point& point : {at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j + 1)})
        add_point(sample, point, in);
      sample.triangles.push_back({first, first + 1, first + 2});
      if (i > 0) // at the middle the quadrilateral is a triangle
        sample.triangles.push_back({first, first + 2, first + 3});
      while (sample.region.size() < sample.triangles.size())
      {
        sample.region.push_back(in ? 1 : 0);
        sample.permeability.push_back(in ? mu : 1.0);
        sample.current_density.push_back(0.0);
      }
    }
  return sample;
}

/// @brief Half a disc: an arc from the lower pole to the upper, and back along the axis.
inline mesh::Layout layout(const std::string& name = "sphere")
{
  const mesh::Point low{0.0, -radius}, high{0.0, radius};
  const mesh::Arc arc{{0.0, 0.0}, radius, -pi / 2.0, pi / 2.0};
  return {{{"air", "air", {}}, {name, "ferrite", {{{low, high, arc}, {high, low}}}}}, {}};
}

} // namespace sphere
