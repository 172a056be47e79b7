// Words, tables, lists, bars, pictures and files as HTML. Each string is escaped where it enters.
#include "post/page_blocks.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <fmt/format.h>

namespace post
{

namespace
{

/// Base units as ferrule's plain text writes them, and as print does.
constexpr std::array<std::pair<std::string_view, std::string_view>, 3> printed_units = {
    {{"ohm", "Ω"}, {"cm3", "cm³"}, {"degC", "°C"}}};
constexpr std::array<std::string_view, 7> micro_units = {"H", "T", "A", "Wb", "m", "V", "W"};

/// The unit as print sets it; the word itself where it is none.
std::string unit(std::string_view word)
{
  for (const auto& [plain, print] : printed_units)
  {
    const std::size_t at = word.find(plain); // "mohm/m"
    if (at <= 1 && at != std::string_view::npos)
    {
      std::string out(word);
      return out.replace(at, plain.size(), print);
    }
  }
  const bool micro = word.size() > 1 && word[0] == 'u' &&
                     std::ranges::find(micro_units, word.substr(1)) != micro_units.end();
  return micro ? "µ" + std::string(word.substr(1)) : std::string(word);
}

/// Whether a word after a number belongs to it, and stays on its line.
bool is_unit(std::string_view word)
{
  constexpr std::array<std::string_view, 10> units = {"H", "T",  "A",   "Wb", "m",
                                                      "%", "Hz", "ohm", "dB", "cm3"};
  const auto ends_in = [&](std::string_view base)
  { return word.ends_with(base) && word.size() <= base.size() + 1; };
  return std::ranges::any_of(units, ends_in);
}

bool is_number(std::string_view word)
{
  return !word.empty() && (std::isdigit(static_cast<unsigned char>(word.back())) != 0) &&
         word.find_first_not_of("0123456789.+-e") == std::string_view::npos;
}

std::string cell(const std::string& words, bool head, bool left)
{
  return fmt::format("<{0}{1}{2}>{3}</{0}>", head ? "th" : "td", head ? " scope=\"col\"" : "",
                     left ? " class=\"left\"" : "", typeset(words));
}

} // namespace

std::string typeset(std::string_view words)
{
  std::string out, before;
  std::size_t begin = 0;
  while (begin < words.size())
  {
    const std::size_t end = std::min(words.find(' ', begin), words.size());
    const std::string_view whole = words.substr(begin, end - begin);
    const std::size_t last = whole.find_last_not_of(".,;:)");
    const std::string_view word = whole.substr(0, last + 1);
    const bool alone = before.empty() && end == words.size();
    const bool after_number = is_number(before) && is_unit(word);
    std::string set = alone || is_number(before) ? unit(word) : std::string(word);
    set = set == "+-" ? "±" : set;
    // A number and its unit stay on one line.
    out += (begin == 0     ? ""
            : after_number ? "\xc2\xa0"
                           : " ") +
           escaped(set) + escaped(whole.substr(last + 1));
    before = word.substr(word.starts_with('(') ? 1 : 0);
    begin = end + 1;
  }
  return out;
}

std::string block_html(const PageText& text)
{
  return fmt::format("<p{}>{}</p>\n", text.caution ? " class=\"caution\"" : "",
                     typeset(text.words));
}

std::string block_html(const PageTable& table)
{
  std::string out;
  std::size_t columns = 1;
  for (const auto& row : table.rows)
  {
    columns = std::max(columns, row.size());
  }
  for (std::size_t r = 0; r < table.rows.size(); ++r)
  {
    const bool below = r < table.below.size() && !table.below[r].empty();
    out += below ? "<tr class=\"joined\">" : "<tr>";
    for (std::size_t c = 0; c < table.rows[r].size(); ++c)
    {
      out += cell(table.rows[r][c], r == 0 && table.heads,
                  std::ranges::find(table.left, c) != table.left.end());
    }
    out += std::string(r == 0 && table.heads ? "</tr></thead>\n<tbody>" : "</tr>") + "\n";
    out += below ? fmt::format("<tr class=\"below\"><td colspan=\"{}\">{}</td></tr>\n", columns,
                               typeset(table.below[r]))
                 : "";
  }
  return "<div class=\"wide\" tabindex=\"0\" role=\"region\" aria-label=\"Table\"><table>" +
         std::string(table.heads ? "<thead>" : "<tbody>") + out + "</tbody></table></div>\n";
}

std::string block_html(const PageList& list)
{
  std::string out;
  for (const auto& [stressed, rest] : list.items)
  {
    out += fmt::format("<li>{}{}</li>\n",
                       stressed.empty() ? "" : "<strong>" + escaped(stressed) + "</strong> ",
                       typeset(rest));
  }
  const char* const tag = list.numbered ? "ol" : "ul";
  return fmt::format("<{0}>\n{1}</{0}>\n", tag, out);
}

std::string block_html(const PageBars& bars)
{
  std::string out;
  for (const PageBars::Bar& bar : bars.bars)
  {
    // Drawn, not a background colour: those are left out in print.
    out += fmt::format(
        "<div class=\"bar\"><span>{}</span><span class=\"share\">{}</span>"
        "<svg aria-hidden=\"true\" focusable=\"false\"><rect class=\"whole\" width=\"100%\" "
        "height=\"100%\"/><rect class=\"part\" width=\"{:.4f}%\" height=\"100%\"/></svg></div>\n",
        escaped(bar.name), typeset(bar.words), 100.0 * std::clamp(bar.share, 0.0, 1.0));
  }
  return "<div class=\"bars\">\n" + out + "</div>\n";
}

std::string block_html(const PagePicture& picture)
{
  return fmt::format("<figure class=\"wide picture\" tabindex=\"0\" aria-label=\"Picture\"><img "
                     "src=\"data:image/svg+xml;base64,{}\" alt=\"{}\"></figure>\n",
                     base64(picture.svg), escaped(picture.words));
}

std::string block_html(const PageFile& file)
{
  return fmt::format("<h3>{}</h3>\n<pre tabindex=\"0\">{}</pre>\n", escaped(file.name),
                     escaped(file.text));
}

std::string base64(std::string_view bytes)
{
  constexpr std::string_view digits =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  out.reserve(4 * (bytes.size() / 3 + 1));
  for (std::size_t i = 0; i < bytes.size(); i += 3)
  {
    const auto byte = [&](std::size_t k) -> unsigned
    { return k < bytes.size() ? static_cast<unsigned char>(bytes[k]) : 0U; };
    const unsigned three = byte(i) << 16U | byte(i + 1) << 8U | byte(i + 2);
    out += digits[three >> 18U & 63U];
    out += digits[three >> 12U & 63U];
    out += i + 1 < bytes.size() ? digits[three >> 6U & 63U] : '=';
    out += i + 2 < bytes.size() ? digits[three & 63U] : '=';
  }
  return out;
}

} // namespace post
