// Case files at several values of their keys: what `compare --vary` sets side by side.
#pragma once

#include "cases/commands.hpp"

#include <filesystem>
#include <vector>

namespace cases
{

/// @brief Every file at the first value of Options::vary, then every file at the next; the files as
///        they are where nothing varies. Title and Case::variant tell the value.
///
/// Of keys that move alike a file keeps those whose part, winding or material it has.
/// @throws CaseError with the faults of all files, or where a file has none of the keys.
std::vector<Case> read_variants(const std::vector<std::filesystem::path>& files,
                                const Options& options);

} // namespace cases
