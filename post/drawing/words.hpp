// Numbers and sentences as they stand in a picture.
#pragma once

#include "post/drawing/canvas.hpp"
#include "post/result.hpp"

#include <string>
#include <vector>

namespace post::drawing
{

/// @brief "122.41 µH, guaranteed 122.36 to 122.46 µH": the digits that the bracket decides,
///        its ends rounded outwards, so that what is printed still holds.
std::string bracketed(const Bounded& quantity, const std::string& unit);

/// @brief The text with "u" as a prefix of the unit turned into the micro sign.
std::string with_micro_sign(std::string text, const std::string& unit);

/// @brief The largest of 1, 2, 5 times a power of ten that is not above `value`.
double round_step(double value);

/// @brief The words broken into lines of at most `width` points.
std::vector<std::string> wrapped(const std::string& words, double width, const Font& font,
                                 Canvas& canvas);

} // namespace post::drawing
