// The frame of the page: head, answers, contents, sections, foot.
#include "post/page.hpp"
#include "post/control.hpp"
#include "post/page_blocks.hpp"

#include <fmt/format.h>

namespace post
{

namespace
{

/// Nothing may be fetched and nothing may be sent, whatever stands in the page.
constexpr std::string_view policy = "default-src 'none'; img-src data:; style-src 'unsafe-inline'; "
                                    "script-src 'unsafe-inline'; base-uri 'none'; "
                                    "form-action 'none'";

std::string lines_kept(std::string_view text)
{
  std::string out;
  for (std::size_t begin = 0; begin <= text.size();)
  {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    out += (begin > 0 ? "<br>" : "") + escaped(text.substr(begin, end - begin));
    begin = end + 1;
  }
  return out;
}

std::string answers(const Page& page)
{
  std::string out;
  for (const PageAnswer& answer : page.answers)
  {
    out += fmt::format("<div class=\"answer\"><dt>{}</dt><dd><strong>{}</strong> "
                       "<span>{}</span></dd></div>\n",
                       typeset(answer.name), typeset(answer.value), typeset(answer.bounds));
  }
  return out.empty() ? "" : "<dl class=\"answers\">\n" + out + "</dl>\n";
}

std::string contents(const Page& page)
{
  std::string out;
  for (std::size_t i = 0; i < page.sections.size(); ++i)
  {
    out +=
        fmt::format("<li><a href=\"#s{}\">{}</a></li>\n", i + 1, escaped(page.sections[i].heading));
  }
  return "<nav aria-label=\"Contents\"><ul>\n" + out + "</ul></nav>\n";
}

std::string section(const PageSection& section, std::size_t number)
{
  std::string out =
      fmt::format("<section aria-labelledby=\"s{0}\">\n<h2 id=\"s{0}\">{1}</h2>\n{2}", number,
                  escaped(section.heading),
                  section.taken_as.empty()
                      ? ""
                      : fmt::format("<p class=\"taken\">{}</p>\n", escaped(section.taken_as)));
  for (const PageBlock& block : section.blocks)
  {
    out += std::visit([](const auto& one) { return block_html(one); }, block);
  }
  return out + "</section>\n";
}

} // namespace

std::string html(const Page& page)
{
  std::string body;
  for (std::size_t i = 0; i < page.sections.size(); ++i)
  {
    body += section(page.sections[i], i + 1);
  }
  return fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"{}\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<meta name=\"color-scheme\" content=\"light dark\">\n"
      "<title>{}</title>\n<style>\n{}</style>\n</head>\n<body>\n<header>\n<h1>{}</h1>\n{}{}"
      "</header>\n{}<main>\n{}</main>\n<footer><p>{}</p></footer>\n<script>\n{}</script>\n"
      "</body>\n</html>\n",
      policy, escaped(page.title), page_style(), escaped(page.title),
      page.question.empty() ? "" : "<p class=\"question\">" + lines_kept(page.question) + "</p>\n",
      answers(page), contents(page), body, escaped(page.foot), page_script());
}

std::string escaped(std::string_view text)
{
  std::string out;
  for (std::size_t at = 0; at < text.size(); ++at)
  {
    const char byte = text[at];
    switch (byte)
    {
    case '&':
      out += "&amp;";
      break;
    case '<':
      out += "&lt;";
      break;
    case '>':
      out += "&gt;";
      break;
    case '"':
      out += "&quot;";
      break;
    case '\'':
      out += "&#39;";
      break;
    default:
      const std::size_t length = byte == '\n' || byte == '\t' ? 0 : control_at(text, at);
      out += length > 0 ? '?' : byte;
      at += length > 1 ? length - 1 : 0;
    }
  }
  return out;
}

} // namespace post
