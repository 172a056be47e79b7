// Where a text stops being TOML: the parser's words turned into what to mend.
//
// Its place is where the parser gave up, which for a missing quote is past the value; the line
// itself usually shows what was meant.
#include "cases/tree.hpp"

#include "cases/wording.hpp"

#include <fmt/format.h>

namespace cases
{
namespace
{

std::string_view trimmed(std::string_view text)
{
  const std::size_t from = text.find_first_not_of(" \t\r");
  return from == std::string_view::npos
             ? std::string_view()
             : text.substr(from, text.find_last_not_of(" \t\r") - from + 1);
}

std::string_view line_of(std::string_view text, int number)
{
  for (; number > 1; --number)
  {
    const std::size_t end = text.find('\n');
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
  }
  const std::string_view line = text.substr(0, text.find('\n'));
  return line.ends_with('\r') ? line.substr(0, line.size() - 1) : line;
}

/// `key = value` of a plain line; value without its comment.
struct Assignment
{
  std::string_view key;
  std::string_view value;
  int column = 0; ///< Of the value, from 1.
};

Assignment assignment(std::string_view line)
{
  const std::size_t equals = line.find('=');
  if (equals == std::string_view::npos)
  {
    return {};
  }
  const std::string_view right = line.substr(equals + 1);
  const std::string_view value = trimmed(right.substr(0, right.find('#')));
  return {trimmed(line.substr(0, equals)), value,
          value.empty() ? 0 : static_cast<int>(value.data() - line.data()) + 1};
}

bool is_digit(char letter)
{
  return letter >= '0' && letter <= '9';
}

/// The text without quotes as word processors curl them.
std::string without_curly_quotes(std::string_view text)
{
  std::string plain(text);
  for (const std::string_view quote : {"\u201c", "\u201d", "\u201e", "\u2018", "\u2019"})
  {
    for (std::size_t at = plain.find(quote); at != std::string::npos; at = plain.find(quote))
    {
      plain.erase(at, quote.size());
    }
  }
  return plain;
}

/// Faults of a number or a word without quotes; nothing where the value is of another sort.
std::optional<Fault> bare_value_fault(const Assignment& line, SourcePlace where)
{
  const std::string_view value = line.value;
  if (value.empty() || std::string_view("\"'[{=").find(value[0]) != std::string_view::npos ||
      value.find_first_of("\"'") != std::string_view::npos)
  {
    return std::nullopt;
  }
  where.column = line.column;
  const std::string name(line.key);
  if (const std::string inner = without_curly_quotes(value); inner.size() < value.size())
  {
    return Fault{where, fmt::format("{} = {} has curly quotes", name, value),
                 fmt::format("write straight ones: {} = {}", name, in_quotes(inner))};
  }
  if (same_letters(value, "true") || same_letters(value, "false"))
  {
    return Fault{where, fmt::format("{} is {}, which needs small letters", name, value),
                 fmt::format("write {}", value[0] == 'T' || value[0] == 't' ? "true" : "false")};
  }
  if (value.find_first_not_of("0123456789.,+-_eE ") != std::string_view::npos)
  {
    return Fault{where, fmt::format("{} = {} lacks its quotes", name, value),
                 fmt::format("write {} = {}", name, in_quotes(value))};
  }
  const std::size_t comma = value.find(',');
  if (comma != std::string_view::npos && comma > 0 && comma + 1 < value.size() &&
      is_digit(value[comma - 1]) && is_digit(value[comma + 1]))
  {
    std::string mended(value);
    mended[comma] = '.';
    return Fault{where, fmt::format("{} = {} has a comma in its number", name, value),
                 fmt::format("use a point: {}", mended)};
  }
  if (value.front() == '.' || value.back() == '.')
  {
    return Fault{where, fmt::format("{} = {} lacks a digit beside its point", name, value),
                 fmt::format("write {}{}{}", value.front() == '.' ? "0" : "", value,
                             value.back() == '.' ? "0" : "")};
  }
  return std::nullopt;
}

/// "cannot redefine existing table 'a' as array-of-tables" into plain words.
std::optional<Fault> twice_fault(std::string_view found, const SourcePlace& where)
{
  constexpr std::string_view mark = "cannot redefine existing ";
  const std::size_t at = found.find(mark);
  if (at == std::string_view::npos)
  {
    return std::nullopt;
  }
  const std::size_t open = found.find('\'', at);
  const std::size_t close = found.rfind('\'');
  const std::string name(found.substr(open + 1, close - open - 1));
  if (found.find(" as ", close) != std::string_view::npos)
  {
    return Fault{where, fmt::format("{} is given here in another form than above", in_quotes(name)),
                 "keep to one: [name] for one table, [[name]] for each of several"};
  }
  const bool table = found.substr(at + mark.size()).starts_with("table");
  return Fault{where, fmt::format("{} is given twice", in_quotes(name)),
               table ? "put the keys of both into one table" : "keep one of the two"};
}

/// The text or the line ends inside something that is open.
std::optional<Fault> open_end_fault(std::string_view found, std::string_view line,
                                    const SourcePlace& where)
{
  if (found.find("encountered end-of-file") == std::string_view::npos &&
      static_cast<int>(line.size()) >= where.column)
  {
    return std::nullopt;
  }
  struct Closing
  {
    std::string_view context;
    const char* what;
    const char* cure;
  };
  const Assignment parts = assignment(line);
  SourcePlace start = where; // of the text that has no end
  start.column = parts.value.starts_with('"') ? parts.column : where.column;
  for (const Closing& closing :
       {Closing{"parsing string", "the text in quotes has no end", "close the quotes"},
        Closing{"parsing array", "the list has no end", "close the bracket ]"},
        Closing{"parsing inline table", "the table in braces has no end on its line",
                "close the brace } on the same line"},
        Closing{"parsing table header", "the table's header has no end",
                "close the bracket: [drive], [materials.core] or [[parts]]"}})
  {
    if (found.find(closing.context) != std::string_view::npos)
    {
      return Fault{closing.context == "parsing string" ? start : where, closing.what, closing.cure};
    }
  }
  if (!parts.value.empty())
  {
    return std::nullopt;
  }
  const std::string name(parts.key.empty() ? trimmed(line) : parts.key);
  return Fault{where, fmt::format("{} has no value", in_quotes(name)),
               fmt::format("write {} = VALUE, text and quantities in quotes", name)};
}

/// A mark that is missing, or stands where it must not.
std::optional<Fault> misplaced_mark_fault(std::string_view found, std::string_view line,
                                          const SourcePlace& where)
{
  const auto says = [&](std::string_view words) { return found.find(words) != std::string::npos; };
  if (says("expected '='"))
  {
    const std::string_view key =
        trimmed(line.substr(0, std::min<std::size_t>(where.column - 1, line.size())));
    return Fault{where, fmt::format("no equals sign after {}", in_quotes(key)),
                 fmt::format("write {} = VALUE, text and quantities in quotes", key)};
  }
  const bool comment = trimmed(line).starts_with('/') || trimmed(line).starts_with("--");
  struct Mark
  {
    bool here;
    const char* what;
    const char* cure;
  };
  for (const Mark& mark :
       {Mark{says("maximum nested value depth"), "lists or tables lie more than 256 deep here",
             "a list of points is two deep"},
        Mark{says("expected comma or closing ']'"), "the list before this has no end",
             "close the bracket ], or put a comma between"},
        Mark{says("dangling comma"), "the table in braces ends in a comma", "leave the comma out"},
        Mark{says("saw ';'"), "the line ends in a semicolon", "leave it out"},
        Mark{says("expected a comment or whitespace"), "the line goes on after its value",
             "one key = value a line, text and quantities in quotes"},
        Mark{comment && where.column <= 2, "this line is no key and no table",
             "comments begin with #"}})
  {
    if (mark.here)
    {
      return Fault{where, mark.what, mark.cure};
    }
  }
  return std::nullopt;
}

} // namespace

Fault syntax_fault(std::string_view text, const SourcePlace& where, std::string_view found)
{
  const std::string_view line = line_of(text, where.line);
  const bool in_string = found.find("parsing string") != std::string_view::npos;
  if (auto fault = twice_fault(found, where))
  {
    return *fault;
  }
  if (auto fault = in_string ? std::nullopt : bare_value_fault(assignment(line), where))
  {
    return *fault;
  }
  if (auto fault = open_end_fault(found, line, where))
  {
    return *fault;
  }
  if (auto fault = misplaced_mark_fault(found, line, where))
  {
    return *fault;
  }
  const std::size_t colon = found.find(": ");
  return {where,
          fmt::format("not valid TOML: {}",
                      colon == std::string_view::npos ? found : found.substr(colon + 2)),
          "lines are key = value, [table] or [[table]]; text and quantities stand in quotes"};
}

} // namespace cases
