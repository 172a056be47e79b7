// Grids of numbers and the plain scenes that the families of the check are made of. Internal.
#pragma once

#include "post/formula_check.hpp"

#include <string>
#include <vector>

namespace post
{

/// @brief `count` values from end to end, evenly in the logarithm; 2 count - 1 where `fine`.
CheckAxis logarithmic(std::string label, double from, double to, int count, bool fine);
/// @brief Likewise, evenly.
CheckAxis even(std::string label, double from, double to, int count, bool fine);
/// @brief Values charted by their names, four digits each.
CheckAxis listed(std::string label, std::vector<double> values);
/// @brief Values with names of their own.
CheckAxis named(std::string label, std::vector<std::string> names);

/// @brief One winding "coil" of a plain section [m].
solver::Problem wound(const mesh::Block& block, double turns, double centre = 0.0);
/// @brief One winding "coil" drawn turn by turn.
solver::Problem wound(const mesh::RoundTurns& turns, double count);
/// @brief Adds a part named after its own material.
void add_body(solver::Problem& problem, const std::string& name, const mesh::Shape& shape,
              double permeability, double centre = 0.0);

std::vector<CheckFamily> coil_families(bool fine);
std::vector<CheckFamily> turn_families(bool fine);
std::vector<CheckFamily> core_families(bool fine);
std::vector<CheckFamily> background_families(bool fine);

} // namespace post
