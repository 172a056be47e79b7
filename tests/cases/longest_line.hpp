// How wide a printed text is.
#pragma once

#include "cases/table.hpp"

#include <algorithm>
#include <sstream>
#include <string>

/// @brief Columns of the widest line.
inline int longest_line(const std::string& text)
{
  std::istringstream lines(text);
  int longest = 0;
  for (std::string line; std::getline(lines, line);)
  {
    longest = std::max(longest, cases::width(line));
  }
  return longest;
}
