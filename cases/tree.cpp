// The TOML library's document copied into our tree of plain values.
#define TOML_HEADER_ONLY 0
#include "cases/tree.hpp"

#include "cases/wording.hpp"

#include <algorithm>
#include <cctype>
#include <toml++/toml.h>

namespace cases
{
namespace
{

constexpr int deepest = 64; // keys of a case nest four deep

SourcePlace place(const toml::source_region& source, const std::string& file)
{
  return {file, static_cast<int>(source.begin.line), static_cast<int>(source.begin.column)};
}

Node copied(const toml::node& node, const std::string& file);

Entries copied_table(const toml::table& table, const std::string& file)
{
  Entries entries;
  for (auto&& [key, node] : table)
  {
    entries.push_back({std::string(key.str()), place(key.source(), file), copied(node, file)});
  }
  // The library sorts by key; people read from the top.
  std::stable_sort(entries.begin(), entries.end(),
                   [](const Entry& a, const Entry& b) {
                     return std::pair(a.where.line, a.where.column) <
                            std::pair(b.where.line, b.where.column);
                   });
  return entries;
}

Node copied(const toml::node& node, const std::string& file)
{
  Node copy{Moment{}, place(node.source(), file)};
  if (const toml::table* table = node.as_table())
  {
    copy.value = copied_table(*table, file);
    copy.header = !table->is_inline();
  }
  else if (const toml::array* array = node.as_array())
  {
    List list;
    for (const toml::node& element : *array)
    {
      list.push_back(copied(element, file));
    }
    copy.header = !list.empty() && list.front().header;
    // A list of [[tables]] has the place of its first header, not of the name within it.
    copy.where = copy.header ? list.front().where : copy.where;
    copy.value = std::move(list);
  }
  else if (const auto* text = node.as_string())
  {
    copy.value = text->get();
  }
  else if (const auto* whole = node.as_integer())
  {
    copy.value = static_cast<double>(whole->get());
  }
  else if (const auto* number = node.as_floating_point())
  {
    copy.value = number->get();
  }
  else if (const auto* flag = node.as_boolean())
  {
    copy.value = flag->get();
  }
  return copy;
}

/// Index after the string that opens at `at`, or after the quote where its line closes none.
std::size_t after_string(std::string_view text, std::size_t at)
{
  for (std::size_t i = at + 1; i < text.size() && text[i] != '\n'; ++i)
  {
    if (text[i] == '\\' && text[at] == '"')
    {
      ++i;
    }
    else if (text[i] == text[at])
    {
      return i + 1;
    }
  }
  return at + 1;
}

/// Line of a dotted key longer than any case has, 0 where there is none.
///
/// The library follows dots by recursion: half a million of them end the program.
int too_deep_line(std::string_view text)
{
  enum class Before
  {
    nothing,
    piece, ///< A bare word or a string.
    space, ///< White space after a piece.
    dot
  };
  Before before = Before::nothing;
  int dots = 0;
  for (std::size_t at = 0; at < text.size();)
  {
    const auto letter = static_cast<unsigned char>(text[at]);
    const bool quote = letter == '"' || letter == '\'';
    const bool piece = quote || std::isalnum(letter) != 0 || letter == '_' || letter == '-';
    at = quote ? after_string(text, at) : at + 1;
    if (letter == ' ' || letter == '\t')
    {
      before = before == Before::piece ? Before::space : before;
      continue;
    }
    const bool joins = piece
                           ? before != Before::space
                           : letter == '.' && (before == Before::piece || before == Before::space);
    dots = joins ? dots + (letter == '.' ? 1 : 0) : 0;
    before = piece ? Before::piece : letter == '.' ? Before::dot : Before::nothing;
    if (dots > deepest)
    {
      const auto end = text.begin() + static_cast<std::ptrdiff_t>(at);
      return 1 + static_cast<int>(std::count(text.begin(), end, '\n'));
    }
  }
  return 0;
}

} // namespace

Node tree(std::string_view text, const std::string& file)
{
  if (const int line = too_deep_line(text); line > 0)
  {
    throw CaseError({{{file, line},
                      "this line has a name of more than 64 dotted pieces",
                      "a key is at most table.name.key.key"}});
  }
  try
  {
    return copied(toml::parse(text, file), file);
  }
  catch (const toml::parse_error& error)
  {
    throw CaseError({syntax_fault(text, place(error.source(), file), error.description())});
  }
}

std::optional<Node> value(std::string_view text, const SourcePlace& where)
{
  try
  {
    const Node document = tree("value = " + std::string(text), where.file);
    const Entries& entries = std::get<Entries>(document.value);
    if (entries.size() != 1 || entries.front().key != "value")
    {
      return std::nullopt;
    }
    Node node = entries.front().node;
    const auto place_all = [&where](auto&& again, Node& at) -> void
    {
      at.where = where;
      if (auto* list = std::get_if<List>(&at.value))
      {
        std::ranges::for_each(*list, [&](Node& element) { again(again, element); });
      }
      else if (auto* table = std::get_if<Entries>(&at.value))
      {
        for (Entry& entry : *table)
        {
          entry.where = where;
          again(again, entry.node);
        }
      }
    };
    place_all(place_all, node);
    return node;
  }
  catch (const CaseError&)
  {
    return std::nullopt;
  }
}

Entry* find(Entries& table, std::string_view key)
{
  const auto found = std::ranges::find(table, key, &Entry::key);
  return found == table.end() ? nullptr : &*found;
}

const Entry* find(const Entries& table, std::string_view key)
{
  const auto found = std::ranges::find(table, key, &Entry::key);
  return found == table.end() ? nullptr : &*found;
}

std::string as_written(const Node& node)
{
  struct Words
  {
    std::string operator()(const std::string& text) const { return in_quotes(text); }
    std::string operator()(double number) const { return written(number); }
    std::string operator()(bool flag) const { return flag ? "true" : "false"; }
    std::string operator()(const Moment&) const { return "a date or time"; }
    std::string operator()(const List&) const { return "a list"; }
    std::string operator()(const Entries&) const { return "a table"; }
  };
  return std::visit(Words{}, node.value);
}

} // namespace cases
