// Text for people: aligned tables and wrapped sentences, 80 columns wide.
//
// Knows strings only, not what they say.
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
};

/// @brief The table, indented by two, two spaces between columns; ends in a newline.
///
/// A table too wide for the page has the cells of its first column shortened ("long na..").
std::string text(const Table& table);

/// @brief Words broken into lines of the page; the first starts at `indent`, the rest at `hang`.
std::string wrapped(std::string_view words, int indent = 2, int hang = 2);

/// @brief A section's first line: what it holds, and in brackets how its numbers are to be taken.
std::string heading(std::string_view what, std::string_view taken_as = {});

/// @brief One line of text with control characters made visible as "?".
std::string plain(std::string_view words);

/// @brief Columns a UTF-8 text takes, one a code point.
int width(std::string_view words);

} // namespace cases
