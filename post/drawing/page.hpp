// The whole sheet: what it holds is planned once, then drawn alike as vectors and as pixels.
#pragma once

#include "post/drawing/flux.hpp"
#include "post/drawing/labels.hpp"
#include "post/drawing/raster.hpp"

#include <string>
#include <vector>

namespace post::drawing
{

struct Page
{
  double width = 0.0; ///< [pt]
  double height = 0.0;
  std::vector<std::string> title;    ///< Lines, as are the next two.
  std::vector<std::string> headline; ///< Inductance of each winding.
  std::vector<std::string> notes;    ///< Below the picture.
  Frame frame;
  std::vector<Body> bodies;
  Labels labels;
  FluxPicture flux;
  Scale scale;
  std::vector<Colour> colours;
  Image field;
};

inline constexpr double pixels_per_point = 2; ///< Of the colour layer and the PNG.

/// @brief Title, headline, bodies and their names placed; the picture's frame below them.
/// @throws std::runtime_error for a sample without an area.
Page begun_page(const Sample& sample, const mesh::Layout& layout, const Result& result,
                const std::vector<std::string>& headline);
/// @brief Sets the notes below the picture, first the names that found no room; and the height.
void close_page(Page& page, std::vector<std::string> notes);

/// @brief Everything placed. @throws std::runtime_error for a sample without an area.
Page page(const Sample& sample, const mesh::Layout& layout, const Result& result);

void draw(Canvas& canvas, const Page& page);

} // namespace post::drawing
