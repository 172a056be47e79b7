// Headings of a CSV table: the name, the unit, and the column that has a name.
#include "cases/csv.hpp"

#include <algorithm>

namespace cases
{
namespace
{

std::string_view trimmed(std::string_view text)
{
  const std::size_t from = text.find_first_not_of(" \t");
  return from == std::string_view::npos
             ? std::string_view()
             : text.substr(from, text.find_last_not_of(" \t") - from + 1);
}

/// The name in small letters, without spaces, _ and -.
std::string plain_name(std::string_view name)
{
  std::string plain;
  for (const char letter : name)
  {
    if (std::string_view(" \t_-").find(letter) == std::string_view::npos)
    {
      plain += letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
    }
  }
  return plain;
}

} // namespace

Heading heading(std::string_view cell)
{
  for (const std::string_view pair : {"[]", "()"})
  {
    const std::size_t open = cell.find(pair[0]);
    const std::size_t close = cell.rfind(pair[1]);
    if (open != std::string_view::npos && close != std::string_view::npos && close > open)
    {
      const std::string_view name = trimmed(cell.substr(0, open));
      const bool slash = name.ends_with('/'); // H / (A/m)
      return {std::string(trimmed(name.substr(0, name.size() - (slash ? 1 : 0)))),
              std::string(trimmed(cell.substr(open + 1, close - open - 1)))};
    }
  }
  const std::size_t slash = cell.find('/');
  if (slash == std::string_view::npos)
  {
    return {std::string(trimmed(cell)), {}};
  }
  return {std::string(trimmed(cell.substr(0, slash))),
          std::string(trimmed(cell.substr(slash + 1)))};
}

std::optional<std::size_t> column_index(const CsvTable& table, std::span<const std::string> names)
{
  for (std::size_t i = 0; i < table.header.size(); ++i)
  {
    const std::string written = plain_name(heading(table.header[i].text).name);
    if (std::ranges::any_of(names,
                            [&](const std::string& name) { return plain_name(name) == written; }))
    {
      return i;
    }
  }
  return std::nullopt;
}

} // namespace cases
