// A temperature field as a sheet: bodies coloured by how far they are above the air around.
#pragma once

#include "post/drawing/page.hpp"

namespace post::drawing
{

/// @brief Everything placed, without flux lines; open air stays white.
/// @param layout  With windings as the sections they take up.
/// @param point   Index into result.heat.points.
Page warm_page(const Sample& sample, const mesh::Layout& layout, const Result& result,
               std::size_t point);

} // namespace post::drawing
