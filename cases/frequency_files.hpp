// Impedance over frequency as files: a table, scattering parameters, charts, a netlist.
#pragma once

#include "post/result.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace cases
{

/// @brief Writes insertion.csv, impedance.csv, impedance.sNp and, for several frequencies,
/// ladder.cir and charts of R, L and Q.
/// @return File names relative to the folder.
/// @throws std::runtime_error naming the path that could not be written.
std::vector<std::string> write_frequency_files(const std::filesystem::path& folder,
                                               const post::Result& result);

} // namespace cases
