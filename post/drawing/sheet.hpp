// What all sheets share: their width and margin, ink and fonts, and paragraphs set as lines.
#pragma once

#include "post/drawing/canvas.hpp"

#include <string>
#include <vector>

namespace post::drawing
{

inline constexpr double sheet_width = 800.0; ///< [pt], as are all below.
inline constexpr double margin = 30.0;
inline constexpr double title_line = 22.0, headline_line = 17.0, note_line = 13.0;

inline constexpr Colour ink = {0.13, 0.14, 0.17};
inline constexpr Colour quiet = {0.36, 0.38, 0.42};
inline constexpr Colour rim_colour = {0.62, 0.64, 0.68};
inline constexpr Font title_font = {17.0, ink, true};
inline constexpr Font headline_font = {12.0, ink};
inline constexpr Font label_font = {10.5, ink};
inline constexpr Font note_font = {9.0, quiet};

/// @brief Paragraphs as lines of the sheet's width, at most `most` of them.
std::vector<std::string> lines_of(const std::vector<std::string>& paragraphs, const Font& font,
                                  std::size_t most, Canvas& canvas);

/// @brief Sets the lines one below the other from `y` down; returns the last baseline.
double column(Canvas& canvas, double y, const std::vector<std::string>& lines, const Font& font,
              double line_height);

/// @brief The four corners of a box, closed.
Line outline(const Box& box);

} // namespace post::drawing
