// Characters that a terminal or a browser obeys instead of showing.
#pragma once

#include <cstddef>
#include <string_view>

namespace post
{

/// @brief Bytes of a control character of UTF-8 at a place, 0 where none begins.
///
/// U+0000 to U+001F, U+007F to U+009F, the line and paragraph separators, and what turns the
/// direction of the text after it (U+202A to U+202E, U+2066 to U+2069), so that numbers would read
/// otherwise.
std::size_t control_at(std::string_view text, std::size_t at);

} // namespace post
