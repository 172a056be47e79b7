// A report as people read it, before it is set: titles, headings, paragraphs and tables in order.
//
// Built by the *_text.cpp files, set 80 columns wide by printed() and as a web page by
// report_blocks.cpp; so terminal and page say the same words. Knows strings only.
#pragma once

#include "cases/table.hpp"

#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace cases
{

/// @brief The first line of a report, underlined.
struct Title
{
  std::string words;
};

/// @brief A section's first line, and how its numbers are to be taken: "bounded", "estimated" ...
struct Headline
{
  std::string what;
  std::string taken_as;
};

struct Paragraph
{
  std::string words;
  int indent = 2;
  int hang = 2;
  bool apart = false; ///< A blank line before it: it belongs to no section.
};

using SheetBlock = std::variant<Title, Headline, Paragraph, Table>;

/// @brief Blocks in order; where a string is wanted, they are set as text.
struct Sheet
{
  std::vector<SheetBlock> blocks;

  bool empty() const { return blocks.empty(); }
  Sheet& operator+=(const Sheet& more);
  operator std::string() const;
};

Sheet operator+(Sheet first, const Sheet& then);
std::string operator+(const Sheet& first, std::string_view then);
std::string operator+(const std::string& first, const Sheet& then);
bool operator==(const Sheet& sheet, std::string_view text);

/// @brief The blocks as text, 80 columns wide.
std::string printed(const Sheet& sheet);

Sheet title(std::string_view words);
/// @brief A section's first line: what it holds, and in brackets how its numbers are to be taken.
Sheet heading(std::string_view what, std::string_view taken_as = {});
/// @brief A paragraph; the first line starts at `indent`, the rest at `hang`.
Sheet wrapped(std::string_view words, int indent = 2, int hang = 2);
/// @brief A closing paragraph, apart from the section before it.
Sheet apart(std::string_view words, int hang = 0);
Sheet text(Table table);

} // namespace cases
