// The least value of a convex energy: Newton's method with a search along each step.
#pragma once

#include "solver/convex_energy.hpp"

namespace solver
{

class Factor;

/// @brief Where Newton's method arrived.
struct Minimum
{
  Eigen::VectorXd values;
  std::vector<double> decrements; ///< Twice the decrease each step promised [J].
  std::vector<double> steps;      ///< Share of each step taken; 1 near the minimum.
  Eigen::MatrixXd responses;      ///< Change by 1 A more in each winding, by the last tangent.
  int unknowns = 0;
};

/// @param start      Where to begin.
/// @param touch      Fields at which the first step takes its tangents; empty: those of `start`.
/// @param tolerance  Share of the energy; stops after a step that promises less.
/// @param most_steps  Then what was reached is returned: bounds hold for any of it.
/// @param factor     Keeps the ordering from one use to the next on the same space.
Minimum minimum(const ConvexEnergy& energy, Eigen::VectorXd start, const CurvedFields& touch,
                double tolerance, int most_steps, Factor& factor);

} // namespace solver
