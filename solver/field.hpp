// The field of a solution at any point: all windings as driven, background included.
//
// B and H are the mean of the flux side (B, nu B) and the potential side (mu H, H): the middle of
// the hypercircle, whose distance from the true field is exactly half the gap [Prager-Synge 1947].
#pragma once

#include "mesh/scene.hpp"
#include "solver/form.hpp"

#include <Eigen/Core>

#include <array>
#include <vector>

namespace solver
{

struct Solution;

/// @brief Field at one point.
struct FieldPoint
{
  double flux = 0.0; ///< Through the circle of the point [Wb].
  double B_r = 0.0;  ///< [T]
  double B_z = 0.0;
  double H_r = 0.0; ///< [A/m]
  double H_z = 0.0;
  int region = 0; ///< Index into the layout's regions.
};

/// @brief Current of each source: the problem's currents, then 1 for the background [A].
Eigen::VectorXd drive(const Solution& solution);

/// @brief Both solutions combined for given source currents.
struct DrivenField
{
  Eigen::VectorXd flux;                ///< Flux function, background left out [Wb / 2 pi].
  Eigen::VectorXd potential;           ///< Continuous part [A].
  std::vector<Eigen::Vector3d> offset; ///< Of T, one a triangle [A].
  std::vector<double> ampere_turns;    ///< One a conductor [A].
  double background = 0.0;             ///< [T]
};
DrivenField driven_field(const Solution& solution, const Eigen::VectorXd& currents);

/// @brief The same barycentric points in any triangle, their shape functions evaluated once.
class FieldPoints
{
public:
  FieldPoints(int order, std::vector<std::array<double, 3>> lambda);
  /// @brief Field at each of the points.
  std::vector<FieldPoint> in(const Solution& solution, const DrivenField& driven,
                             int triangle) const;

private:
  std::vector<std::array<double, 3>> _lambda;
  ShapeTable _shapes;
};
/// @brief Field inside one triangle at a barycentric point.
FieldPoint field_in(const Solution& solution, const DrivenField& driven, int triangle,
                    const std::array<double, 3>& lambda);

/// @brief Where a point lies: in a triangle, or beyond the box on a ray.
struct Place
{
  int triangle = -1;
  std::array<double, 3> lambda{1.0 / 3.0, 1.0 / 3.0, 1.0 / 3.0};
  int exterior = -1;
  double y = 0.0; ///< Along the box edge.
  double t = 1.0; ///< Along the ray.
};
/// @param point  Above the mirror, where the mesh is halved.
Place locate(const Space& space, mesh::Point point);

/// @brief What one flux function gives at a point, no background in it.
struct FluxPoint
{
  double flux = 0.0; ///< Through the circle of the point [Wb].
  double B_r = 0.0;  ///< [T]
  double B_z = 0.0;
};
FluxPoint flux_at(const Space& space, const Place& place, mesh::Point point,
                  const Eigen::VectorXd& flux);

/// @brief Field anywhere in space; on a material edge, one of the two sides.
FieldPoint field_at(const Solution& solution, const DrivenField& driven, mesh::Point point);

} // namespace solver
