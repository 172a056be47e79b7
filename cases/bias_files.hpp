// The files of a bias run: table, chart, netlist.
#pragma once

#include "post/bias.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace cases
{

/// @brief Writes bias.csv, the chart of inductance over current, flux-linkage.cir where there is
/// one.
/// @return Names relative to the folder.
std::vector<std::string> write_bias_files(const std::filesystem::path& folder,
                                          const std::string& title, const post::BiasCurve& curve);

} // namespace cases
