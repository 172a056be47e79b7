// What `--help` prints, in plain words.
#pragma once

#include <string>
#include <string_view>

namespace cases
{

/// @brief Help for a command, or for ferrule itself where `command` is empty or unknown.
std::string help(std::string_view command);

} // namespace cases
