// A page to send, as plain data, and the one HTML file it becomes: no network, no other file.
//
// Knows words, numbers and pictures, not where they come from; every word is escaped. Style and
// script are the files in post/page/, compiled in.
#pragma once

#include "post/page_content.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace post
{

struct PageSection
{
  std::string heading;
  std::string taken_as; ///< "bounded: ...", "estimated"; a mark beside the heading.
  std::vector<PageBlock> blocks;
};

/// @brief What the reader came for.
struct PageAnswer
{
  std::string name;
  std::string value;
  std::string bounds;
};

struct Page
{
  std::string title;
  std::string question; ///< Below the title; lines are kept.
  std::vector<PageAnswer> answers;
  std::vector<PageSection> sections;
  std::string foot;
};

/// @brief The whole file.
std::string html(const Page& page);

/// @brief Text as it stands in HTML, in and outside of quoted attributes; no control characters.
std::string escaped(std::string_view text);

/// @brief Style sheet and script of every page.
std::string_view page_style();
std::string_view page_script();

} // namespace post
