// Bent triangles that refinement folded over, made sound again.
#pragma once

#include "mesh/refinement.hpp"

namespace mesh
{

/// @brief Turns diagonals, else halves bent edges, until no triangle made since the last call
/// folds.
///
/// A straight edge laid near a bent one may cut it; the other diagonal of its quadrilateral often
/// does not, and each halving brings the bent edge four times nearer to its chord. Gives up after
/// 200 steps: the caller's elements then say so.
void unfold_fresh(Refinement& work);

} // namespace mesh
