// The files of a bias run: table, chart, netlist.
#pragma once

#include "post/bias.hpp"
#include "post/chart.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace cases
{

/// @brief Secant inductance with its bounds, and incremental, of every winding over current; none
///        without windings or with one current alone.
std::optional<post::Chart> bias_chart(const std::string& title, const post::BiasCurve& curve);

/// @brief Writes bias.csv, the chart of inductance over current, flux-linkage.cir where there is
/// one.
/// @return Names relative to the folder.
std::vector<std::string> write_bias_files(const std::filesystem::path& folder,
                                          const std::string& title, const post::BiasCurve& curve);

} // namespace cases
