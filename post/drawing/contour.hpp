// Lines of equal flux through a sample, as long chains.
#pragma once

#include "mesh/outline.hpp"
#include "post/sample.hpp"

#include <array>
#include <span>
#include <vector>

namespace post::drawing
{

/// @brief A chain of points where the flux equals `flux` [Wb]: by turns on an edge of a triangle,
///        on the cubic that has the sample's flux and flux density at both ends, and midway through
///        the triangle, on a curve along the flux density.
struct FluxLine
{
  double flux = 0.0;
  std::vector<mesh::Point> points; ///< [m]; a closed line ends where it starts.
};

/// @brief Every line of the given levels that meets the window; whole triangles, not cut at it.
std::vector<FluxLine> flux_lines(const Sample& sample, std::span<const double> levels,
                                 const mesh::Extent& window);

/// @brief The chain with every point left out that lies within `distance` [m] of what remains
///        (Douglas & Peucker 1973); the ends stay.
std::vector<mesh::Point> simplified(std::span<const mesh::Point> chain, double distance);

/// @brief Whether the triangle has finite corners and its box meets the window.
bool meets(const Sample& sample, const std::array<int, 3>& triangle, const mesh::Extent& window);

} // namespace post::drawing
