// The colours of |B|: pale for weak, deep for strong, even steps to the eye.
#pragma once

#include "post/drawing/canvas.hpp"

#include <vector>

namespace post::drawing
{

/// @brief A colour as seen: lightness 0 to 1, and two opponent axes (green-red, blue-yellow).
struct Seen
{
  double lightness = 0.0;
  double green_red = 0.0;
  double blue_yellow = 0.0;
};

/// @brief From OKLab to sRGB [Ottosson 2020]; parts outside 0 to 1 cannot be shown.
Colour shown(const Seen& seen);

/// @brief The path the colours lie on, 0 <= t <= 1: lightness falls, hue turns from sand through
///        teal to indigo, always apart by lightness alone, so that no colour vision is needed.
Seen seen(double t);

/// @brief `count` colours from weak to strong, neighbours equally far apart in OKLab.
std::vector<Colour> colours(int count);

} // namespace post::drawing
