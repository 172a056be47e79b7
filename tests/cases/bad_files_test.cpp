// Every file of bad_files/ against its lines in expected.txt, character for character.
//
// Source of the expected texts: written and read aloud by us; ferrule's own words have no other.
#include "cases/case.hpp"
#include "cases/fault.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <map>

namespace
{

namespace fs = std::filesystem;

const fs::path folder = fs::path(__FILE__).parent_path() / "bad_files";

/// Lines of expected.txt by the file they begin with.
std::map<std::string, std::string> expected_lines()
{
  std::map<std::string, std::string> expected;
  std::ifstream table(folder / "expected.txt");
  for (std::string line; std::getline(table, line);)
  {
    std::string& lines = expected[line.substr(0, line.find(':'))];
    lines += (lines.empty() ? "" : "\n") + line;
  }
  return expected;
}

/// What a person in that folder is told who asks for the file.
std::string told_of(const fs::path& path)
{
  try
  {
    cases::read_case(path);
    return "no fault found";
  }
  catch (const cases::CaseError& error)
  {
    std::string lines;
    for (cases::Fault fault : error.faults())
    {
      CHECK(fault.where.file == path.string());
      fault.where.file = path.filename().string();
      lines += (lines.empty() ? "" : "\n") + cases::line(fault);
    }
    return lines;
  }
}

} // namespace

TEST_CASE("every bad file is refused in the words of the table", "[case-file]")
{
  const auto expected = expected_lines();
  CHECK(expected.size() >= 60);
  for (const auto& [name, lines] : expected)
  {
    CHECK(told_of(folder / name) == lines);
  }
}

TEST_CASE("every bad file is in the table", "[case-file]")
{
  const auto expected = expected_lines();
  for (const fs::directory_entry& entry : fs::directory_iterator(folder))
  {
    if (entry.path().extension() == ".toml")
    {
      CAPTURE(entry.path().filename().string());
      CHECK(expected.count(entry.path().filename().string()) == 1);
    }
  }
}

TEST_CASE("a fault's line is its place, what is wrong, and the cure where there is one",
          "[case-file]")
{
  CHECK(cases::line({{"rod.toml", 12, 10}, "too long", "cut it"}) ==
        "rod.toml:12:10: error: too long; cut it");
  CHECK(cases::line({{"rod.toml", 12, 10}, "too long", ""}) == "rod.toml:12:10: error: too long");
  CHECK(cases::line({{"rod.toml", 12}, "too long", ""}) == "rod.toml:12: error: too long");
  CHECK(cases::line({{"rod.toml"}, "no such file", ""}) == "rod.toml: error: no such file");
  CHECK(cases::line({{}, "no command", ""}) == "error: no command");
  CHECK(std::string(cases::CaseError({{{"a"}, "b", ""}, {{"c"}, "d", "e"}}).what()) ==
        "a: error: b\nc: error: d; e");
}
