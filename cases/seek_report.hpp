// What a search found, as people and programs read it: text, JSON, chart.
#pragma once

#include "cases/search_key.hpp"
#include "post/chart.hpp"
#include "post/seek.hpp"

#include <optional>
#include <string>
#include <vector>

namespace cases
{

struct SeekReport
{
  SearchCase searched;
  SearchKey key;
  std::string owner; ///< Winding or part that is to have it.
  std::string show;  ///< Which of shown_words() is to meet the target.
  post::SeekQuestion question;
  post::Sought found;
  std::string method; ///< How the values were solved, a sentence.
  double accuracy_asked = 1e-3;
  std::vector<std::string> files;
};

/// @brief "ok", "not met" or "accuracy not reached".
std::string seek_status(const SeekReport& report);
/// @brief The value, its interval, what was tried, and what it means.
std::string seek_text(const SeekReport& report);
/// @brief The document of `sweep --seek --json` and seek.json; ends in a newline.
std::string seek_document(const SeekReport& report);
/// @brief What was tried, and the target as a level line; nothing where too little was tried.
std::optional<post::Chart> seek_chart(const SeekReport& report);

} // namespace cases
