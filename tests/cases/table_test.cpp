// Tables and wrapped sentences keep to the page.
#include "longest_line.hpp"

#include "cases/sheet.hpp"

#include <catch2/catch.hpp>

TEST_CASE("columns line up: names to the left, numbers to the right", "[text]")
{
  const cases::Table table{{{"case", "value", "unit"}, {"rod", "1.25", "uH"}, {"a", "112", ""}},
                           {0, 2}};
  CHECK(cases::printed(table) == "  case  value  unit\n"
                                 "  rod    1.25  uH\n"
                                 "  a       112\n");
}

TEST_CASE("letters beyond ASCII count as one column", "[text]")
{
  const cases::Table table{{{"Sp\xc3\xbcle", "1"}, {"coil2", "2"}}};
  CHECK(cases::printed(table) == "  Sp\xc3\xbcle  1\n  coil2  2\n");
}

TEST_CASE("a name too long for the page is shortened, never a number", "[text]")
{
  const cases::Table table{{{std::string(100, 'n'), "123.4 uH"}, {"short", "5 uH"}}};
  const std::string text = cases::printed(table);
  CHECK(longest_line(text) == cases::page_width);
  CHECK(text.find("nn..  123.4 uH\n") != std::string::npos);
}

TEST_CASE("sentences are wrapped at the page's edge and lose no word", "[text]")
{
  std::string words, back;
  for (int i = 0; i < 60; ++i)
  {
    words += (i ? " " : "") + std::string("word") + std::to_string(i);
  }
  const std::string text = cases::lines(words, 2, 4);
  CHECK(longest_line(text) <= cases::page_width);
  CHECK(text.substr(0, 8) == "  word0 ");
  std::istringstream stream(text);
  for (std::string word; stream >> word;)
  {
    back += (back.empty() ? "" : " ") + word;
  }
  CHECK(back == words);
}

TEST_CASE("a per cent sign is never parted from its number", "[text]")
{
  const std::string words(66, 'x');
  CHECK(cases::lines(words + " adds 8.25 %.", 2, 2) == "  " + words + " adds\n  8.25 %.\n");
  CHECK(cases::lines("% of 10", 2, 2) == "  % of 10\n");
}

TEST_CASE("a long heading is wrapped too", "[text]")
{
  CHECK(cases::heading("Inductance", "bounded") == "\nInductance [bounded]\n");
  CHECK(longest_line(cases::heading(std::string(60, 'h'), "ratio bounded; turns estimated")) <=
        cases::page_width);
}

TEST_CASE("control characters of a title cannot reach the terminal", "[text]")
{
  CHECK(cases::plain("a\x1b[31mb\tc") == "a?[31mb?c");
}
