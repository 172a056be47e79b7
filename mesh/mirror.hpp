// Scenes that are their own mirror image about a plane across the axis: half of them is meshed.
//
// What the windings and an axial background drive is then even in the flux function and odd in the
// scalar potential, so that the half above the plane knows everything.
#pragma once

#include "mesh/layout.hpp"
#include "mesh/mesh.hpp"

#include <vector>

namespace mesh
{

/// @brief Whether every region and every winding is its own mirror image about z = middle, to 1e-12
///        of the given size [m].
bool mirrored(const Layout& layout, double middle, double size);

/// @brief What of a piece lies above z = middle or in that plane; ends nearer to the plane than the
///        tolerance are put on it [m].
std::vector<Piece> above(const Piece& piece, double middle, double tolerance);

/// @brief A halved mesh with its mirror image, which takes the same regions; sheets and conductors
///        are left out. Any other mesh as it is.
Mesh whole(const Mesh& mesh);

} // namespace mesh
