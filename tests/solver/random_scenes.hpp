// Random but reproducible scenes for the honesty of the bracket.
#pragma once

#include "solver/problem.hpp"

namespace random_scenes
{

/// @brief A scene of one of nine kinds (rods, tubes, sleeves, rings, coatings, turns, nested) with
/// one
///        winding; permeabilities 1 to 1e5, aspect ratios 0.05 to 200, clearances from 1/1000 of
///        the size. Bodies may clash: the caller leaves such scenes out.
solver::Problem problem(unsigned seed);

} // namespace random_scenes
