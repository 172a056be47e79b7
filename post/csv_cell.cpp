// Quotes doubled inside quotes.
#include "post/csv_cell.hpp"

#include <cstdlib>

namespace post
{

namespace
{

/// Whether a spreadsheet would work it out: a sign that no plain number follows, = or @ in front.
bool is_formula(const std::string& text)
{
  if (text.empty() || std::string_view("=@+-").find(text[0]) == std::string_view::npos)
  {
    return false;
  }
  char* end = nullptr;
  std::strtod(text.c_str(), &end);
  return end == text.c_str() ||
         std::string_view(end).find_first_of("=@+-*/|!(") != std::string::npos;
}

} // namespace

std::string csv_cell(const std::string& text)
{
  std::string shown = (is_formula(text) ? "'" : "") + text;
  if (shown.find_first_of(",\"\r\n") == std::string::npos)
    return shown;
  std::string out = "\"";
  for (const char letter : shown)
    out += letter == '"' ? std::string("\"\"") : std::string(1, letter);
  return out + "\"";
}

} // namespace post
