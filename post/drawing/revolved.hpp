// Bodies and windings as solids of revolution, a quarter cut out, with the field on them.
#pragma once

#include "post/sample.hpp"

#include <string>

namespace post::drawing
{

/// @brief The bytes of a .vtp file: the surface of every body and conductor section turned by 270
///        degrees about the z axis, and both cut faces.
///
/// Points carry |B| [T] as seen from within, the flux through their circle [Wb], and the region.
/// @throws std::runtime_error when VTK's writer reports an error, or nothing but air is there.
std::string revolved_file(const Sample& sample);

} // namespace post::drawing
