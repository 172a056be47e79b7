// Bodies and windings as they are drawn: outlines in both halves, and which way currents run.
#pragma once

#include "post/drawing/frame.hpp"
#include "post/result.hpp"

#include <span>
#include <string>
#include <vector>

namespace post::drawing
{

/// @brief One named thing in the picture, on the sheet.
struct Body
{
  std::string name;
  bool winding = false;
  std::vector<Line> areas; ///< Closed; by turns the half of positive r and its mirror image.
  std::vector<Line> edges; ///< What is drawn: no piece on the axis.
  int current = 0;         ///< Of a winding: +1 along phi, -1 against it, 0 none flows.
};

/// @brief Parts and coatings, largest first, then windings in their order. Regions without an
///        outline and air pockets are not among them.
std::vector<Body> bodies(const mesh::Layout& layout, const Result& result, const Sample& sample,
                         const Frame& frame);

/// @brief Sign of the current about the axis, one a winding; a sheet's from the jump of H.
std::vector<int> current_signs(const mesh::Layout& layout, const Sample& sample);

void draw_bodies(Canvas& canvas, std::span<const Body> bodies);

/// @brief Whether a winding's current runs into the page, in the half of positive r or in the
///        other. Where z runs up and r to the right, current along phi goes in on the right;
///        where the picture lies, it comes out on top.
bool goes_in(const Body& winding, const Frame& frame, bool mirror_image);

/// @brief The trade's cross (into the page) and dot (out of it) in every winding with a current.
void draw_currents(Canvas& canvas, std::span<const Body> bodies, const Frame& frame);

/// @brief Smallest box around a line [pt].
Box box_around(const Line& line);

} // namespace post::drawing
