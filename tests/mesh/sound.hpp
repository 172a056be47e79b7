// What every outline that offset() returns must be like; shared by its tests.
#pragma once

#include "mesh/piece.hpp"

#include <catch2/catch.hpp>

#include <cmath>

namespace mesh
{

/// A closed chain, counter-clockwise, at r >= 0, with no arc of half a turn and no crumbs.
inline void require_sound(const Outline& outline, double reach)
{
  CHECK(signed_area(outline) > 0);
  for (std::size_t i = 0; i < outline.size(); ++i)
  {
    const Piece& piece = outline[i];
    const Piece& next = outline[(i + 1) % outline.size()];
    CHECK(distance(piece.to, next.from) == 0.0);
    CHECK(piece.from.r >= 0.0);
    CHECK(length(piece) > 1e-6 * reach);
    if (piece.arc)
      CHECK(std::abs(piece.arc->to - piece.arc->from) < 2.2);
  }
}

} // namespace mesh
