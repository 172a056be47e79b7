// The sample as a VTK unstructured grid.
#pragma once

#include "post/sample.hpp"

#include <string>

namespace post::drawing
{

/// @brief The bytes of a .vtu file, compressed; array names hold their units.
///
/// x is r, y is z and z is 0 [m]; vectors are (B_r, B_z, 0). The file's field data say so, and
/// hold the region names in the order of the cells' "region".
/// @throws std::runtime_error when VTK's writer reports an error.
std::string field_file(const Sample& sample);

} // namespace post::drawing
