// Column widths, padding and line breaks.
#include "cases/table.hpp"
#include "post/control.hpp"

#include <algorithm>
#include <sstream>

namespace cases
{

namespace
{

constexpr int table_indent = 2;
constexpr int gap = 2;

std::vector<int> column_widths(const Table& table)
{
  std::vector<int> widths;
  for (const auto& row : table.rows)
  {
    widths.resize(std::max(widths.size(), row.size()), 0);
    for (std::size_t i = 0; i < row.size(); ++i)
    {
      widths[i] = std::max(widths[i], width(row[i]));
    }
  }
  return widths;
}

int total(const std::vector<int>& widths)
{
  int sum = table_indent - gap;
  for (const int one : widths)
  {
    sum += one + gap;
  }
  return sum;
}

/// The first `columns` code points.
std::string first_columns(const std::string& words, int columns)
{
  std::string cut;
  for (const char byte : words)
  {
    if ((static_cast<unsigned char>(byte) & 0xC0U) != 0x80U && columns-- == 0)
    {
      break;
    }
    cut += byte;
  }
  return cut;
}

std::string shortened(const std::string& words, int columns)
{
  return width(words) <= columns ? words : first_columns(words, columns - 2) + "..";
}

/// The words, a per cent sign kept with its number.
std::vector<std::string> unbreakable(std::string_view words)
{
  std::istringstream stream{std::string(words)};
  std::vector<std::string> list;
  for (std::string word; stream >> word;)
  {
    if (word.front() == '%' && !list.empty())
    {
      list.back() += " " + word;
      continue;
    }
    list.push_back(std::move(word));
  }
  return list;
}

} // namespace

int width(std::string_view words)
{
  return static_cast<int>(
      std::count_if(words.begin(), words.end(),
                    [](char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U; }));
}

std::string printed(const Table& table)
{
  constexpr int shortest_name = 8;
  std::vector<int> widths = column_widths(table);
  if (!widths.empty() && total(widths) > page_width)
  {
    widths[0] = std::max(shortest_name, widths[0] - (total(widths) - page_width));
  }
  std::string out;
  for (std::size_t r = 0; r < table.rows.size(); ++r)
  {
    const auto& row = table.rows[r];
    std::string line(table_indent, ' ');
    for (std::size_t i = 0; i < row.size(); ++i)
    {
      const std::string cell = i == 0 ? shortened(row[i], widths[i]) : row[i];
      const std::string space(static_cast<std::size_t>(std::max(0, widths[i] - width(cell))), ' ');
      const bool left = std::find(table.left.begin(), table.left.end(), i) != table.left.end();
      line += left ? cell + space : space + cell;
      line += std::string(gap, ' ');
    }
    out += line.substr(0, line.find_last_not_of(' ') + 1) + "\n";
    out += r < table.below.size() && !table.below[r].empty() ? lines(table.below[r], 6, 8) : "";
  }
  return out;
}

std::string lines(std::string_view words, int indent, int hang)
{
  std::string out, line(static_cast<std::size_t>(indent), ' ');
  bool fresh = true;
  for (const std::string& word : unbreakable(words))
  {
    if (!fresh && width(line) + 1 + width(word) > page_width)
    {
      out += line + "\n";
      line = std::string(static_cast<std::size_t>(hang), ' ');
      fresh = true;
    }
    line += (fresh ? "" : " ") + word;
    fresh = false;
  }
  return out + line + "\n";
}

std::string plain(std::string_view words)
{
  std::string out;
  for (std::size_t at = 0; at < words.size();)
  {
    const std::size_t length = post::control_at(words, at);
    out += length > 0 ? '?' : words[at];
    at += length > 0 ? length : 1;
  }
  return out;
}

} // namespace cases
