// Solids of revolution as a picture: parallel projection into the cut, nearest face first, colours
// of |B| shaded by how a face lies. Worked out here, so that no renderer and no screen is needed.
#pragma once

#include "post/drawing/page.hpp"
#include "post/drawing/revolved.hpp"

#include <span>
#include <string>

namespace post::drawing
{

/// @brief The pixels, white where nothing is; long bodies lie, flat ones stand.
Image solid_image(const Solids& solids, int width, int height, const Scale& scale,
                  std::span<const Colour> colours);

/// @brief The bytes of revolved.png: title, solids, and the key of the field's page.
std::string solid_picture(const Sample& sample, const Page& page);

} // namespace post::drawing
