// The starter cases compiled into the program, one a file of cases/starters/.
#pragma once

#include <span>
#include <string_view>

namespace cases
{

/// @brief A commented case to begin from.
struct Starter
{
  std::string_view kind; ///< Name of its file without the ending.
  std::string_view text; ///< The file, character for character.
};

/// @brief Every starter, by name.
std::span<const Starter> starters();

} // namespace cases
