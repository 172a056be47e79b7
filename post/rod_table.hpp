// Numbers behind cylinder_factors(): computed factors of solid cylinders along their axis.
#pragma once

#include <array>

namespace post
{

inline constexpr std::array table_aspects = {0.1,  0.14, 0.2,  0.3,  0.5,  0.7,  1.0,
                                             1.4,  2.0,  3.0,  5.0,  7.0,  10.0, 14.0,
                                             20.0, 30.0, 50.0, 70.0, 100.0};
/// Then endless.
inline constexpr std::array table_susceptibilities = {0.0,  0.3,  1.0,   3.0,   9.0,
                                                      30.0, 99.0, 300.0, 999.0, 3000.0};

using CylinderRow = std::array<double, table_susceptibilities.size() + 1>;
/// @brief Six digits, one row an aspect, one column a susceptibility.
extern const std::array<CylinderRow, table_aspects.size()> ballistic_table;
extern const std::array<CylinderRow, table_aspects.size()> magnetometric_table;

} // namespace post
