// How each block looks on the terminal.
#include "cases/sheet.hpp"

#include <algorithm>

namespace cases
{

namespace
{

std::string set(const Title& title)
{
  const int line = std::min(width(title.words), page_width);
  return lines(title.words, 0, 0) + std::string(static_cast<std::size_t>(line), '-') + "\n";
}

std::string set(const Headline& heading)
{
  const std::string marked = heading.taken_as.empty() ? "" : " [" + heading.taken_as + "]";
  return "\n" + lines(heading.what + marked, 0, 2);
}

std::string set(const Paragraph& paragraph)
{
  return (paragraph.apart ? "\n" : "") + lines(paragraph.words, paragraph.indent, paragraph.hang);
}

std::string set(const Table& table)
{
  return printed(table);
}

} // namespace

Sheet& Sheet::operator+=(const Sheet& more)
{
  blocks.insert(blocks.end(), more.blocks.begin(), more.blocks.end());
  return *this;
}

Sheet::operator std::string() const
{
  return printed(*this);
}

Sheet operator+(Sheet first, const Sheet& then)
{
  first += then;
  return first;
}

std::string operator+(const Sheet& first, std::string_view then)
{
  return printed(first) + std::string(then);
}

std::string operator+(const std::string& first, const Sheet& then)
{
  return first + printed(then);
}

bool operator==(const Sheet& sheet, std::string_view text)
{
  return printed(sheet) == text;
}

std::string printed(const Sheet& sheet)
{
  std::string out;
  for (const SheetBlock& block : sheet.blocks)
  {
    out += std::visit([](const auto& one) { return set(one); }, block);
  }
  return out;
}

Sheet title(std::string_view words)
{
  return {{Title{std::string(words)}}};
}

Sheet heading(std::string_view what, std::string_view taken_as)
{
  return {{Headline{std::string(what), std::string(taken_as)}}};
}

Sheet wrapped(std::string_view words, int indent, int hang)
{
  return {{Paragraph{std::string(words), indent, hang, false}}};
}

Sheet apart(std::string_view words, int hang)
{
  return {{Paragraph{std::string(words), 0, hang, true}}};
}

Sheet text(Table table)
{
  return {{std::move(table)}};
}

} // namespace cases
