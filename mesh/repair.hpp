// Bent triangles that refinement folded over, made sound again.
#pragma once

#include "mesh/refinement.hpp"

namespace mesh
{

/// @brief Turns diagonals, else halves bent edges, until none of the waiting triangles nor those
/// made
///        on the way folds.
///
/// A straight edge laid near a bent one may cut it; the other diagonal of its quadrilateral often
/// does not, and each halving brings the bent edge four times nearer to its chord.
/// @return False where a bounded number of steps did not do.
bool unfold(Refinement& work, std::vector<int> waiting);
/// @brief The same for the triangles made since the last call.
bool unfold_fresh(Refinement& work);

} // namespace mesh
