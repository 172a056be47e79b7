// The field of a solution at any point: all windings as driven, background included.
#pragma once

#include "mesh/scene.hpp"

#include <Eigen/Core>

#include <array>

namespace solver
{

struct Solution;

/// @brief Field from the flux function at one point.
struct FieldPoint
{
  double flux = 0.0; ///< Through the circle of the point [Wb].
  double B_r = 0.0;  ///< [T]
  double B_z = 0.0;
  double H_r = 0.0; ///< nu B [A/m]
  double H_z = 0.0;
  int region = 0; ///< Index into the layout's regions.
};

/// @brief Current of each source: the problem's currents, then 1 for the background [A].
Eigen::VectorXd drive(const Solution& solution);

/// @brief The flux function's coefficients for given source currents [Wb / 2 pi].
struct DrivenFlux
{
  Eigen::VectorXd coefficients;
  double background = 0.0; ///< [T], added to the coefficients' field.
};
DrivenFlux driven_flux(const Solution& solution, const Eigen::VectorXd& currents);

/// @brief Field inside one triangle at a barycentric point.
FieldPoint field_in(const Solution& solution, const DrivenFlux& flux, int triangle,
                    const std::array<double, 3>& lambda);

/// @brief Field anywhere in space; on a material edge, one of the two sides.
FieldPoint field_at(const Solution& solution, const DrivenFlux& flux, mesh::Point point);

} // namespace solver
