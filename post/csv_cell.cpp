// Quotes doubled inside quotes.
#include "post/csv_cell.hpp"

namespace post
{

std::string csv_cell(const std::string& text)
{
  if (text.find_first_of(",\"\r\n") == std::string::npos)
    return text;
  std::string out = "\"";
  for (const char letter : text)
    out += letter == '"' ? std::string("\"\"") : std::string(1, letter);
  return out + "\"";
}

} // namespace post
