// Loose pieces put end to end into closed outlines; the last step of offset().
#pragma once

#include "mesh/outline.hpp"

#include <vector>

namespace mesh
{

/// @brief A piece and the number of the longer piece it was cut from.
struct Cutting
{
  Piece piece;
  int source = 0;
};

/// @brief Drops pairs that run along the same curve in opposite senses, and repeated ones.
std::vector<Cutting> without_doubles(std::vector<Cutting> cuttings, double tolerance);

/// @brief Closed chains of all cuttings, ends joined where nearer than `tolerance` [m]; cuttings
///        of one source that follow each other become one piece again.
/// @throws std::runtime_error when an end finds no continuation.
std::vector<Outline> chains(std::vector<Cutting> cuttings, double tolerance);

} // namespace mesh
