// One cell of a CSV file that ferrule writes.
#pragma once

#include <string>

namespace post
{

/// @brief Quoted where it holds a comma, a quotation mark or a new line (RFC 4180). Before what a
///        spreadsheet would take for a formula stands an apostrophe (common practice, no source).
std::string csv_cell(const std::string& text);

} // namespace post
