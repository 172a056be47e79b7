// Bodies and windings as solids of revolution, a quarter cut out, with the field on them.
#pragma once

#include "post/sample.hpp"

#include <array>
#include <string>
#include <vector>

namespace post::drawing
{

/// @brief The same as triangles, for a picture.
struct Solids
{
  std::vector<std::array<double, 3>> points; ///< x, y, z [m]; cut where x > 0 > y.
  std::vector<double> strength;              ///< |B| at each [T].
  std::vector<int> region;                   ///< Of each; 0: a section in air.
  std::vector<std::array<int, 3>> triangles;
};
/// @throws std::runtime_error when nothing but air is there.
Solids solids(const Sample& sample);

/// @brief The bytes of a .vtp file: the surface of every body and conductor section turned by 270
///        degrees about the z axis, and both cut faces.
///
/// Points carry |B| [T] as seen from within, the flux through their circle [Wb], and the region.
/// @throws std::runtime_error when VTK's writer reports an error, or nothing but air is there.
std::string revolved_file(const Sample& sample);

} // namespace post::drawing
