// Text for people, 80 columns wide: aligned tables and wrapped lines, as plain strings.
//
// Knows strings only, not what they say; reports are put together in sheet.hpp.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace cases
{

inline constexpr int page_width = 80;

/// @brief Rows of cells; the first column is aligned left, the others right unless named in `left`.
struct Table
{
  std::vector<std::vector<std::string>> rows;
  std::vector<std::size_t> left = {0}; ///< Columns aligned left.
  std::vector<std::string> below = {}; ///< A sentence below each row, or empty; may be shorter.
};

/// @brief The table, indented by two, two spaces between columns; ends in a newline.
///
/// A table too wide for the page has the cells of its first column shortened ("long na..").
std::string printed(const Table& table);

/// @brief Words broken into lines of the page; the first starts at `indent`, the rest at `hang`.
std::string lines(std::string_view words, int indent, int hang);

/// @brief One line of text with control characters made visible as "?".
std::string plain(std::string_view words);

/// @brief Columns a UTF-8 text takes, one a code point.
int width(std::string_view words);

} // namespace cases
