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
  double inductance = 0.0; ///< [H]
  double half_unit = 0.0;  ///< Half a unit of the last digit claimed [H].
};
const std::vector<RodCoil>& rod_coils();
/// @brief False for the entries that contradict both their neighbours and guaranteed bounds.
bool trusted(const RodCoil& row);

} // namespace reference
