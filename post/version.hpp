// The version of ferrule that made a result.
#pragma once

#include <string_view>

namespace post
{

/// @brief Major.minor.patch of the build, from the CMake project.
std::string_view version();

} // namespace post
