// What a picture says in words.
#pragma once

#include "post/drawing/flux.hpp"
#include "post/drawing/raster.hpp"
#include "post/result.hpp"

#include <string>
#include <vector>

namespace post::drawing
{

/// @brief One sentence a winding, "coil: 122.4 uH, guaranteed ..."; the first few of many.
std::vector<std::string> headline(const Result& result);

/// @brief What the lines and colours mean, and where they are not to be trusted.
std::vector<std::string> notes(const Result& result, const FluxPicture& flux, const Scale& scale,
                               double strongest);

} // namespace post::drawing
