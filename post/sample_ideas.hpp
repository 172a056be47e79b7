// Which sample would tell a permeability better, worked out by solving each.
//
// For an assumed permeability, what interval a reading of the same tolerance would leave: on the
// sample as it is, on a longer one, with the coil short and in its middle, and on a closed ring.
#pragma once

#include "post/uncertainty.hpp"
#include "solver/problem.hpp"

#include <string>
#include <vector>

namespace post
{

struct SampleIdea
{
  std::string what;        ///< "the part 4 times as long (240 mm)"
  double inductance = 0.0; ///< A meter would read [H].
  Interval interval;       ///< Of the permeability; an end beyond the range tried is infinite.
  bool bounded = true;     ///< Field solutions; false: a hand formula.
};

/// @brief Ideas in the order above; the first is the sample as it is.
/// @param problem    Its accuracy is that of the field's bracket.
/// @param material   Whose permeability is unknown.
/// @param winding    Index of the one that is read.
/// @param assumed    Permeability the sample is taken to have.
/// @param tolerance  Relative half-width of a reading.
/// @param threads    As in solver::solve().
std::vector<SampleIdea> sample_ideas(const solver::Problem& problem, const std::string& material,
                                     std::size_t winding, double assumed, double tolerance,
                                     int threads);

} // namespace post
