// Impedance over frequency as files: a table, scattering parameters, charts.
#pragma once

#include "post/frequency.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace cases
{

/// @brief Writes impedance.csv, impedance.sNp and, for several frequencies, charts of R, L and Q.
/// @return File names relative to the folder.
/// @throws std::runtime_error naming the path that could not be written.
std::vector<std::string> write_frequency_files(const std::filesystem::path& folder,
                                               const std::string& title,
                                               const std::vector<post::FrequencyResult>& results);

} // namespace cases
