// Steady heat about the axis: conduction in bodies, their surfaces cooled by air and by radiation.
//
// The row "steady heat" of the one operator: weight r, conductivity as coefficient, an edge matrix
// for what leaves. Estimated: no bracket; the change between two orders refines the mesh. Knows no
// winding and no material: post/heat says what loses what.
#pragma once

#include "mesh/mesh.hpp"
#include "solver/space.hpp"

#include <Eigen/Core>

#include <array>
#include <string>
#include <vector>

namespace solver
{

/// @brief Stefan-Boltzmann constant [W/(m^2 K^4)], exact by the SI of 2019.
inline constexpr double stefan_boltzmann = 5.670374419e-8;

/// @brief What a region or a conductor's section is to heat.
struct HeatSource
{
  double conductivity = 0.0; ///< [W/(m K)]; > 0 for all but open air.
  double heat = 0.0;         ///< Lost in it, evenly over its volume [W].
};

struct HeatProblem
{
  mesh::Mesh mesh; ///< A coarse one to begin on.
  /// One a region. Of region 0, air, only what bodies enclose on all sides conducts; the rest is
  /// open and takes the heat from their surfaces.
  std::vector<HeatSource> regions;
  std::vector<HeatSource> sections; ///< One a conductor's section.
  double ambient = 293.15;          ///< [K]
  double convection = 0.0;          ///< [W/(m^2 K)], the same on every surface.
  double emissivity = 0.0;          ///< Every surface sees the ambient alone.
  double accuracy = 1e-4;           ///< Asked relative change of the energy between two orders.
};

/// @brief One region's or section's temperatures over the ambient.
struct HeatRise
{
  double volume = 0.0;  ///< [m^3]
  double mean = 0.0;    ///< Over the volume [K].
  double hottest = 0.0; ///< At points of a lattice in every triangle [K].
};

struct HeatField
{
  Space space;
  std::vector<bool> open; ///< One a triangle: air that takes heat, where no rise is known.
  Eigen::VectorXd rise;   ///< One a degree of freedom; zero in open air [K].
  std::vector<HeatRise> regions;
  std::vector<HeatRise> sections;
  double heat = 0.0;      ///< Lost in all bodies [W].
  double convected = 0.0; ///< Leaves by convection [W].
  double radiated = 0.0;  ///< Leaves by radiation [W].
  int steps = 0;          ///< Of Newton's method at the higher order.
  int refinements = 0;
  int unknowns = 0;          ///< Of the higher order.
  double accuracy_met = 0.0; ///< Energy of the change between both orders over that of the rise.
  bool accuracy_reached = false;
  std::string limit; ///< Why it was not reached, in plain words.
};

/// @brief Solves until the change between two orders is as small as asked, or a floor is met.
/// @throws std::invalid_argument where nothing takes the heat, or none is lost.
/// @throws std::runtime_error when a factorisation fails.
HeatField solve_heat(const HeatProblem& problem);

/// @brief The rise in a triangle at barycentric coordinates [K]; zero in open air.
double rise_in(const HeatField& field, int triangle, const std::array<double, 3>& lambda);

} // namespace solver
