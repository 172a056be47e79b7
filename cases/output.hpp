// Standard output, checked: what was printed has arrived, or it is an error.
#pragma once

#include <string>

namespace cases
{

/// @brief Writes to standard output and makes sure that it arrived.
/// @throws std::runtime_error when it did not (closed pipe, full disk).
void print(const std::string& text);

} // namespace cases
