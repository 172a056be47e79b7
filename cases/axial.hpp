// Straight wires and toroids of a case, and what they come to.
#pragma once

#include "post/axial.hpp"
#include "post/bias.hpp"
#include "solver/problem.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace cases
{

/// @brief A straight conductor along the axis with its coatings, inside out [m].
struct StraightWire
{
  std::string name;
  std::string material;
  double diameter = 0.0;
  std::vector<mesh::Coating> coatings;
  std::optional<double> length;
};

/// @brief A winding around the section of a ring-shaped part.
struct Toroid
{
  std::string name;
  double turns = 0.0;
  std::string around; ///< Name of the part.
};

/// @brief Each wire at a frequency [Hz]; 0: at rest.
std::vector<post::WireResult> wire_results(const std::vector<StraightWire>& wires,
                                           const solver::Problem& problem, double frequency);
/// @brief Each toroid at each frequency [Hz], ascending; 0: at rest. What lies inside the winding
///        counts: the part, its coating, parts inside it.
/// @param threads  Frequencies solved at once where the field is needed.
std::vector<std::vector<post::ToroidResult>> toroid_results(const std::vector<Toroid>& toroids,
                                                            const solver::Problem& problem,
                                                            std::span<const double> frequencies,
                                                            int threads);

/// @brief Adds toroids to each working point of the problem, as windings that are exact but for
///        quadrature; a core without a curve is linear.
void add_toroids(const std::vector<Toroid>& toroids, const solver::Problem& problem,
                 post::BiasCurve& curve);

} // namespace cases
