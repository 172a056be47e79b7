// Impedance over frequency as files: a table, scattering parameters, charts, a netlist.
#pragma once

#include "post/chart.hpp"
#include "post/result.hpp"

#include <filesystem>
#include <string>
#include <utility>
#include <vector>

namespace cases
{

/// @brief R, L and Q over frequency, those of them that can be drawn; none for a single frequency.
/// @return Each with the name of its files.
std::vector<std::pair<std::string, post::Chart>> frequency_charts(const post::Result& result);

/// @brief Writes insertion.csv, impedance.csv, impedance.sNp and, for several frequencies,
/// ladder.cir and charts of R, L and Q.
/// @return File names relative to the folder.
/// @throws std::runtime_error naming the path that could not be written.
std::vector<std::string> write_frequency_files(const std::filesystem::path& folder,
                                               const post::Result& result);

} // namespace cases
