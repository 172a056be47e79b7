// Saturating materials at rest: the field of given currents, with a bracket of its coenergy.
//
// No hysteresis: a curve is followed up and down alike. What is guaranteed is the coenergy and,
// because that is convex in the currents, every flux linkage [DEVELOPERS.md, saturation].
#pragma once

#include "solver/convex_energy.hpp"
#include "solver/problem.hpp"
#include "solver/sides.hpp"

#include <memory>
#include <string>

namespace solver
{

/// @brief A scene on one mesh, ready for any currents.
struct Stage
{
  mesh::Layout layout;
  std::vector<RegionLaw> laws; ///< One a region; curves belong to the problem's materials.
  Space space;
  std::vector<Source> sources; ///< One a winding at 1 A.
  UnitMatrices unit;
  double geometry_error = 0.0; ///< Relative, of misplaced curves.
};

/// @brief A number between guaranteed bounds.
struct Linkage
{
  double value = 0.0; ///< Mean of both sides of the field [Wb].
  double lower = 0.0;
  double upper = 0.0;
};

struct Saturated
{
  Problem problem;
  std::shared_ptr<const Stage> stage;
  Eigen::VectorXd currents;  ///< One a winding [A].
  Eigen::VectorXd flux;      ///< psi, the background left out [Wb / 2 pi].
  Eigen::VectorXd potential; ///< Continuous part [A].
  double lower = 0.0;        ///< Bounds of the coenergy, a background's own left out [J].
  double upper = 0.0;
  Eigen::VectorXd gap;                 ///< Triangles, then exteriors [J].
  std::vector<double> region_energy;   ///< int w dV, flux side [J].
  std::vector<double> region_coenergy; ///< int w* dV, field side [J].
  std::vector<Linkage> linkage;        ///< One a winding, a background's own left out.
  Eigen::MatrixXd incremental;         ///< d linkage / d current, mean of both sides [H].
  Eigen::MatrixXd incremental_spread;  ///< Half the difference of the sides [H].
  Eigen::MatrixXd flux_response;       ///< Change of psi by 1 A more, one column a winding.
  std::vector<double> decrements;      ///< Of Newton's method on the flux side [J].
  std::vector<double> steps;           ///< Shares of its steps.
  int iterations = 0;                  ///< Of both sides.
  int refinements = 0;
  int unknowns = 0;          ///< Of both sides.
  double accuracy_met = 0.0; ///< Half-width of the coenergy's bracket over its middle.
  bool accuracy_reached = false;
  std::string limit; ///< Why it was not reached, in plain words.
};

/// @brief Whether a material of the problem's bodies has a magnetisation curve.
bool saturates(const Problem& problem);

/// @brief Solves for given currents, refining until the coenergy's bracket is as narrow as asked.
/// @param currents  One a winding, at least one not zero unless there is a background [A].
/// @param start     A solution of the same problem, whose mesh and field to begin with; or null.
/// @throws std::invalid_argument for a problem with nothing to solve or an unknown material.
/// @throws std::runtime_error when meshing, a factorisation or Newton's method fails.
Saturated solve_saturated(const Problem& problem, const Eigen::VectorXd& currents,
                          const Saturated* start = nullptr);

/// @brief The same for a list of currents that share meshes; the order is that of the list.
/// @param threads  The numbers do not depend on it.
/// @param mesh     To begin with, of the same scene; null: a coarse one.
std::vector<Saturated> saturation_curve(const Problem& problem,
                                        const std::vector<Eigen::VectorXd>& currents, int threads,
                                        const mesh::Mesh* mesh = nullptr);

/// @brief Impedance of all windings to a small ripple about a bias [ohm]: flux densities move along
///        the tangent of each curve, eddy currents flow. Estimated: it has no disc, and is as good
///        as the solution's mesh.
/// @param frequency  > 0 [Hz].
Eigen::MatrixXcd small_signal(const Saturated& bias, double frequency);

} // namespace solver
