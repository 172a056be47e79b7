// One mesh of a heat problem at one order: which triangles conduct, which edges give heat off, and
// Newton's method on what they radiate.
#pragma once

#include "solver/heat.hpp"

#include <array>

namespace solver
{

/// @brief What each triangle is to heat.
struct HeatParts
{
  std::vector<bool> open;                   ///< Air that takes heat.
  std::vector<double> conductivity;         ///< Of those that conduct [W/(m K)].
  std::vector<double> density;              ///< Of heat in them [W/m^3].
  std::vector<std::array<bool, 3>> surface; ///< Local edges (0,1) (1,2) (2,0) on open air.
};
HeatParts heat_parts(const HeatProblem& problem, const Space& space);

/// @brief The rise on one space, and the element matrices its last step was made with.
struct HeatStep
{
  Eigen::VectorXd rise;                  ///< [K]
  std::vector<Eigen::MatrixXd> matrices; ///< One a triangle, surfaces included; empty in open air.
  int steps = 0;
  int unknowns = 0;
  bool settled = true; ///< Whether Newton's method came to rest.
};
HeatStep heat_step(const HeatProblem& problem, const HeatParts& parts, const Space& space);

/// @brief Rises of regions and sections, heat lost and given off, into `field`.
void add_heat_sums(const HeatProblem& problem, const HeatParts& parts, HeatField& field);

} // namespace solver
