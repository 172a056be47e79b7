// Parts of what `compare` tells and draws that look at frequency.
#pragma once

#include "cases/case.hpp"
#include "cases/sheet.hpp"
#include "post/frequency_comparison.hpp"

#include <filesystem>
#include <span>
#include <string>
#include <vector>

namespace cases
{

/// @brief How the report calls a case: its file's stem, numbered where stems repeat.
std::vector<std::string> labels(std::span<const Case> read);

/// @brief Tables over the common frequencies, and which were left out; empty without any.
/// @param names  How the report calls the cases.
Sheet compared_frequency_text(std::span<const post::Result> results,
                              std::span<const std::string> names);

/// @brief Charts of R and L of all cases' windings over all their own frequencies.
/// @return File names relative to the folder.
std::vector<std::string> write_comparison_charts(const std::filesystem::path& folder,
                                                 std::span<const post::Result> results,
                                                 std::span<const std::string> names);

} // namespace cases
