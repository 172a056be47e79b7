// Loose pieces put end to end into closed outlines; the last step of offset().
#pragma once

#include "mesh/outline.hpp"

#include <vector>

namespace mesh
{

/// @brief Drops pairs that run along the same curve in opposite senses, and repeated ones.
std::vector<Piece> without_doubles(const std::vector<Piece>& pieces, double tolerance);

/// @brief Closed chains of all pieces, ends joined where nearer than `tolerance` [m].
/// @throws std::runtime_error when an end finds no continuation.
std::vector<Outline> chains(std::vector<Piece> pieces, double tolerance);

} // namespace mesh
