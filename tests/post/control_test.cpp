// What is obeyed instead of shown, byte by byte; and cells that a spreadsheet would work out.
#include "post/control.hpp"
#include "post/csv_cell.hpp"
#include "post/page.hpp"

#include <catch2/catch.hpp>

using post::control_at;
using post::csv_cell;

TEST_CASE("control characters have their length, what is written has none", "[control]")
{
  CHECK(control_at("\x1b[", 0) == 1);
  CHECK(control_at("a\x7f", 1) == 1);
  CHECK(control_at("\xc2\x85", 0) == 2);     // next line
  CHECK(control_at("\xe2\x80\xa8", 0) == 3); // line separator
  CHECK(control_at("\xe2\x80\xae", 0) == 3); // right to left from here
  CHECK(control_at("\xe2\x81\xa9", 0) == 3);
  for (const char* shown :
       {"a", "\xc2\xb5", "\xe2\x80\xa7", "\xe2\x80\xaf", "\xe2\x81\xa5", "\xe2"})
  {
    CHECK(control_at(shown, 0) == 0);
  }
}

TEST_CASE("a page shows no character that turns its numbers round", "[control]")
{
  CHECK(post::escaped("4\xe2\x80\xae 2\xc2\x85<") == "4? 2?&lt;");
}

TEST_CASE("a cell is text or a number, never a formula", "[control]")
{
  CHECK(csv_cell("=1+1") == "'=1+1");
  CHECK(csv_cell("@sum, \"x\"") == "\"'@sum, \"\"x\"\"\"");
  CHECK(csv_cell("-1+cmd") == "'-1+cmd");
  CHECK(csv_cell("-lead") == "'-lead");
  for (const char* kept : {"-40", "+1.5e-3", "-40 mm", "-inf", "coil"})
  {
    CHECK(csv_cell(kept) == kept);
  }
}
