// Tables as instruments write them: separators, quotes, places, units, and each fault's words.
//
// Grammar: RFC 4180, from memory. The expected sentences are ours.
#include "cases/csv.hpp"

#include <catch2/catch.hpp>

namespace
{

using cases::Fault;
using cases::Kind;

struct Read
{
  cases::CsvTable table;
  std::string faults; ///< Their lines.
};

std::string lines(const std::vector<Fault>& faults)
{
  std::string text;
  for (const Fault& fault : faults)
  {
    text += (text.empty() ? "" : "\n") + cases::line(fault);
  }
  return text;
}

Read read(std::string_view text)
{
  std::vector<Fault> faults;
  cases::CsvTable table = cases::csv_table(text, "m.csv", faults);
  return {table, lines(faults)};
}

constexpr cases::Wanted inductance{Kind::inductance, 1e-12, 1e3, "1 pH to 1 kH", "\"1 uH\""};
constexpr cases::Wanted field{Kind::field_strength, 0.0, 1e7, "0 to 1e7 A/m", "\"80 A/m\""};
constexpr cases::Wanted plain{Kind::number, -1e9, 1e9, "up to 1e9 either way", "1"};

/// Numbers of the first column, or its faults.
std::string column(std::string_view text, const cases::Wanted& wanted, const std::string& unit = {})
{
  std::vector<Fault> faults;
  const auto table = cases::csv_table(text, "m.csv", faults);
  const auto values = cases::numbers(table, 0, {{}, wanted, unit}, faults);
  std::string out = lines(faults);
  for (const double value : values.value_or(std::vector<double>{}))
  {
    out += (out.empty() ? "" : " ") + std::to_string(value * 1e6);
  }
  return out;
}

} // namespace

TEST_CASE("the separator is the header's own: comma, semicolon or tab", "[csv]")
{
  for (const char* text :
       {"a,b\n1,2\n", "a;b\n1;2\n", "a\tb\n1\t2\n", "a,b\r\n1,2\r\n", "a,b\n1,2",
        "# x;y\n\na,b\n# note\n1,2\n\n", " a , b \n 1 , 2 \n", "\"a\",\"b\"\n\"1\",\"2\"\n"})
  {
    CAPTURE(text);
    const auto [table, faults] = read(text);
    CHECK(faults.empty());
    REQUIRE(table.header.size() == 2);
    CHECK(table.header[1].text == "b");
    REQUIRE(table.rows.size() == 1);
    CHECK(table.rows[0][0].text == "1");
    CHECK(table.rows[0][1].text == "2");
  }
  // A semicolon within quotes parts nothing.
  CHECK(read("\"a;b\",c\n").table.header[0].text == "a;b");
  // Nor does one below a header with commas.
  CHECK(read("a,b\n1;x,2\n").table.rows.at(0)[0].text == "1;x");
  // A # at the start of a line within quotes begins no comment.
  CHECK(read("a,b\n\"1\n#x\",2\n").table.rows.at(0)[0].text == "1\n#x");
}

TEST_CASE("each cell knows its line and column, counted in letters", "[csv]")
{
  const auto [table, faults] = read("# note\nname, L\n\"a \"\"b\"\"\nc\",  7\n\u00b5,8\r\n,\n,9\n");
  CHECK(faults.empty());
  REQUIRE(table.rows.size() == 4);
  const auto place = [&](std::size_t row, std::size_t column)
  {
    const auto& where = table.rows[row][column].where;
    return std::pair(where.line, where.column);
  };
  CHECK(table.header[1].where.line == 2);
  CHECK(table.header[1].where.column == 7);
  CHECK(table.rows[0][0].text == "a \"b\"\nc");
  CHECK(place(0, 0) == std::pair(3, 1));
  CHECK(place(0, 1) == std::pair(4, 6)); // the quoted line end counts
  CHECK(place(1, 1) == std::pair(5, 3)); // the micro sign is one letter of two bytes
  CHECK(place(2, 0) == std::pair(6, 1)); // empty, at the comma
  CHECK(place(2, 1) == std::pair(6, 2));
  CHECK(place(3, 1) == std::pair(7, 2));
}

TEST_CASE("rows of another length, quotes out of place and files without a table are told", "[csv]")
{
  CHECK(read("a,b\n1,2,3\n1\n1,2\n").faults ==
        "m.csv:2:1: error: the row has 3 values, the header 2; numbers need a decimal point: a "
        "comma parts two values\n"
        "m.csv:3:1: error: the row has 1 value, the header 2; give each column a value");
  CHECK(read("a;b\n1;2;3\n").faults ==
        "m.csv:2:1: error: the row has 3 values, the header 2; give each column a value");
  CHECK(read("a,b\n1,2\"\n").faults ==
        "m.csv:2:4: error: a quote stands inside a value; put the whole value in quotes, and "
        "double those within: \"1\"\" rod\"");
  CHECK(read("a,b\n1,\"2\n3,4\n").faults ==
        "m.csv:2:3: error: the quotes here have no end; close them");
  for (const char* text : {"", "\n\n", "# only a note\n", "# only a note"})
  {
    CHECK(read(text).faults == "m.csv: error: the file holds no header; its first line names the "
                               "columns, e.g. f [Hz],Ls [uH]");
  }
  CHECK(read("a,b\n1,2,3\n4,5\n").table.rows.size() == 1);
  // Of many rows alike the first stands for all.
  CHECK(read("a,b\n1,2,3\n4,5,6\n7\n7,8,9\n").faults ==
        "m.csv:2:1: error: the row has 3 values, the header 2, and so 2 more; numbers need a "
        "decimal point: a comma parts two values\n"
        "m.csv:4:1: error: the row has 1 value, the header 2; give each column a value");
}

