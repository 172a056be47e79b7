// Everything known of a solved problem: mesh, both fields, the bracket, how it was reached.
//
// Owns its numbers. Read by post/; nothing changes it afterwards.
#pragma once

#include "mesh/layout.hpp"
#include "solver/bracket.hpp"
#include "solver/problem.hpp"
#include "solver/sides.hpp"
#include "solver/source.hpp"
#include "solver/space.hpp"

#include <Eigen/Core>

#include <memory>
#include <string>
#include <vector>

namespace solver
{

/// @brief Wall-clock seconds spent in each stage, all refinements together.
struct Timing
{
  double mesh = 0.0;
  double assemble = 0.0;
  double factor = 0.0;
  double bracket = 0.0;
};

struct Solution
{
  Problem problem;
  mesh::Layout layout;
  std::vector<double> permeability; ///< Relative, one a region of the layout.
  Space space; ///< Of the half above the middle where its mesh is halved; field_at() knows all.
  std::vector<Source> sources; ///< One a winding at 1 A, then the background if there is one.
  Eigen::MatrixXd flux;        ///< Flux function psi = r A_phi, one column a source [Wb / 2 pi].
  Eigen::MatrixXd potential;   ///< Continuous part of the scalar potential [A].
  Bracket bracket;
  std::shared_ptr<const UnitElements> unit; ///< Of its space; null where that takes much memory.
  /// As last used, for solve_from(); null where that takes much memory.
  std::shared_ptr<SideFactors> factors;
  int refinements = 0;
  int unknowns = 0;          ///< Of both systems.
  double accuracy_met = 0.0; ///< Largest relative half-width over the sources.
  bool accuracy_reached = false;
  double geometry_error = 0.0; ///< Relative change of L that misplaced curves could make, at most.
  std::string limit;           ///< Why it was not reached, in plain words.
  Timing timing;
};

} // namespace solver
