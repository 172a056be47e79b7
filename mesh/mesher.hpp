// From the lines of a skeleton to triangles: the coarse mesh refinement starts from.
#pragma once

#include "mesh/skeleton.hpp"

namespace mesh
{

/// @brief Coarse conforming mesh of the box around the layout, regions and conductors assigned.
///
/// Calls from several threads wait for each other: the mesh generator has one global state.
/// @throws std::runtime_error when no valid mesh is found.
Mesh coarse_mesh(const Layout& layout, Portion portion = Portion::whole);

} // namespace mesh
