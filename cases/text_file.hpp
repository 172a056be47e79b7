// The text of a file that a person named, or the fault that it has none.
#pragma once

#include <filesystem>
#include <string>

namespace cases
{

/// @brief The whole text, UTF-8, at most 1 MiB, a byte order mark taken off.
/// @throws CaseError for a file that is missing, no file, unreadable, empty, too large or not
/// UTF-8.
std::string read_text(const std::filesystem::path& path);

} // namespace cases
