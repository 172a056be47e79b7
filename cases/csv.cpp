// The grammar of RFC 4180 by libcsv, fed letter by letter so that each cell has its place.
#include "cases/csv.hpp"

#include "cases/wording.hpp"

#include <algorithm>
#include <csv.h>
#include <fmt/format.h>
#include <map>
#include <new>

namespace cases
{
namespace
{

/// The separator of a header: a tab, else a semicolon, else a comma; none counts within quotes.
char separator(std::string_view text)
{
  for (const char candidate : {'\t', ';'})
  {
    bool quoted = false;
    for (const char letter : text.substr(0, text.find_first_of("\r\n")))
    {
      quoted = quoted != (letter == '"');
      if (letter == candidate && !quoted)
      {
        return candidate;
      }
    }
  }
  return ',';
}

/// The library's parser, and what has been read so far; neither copied nor moved.
class Parser
{
public:
  Parser(CsvTable& table, std::vector<Fault>& faults)
      : _table(table), _faults(faults), _here{table.file, 1, 1}
  {
    if (csv_init(&_parser, CSV_STRICT | CSV_STRICT_FINI) != 0)
    {
      throw std::bad_alloc();
    }
  }
  ~Parser() { csv_free(&_parser); }
  Parser(const Parser&) = delete;
  Parser& operator=(const Parser&) = delete;

  void read(std::string_view text)
  {
    bool separated = false; // once the header has begun
    for (std::size_t at = 0; at < text.size();)
    {
      const bool line_start = _here.column == 1 && _row.empty() && !_begun;
      if (line_start && text[at] == '#')
      {
        at = std::min(text.find('\n', at), text.size());
        continue; // the line's end goes the usual way
      }
      if (line_start && !separated && text[at] != '\r' && text[at] != '\n')
      {
        separated = true;
        csv_set_delim(&_parser, static_cast<unsigned char>(separator(text.substr(at))));
      }
      if (!take(text[at]))
      {
        count_wrong_rows();
        return;
      }
      ++at;
    }
    if (csv_fini(&_parser, cell_ended, row_ended, this) != 0)
    {
      refuse_quotes(_start, "the quotes here have no end", "close them");
    }
    count_wrong_rows();
  }

private:
  static void cell_ended(void* text, std::size_t length, void* self)
  {
    auto& parser = *static_cast<Parser*>(self);
    parser._row.push_back({std::string(static_cast<const char*>(text), length),
                           parser._begun ? parser._start : parser._here});
    parser._begun = false;
  }

  static void row_ended(int /*letter*/, void* self)
  {
    auto& parser = *static_cast<Parser*>(self);
    parser.end_row();
  }

  void end_row()
  {
    CsvTable& table = _table;
    if (table.header.empty())
    {
      table.header = std::move(_row);
    }
    else if (_row.size() == table.header.size())
    {
      table.rows.push_back(std::move(_row));
    }
    else
    {
      refuse_row();
    }
    _row.clear();
  }

  /// One fault for all rows of one wrong length, at the first.
  void refuse_row()
  {
    const auto [seen, fresh] = _wrong_rows.try_emplace(_row.size(), _faults.size(), 1);
    if (!fresh)
    {
      ++seen->second.second;
      return;
    }
    const std::size_t right = _table.header.size();
    _faults.push_back({{_table.file, _row.front().where.line, 1},
                       fmt::format("the row has {} value{}, the header {}", _row.size(),
                                   _row.size() == 1 ? "" : "s", right),
                       csv_get_delim(&_parser) == ',' && _row.size() > right
                           ? "numbers need a decimal point: a comma parts two values"
                           : "give each column a value"});
  }

  bool take(char letter)
  {
    const bool space = letter == ' ' || letter == '\t' || letter == '\r' || letter == '\n';
    if (!_begun && !space && static_cast<unsigned char>(letter) != csv_get_delim(&_parser))
    {
      _begun = true;
      _start = _here;
    }
    if (csv_parse(&_parser, &letter, 1, cell_ended, row_ended, this) != 1)
    {
      refuse_quotes(_here, "a quote stands inside a value",
                    "put the whole value in quotes, and double those within: \"1\"\" rod\"");
      return false;
    }
    if (letter == '\n')
    {
      ++_here.line;
      _here.column = 1;
    }
    else if ((static_cast<unsigned char>(letter) & 0xc0U) != 0x80U) // one a UTF-8 character
    {
      ++_here.column;
    }
    return true;
  }

  void count_wrong_rows()
  {
    for (const auto& [length, seen] : _wrong_rows)
    {
      if (seen.second > 1)
      {
        _faults[seen.first].what += fmt::format(", and so {} more", seen.second - 1);
      }
    }
  }

  void refuse_quotes(const SourcePlace& where, const std::string& what, const std::string& cure)
  {
    _faults.push_back({where, what, cure});
  }

  CsvTable& _table;
  std::vector<Fault>& _faults;
  csv_parser _parser{};
  std::vector<Cell> _row;
  std::map<std::size_t, std::pair<std::size_t, int>> _wrong_rows; ///< By length: fault and count.
  SourcePlace _here;                                              ///< Of the letter to come.
  SourcePlace _start;                                             ///< Of the cell being read,
  bool _begun = false;                                            ///< where it has begun.
};

} // namespace

CsvTable csv_table(std::string_view text, const std::string& file, std::vector<Fault>& faults)
{
  CsvTable table;
  table.file = file;
  const std::size_t before = faults.size();
  Parser(table, faults).read(text);
  if (table.header.empty() && faults.size() == before)
  {
    faults.push_back({{file},
                      "the file holds no header",
                      "its first line names the columns, e.g. f [Hz],Ls [uH]"});
  }
  return table;
}

} // namespace cases