TEST_CASE("a heading is a name and a unit in brackets, parentheses or after a slash", "[csv]")
{
  const auto said = [](std::string_view cell)
  {
    const cases::Heading heading = cases::heading(cell);
    return heading.name + "|" + heading.unit;
  };
  CHECK(said("Ls [uH]") == "Ls|uH");
  CHECK(said("Ls(uH)") == "Ls|uH");
  CHECK(said("f/Hz") == "f|Hz");
  CHECK(said("f / kHz ") == "f|kHz");
  CHECK(said("H [A/m]") == "H|A/m");
  CHECK(said("H / (A/m)") == "H|A/m");
  CHECK(said("Q") == "Q|");
  CHECK(said("Ls ]uH[") == "Ls ]uH[|");
}

TEST_CASE("columns are found by name whatever the capitals, spaces and dashes", "[csv]")
{
  const auto table = read("Quality Factor,L_s [uH],LS [mH]\n").table;
  const std::vector<std::string> quality = {"Q", "quality-factor"}, series = {"Ls"}, D = {"D"};
  CHECK(cases::column_index(table, quality) == 0u);
  CHECK(cases::column_index(table, series) == 1u); // the first of two
  CHECK_FALSE(cases::column_index(table, D));
}

TEST_CASE("a column's numbers are in the unit of its heading", "[csv]")
{
  CHECK(column("Ls [uH]\n12.5\n+3\n1e1\n", inductance) == "12.500000 3.000000 10.000000");
  CHECK(column("Ls/nH\n1200\n", inductance) == "1.200000");
  CHECK(column("H\n0.002\n", field, "A/m") == "2000.000000"); // the unit that is meant
  CHECK(column("H [kA/m]\n0.002\n", field, "A/m") == "2000000.000000");
  CHECK(column("n\n-0.25\n", plain) == "-250000.000000");
}

TEST_CASE("numbers and units at fault are told at their place", "[csv]")
{
  CHECK(column("Ls\n12.5\n", inductance) ==
        "m.csv:1:1: error: the column Ls has no unit; use nH, uH, mH or H, e.g. Ls [uH]");
  CHECK(column("Ls [yH]\n12.5\n", inductance) ==
        "m.csv:1:1: error: the column Ls has the unknown unit \"yH\"; use nH, uH, mH or H, e.g. Ls "
        "[uH]");
  CHECK(column("Ls [ohm]\n12.5\n", inductance) ==
        "m.csv:1:1: error: the column Ls must hold an inductance, got the unit \"ohm\" (a "
        "resistance); use nH, uH, mH or H, e.g. Ls [uH]");
  CHECK(column("Q [%]\n12.5\n", plain) ==
        "m.csv:1:1: error: the column Q has the unknown unit \"%\"; give it as a plain number, "
        "without a unit");
  CHECK(
      column("Ls [uH],x\n12.5 uH,1\n,1\n-3,1\nnan,1\n", inductance) ==
      "m.csv:2:1: error: Ls must be a number, got \"12.5 uH\"; units stand in the header, numbers "
      "alone below\n"
      "m.csv:3:1: error: Ls is empty; give it a number, or leave the row out\n"
      "m.csv:4:1: error: Ls must be positive, got \"-3 uH\"; 1 pH to 1 kH\n"
      "m.csv:5:1: error: Ls must be a number, got \"nan\"; units stand in the header, numbers "
      "alone below");
  CHECK(column("Ls [uH];Q\n12,5;1\n13,5;1\n14,5;1\n", inductance) ==
        "m.csv:2:1: error: Ls has a comma in its number, got \"12,5\", and 2 more like it in this "
        "column; use a point: 12.5");
  CHECK(column("Ls [uH];Q\n12,5;1\n", inductance) ==
        "m.csv:2:1: error: Ls has a comma in its number, got \"12,5\"; use a point: 12.5");
  CHECK(
      column("Ls [uH];Q\n1,234.5;1\n", inductance) ==
      "m.csv:2:1: error: Ls must be a number, got \"1,234.5\"; units stand in the header, numbers "
      "alone below");
  CHECK(column("Ls [H]\n9.9E+37\n", inductance) ==
        "m.csv:2:1: error: Ls is 9.9E+37, by which meters mark an overload; leave the row out, or "
        "measure it again");
}

TEST_CASE("several columns are read in the order asked for, or told missing", "[csv]")
{
  std::vector<Fault> faults;
  const auto table = cases::csv_table("B,note,H\n0,a,0\n0.1,b,20\n", "m.csv", faults);
  const std::vector<cases::Column> law = {{{"H"}, field, "A/m"}, {{"B"}, plain, ""}};
  const auto found = cases::columns(table, law, faults);
  REQUIRE(found);
  CHECK((*found)[0] == std::vector<double>{0.0, 20.0});
  CHECK((*found)[1] == std::vector<double>{0.0, 0.1});
  const std::vector<cases::Column> other = {{{"frequency", "f"}, plain}, {{"real"}, plain}};
  CHECK_FALSE(cases::columns(table, other, faults));
  CHECK(lines(faults) ==
        "m.csv:1:1: error: there is no column frequency; the header names B, note and H\n"
        "m.csv:1:1: error: there is no column real; the header names B, note and H");
}
