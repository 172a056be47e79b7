// Outlines and conductor sections as chains of points.
#include "post/drawing/frame.hpp"

#include <cmath>
#include <numbers>

namespace post::drawing
{

namespace
{

void add_arc(const mesh::Arc& arc, std::vector<mesh::Point>& points)
{
  const double step = std::numbers::pi / 45.0;
  const int pieces = std::max(1, static_cast<int>(std::ceil(std::abs(arc.to - arc.from) / step)));
  for (int i = 0; i < pieces; ++i)
  {
    const double angle = arc.from + (arc.to - arc.from) * i / pieces;
    points.push_back(
        {arc.centre.r + arc.radius * std::cos(angle), arc.centre.z + arc.radius * std::sin(angle)});
  }
}

struct SectionCorners
{
  using Points = std::vector<mesh::Point>;

  Points operator()(const mesh::BlockSection& block) const
  {
    return {{block.r_inner, block.z_low},
            {block.r_outer, block.z_low},
            {block.r_outer, block.z_high},
            {block.r_inner, block.z_high}};
  }
  Points operator()(const mesh::SheetSection& sheet) const
  {
    return {{sheet.r, sheet.z_low}, {sheet.r, sheet.z_high}};
  }
  Points operator()(const mesh::RoundSection& turn) const
  {
    Points points;
    for (int i = 0; i < 24; ++i)
    {
      const double angle = 2.0 * std::numbers::pi * i / 24;
      points.push_back({turn.centre.r + turn.radius * std::cos(angle),
                        turn.centre.z + turn.radius * std::sin(angle)});
    }
    return points;
  }
};

} // namespace

std::vector<mesh::Point> corners(const mesh::Conductor& conductor)
{
  return std::visit(SectionCorners{}, conductor.section);
}

std::vector<mesh::Point> corners(const mesh::Outline& outline)
{
  std::vector<mesh::Point> points;
  for (const mesh::Piece& piece : outline)
    if (piece.arc)
      add_arc(*piece.arc, points);
    else
      points.push_back(piece.from);
  return points;
}

} // namespace post::drawing
