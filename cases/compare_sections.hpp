// Parts of what `compare` tells and draws that look at frequency.
#pragma once

#include "cases/case.hpp"
#include "cases/sheet.hpp"
#include "post/chart.hpp"
#include "post/frequency_comparison.hpp"

#include <filesystem>
#include <span>
#include <string>
#include <utility>
#include <vector>

namespace cases
{

/// @brief How the report calls a case: its file's stem, numbered where stems repeat.
std::vector<std::string> labels(std::span<const Case> read);

/// @brief Tables over the common frequencies, and which were left out; empty without any.
/// @param names  How the report calls the cases.
Sheet compared_frequency_text(std::span<const post::Result> results,
                              std::span<const std::string> names);

/// @brief R and L of all cases' windings over all their own frequencies, with the names of files.
std::vector<std::pair<std::string, post::Chart>>
comparison_charts(std::span<const post::Result> results, std::span<const std::string> names);

/// @brief Writes them.
/// @return File names relative to the folder.
std::vector<std::string> write_comparison_charts(const std::filesystem::path& folder,
                                                 std::span<const post::Result> results,
                                                 std::span<const std::string> names);

} // namespace cases
