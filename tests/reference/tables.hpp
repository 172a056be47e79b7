// Tables computed apart, with where they come from: cylinder_table.cpp and rod_coil_table.cpp.
#pragma once

#include <vector>

namespace reference
{

/// @brief Factors of a cylinder of length over diameter `aspect` and susceptibility chi = mu - 1.
struct CylinderFactor
{
  double aspect = 0.0;
  double susceptibility = 0.0; ///< Infinity in the last column.
  double ballistic = 0.0;      ///< -<H_d>/<M> over the mid-plane.
  double magnetometric = 0.0;  ///< The same over the volume.
};
const std::vector<CylinderFactor>& cylinder_factors();

/// @brief Sheet of radius 5.5 mm and 100 turns about a rod of 10 mm diameter.
struct RodCoil
{
  double rod_length = 0.0;  ///< [m]
  double coil_length = 0.0; ///< [m]
  double offset = 0.0;      ///< Of the coil's middle from the rod's [m].
  double permeability = 1.0;
  double inductance = 0.0; ///< Relative error below 2e-9 [H].
  double former = 0.0;     ///< By an earlier code, where it is right to `half_unit` only [H].
  double half_unit = 0.0;  ///< Half a unit of the last digit it claimed [H].
};
const std::vector<RodCoil>& rod_coils();
/// @brief Whether the former value has the digits it claimed.
bool former_holds(const RodCoil& row);

} // namespace reference
