// Every reading file of bad_readings/ against its lines in expected.txt, character for character.
//
// A meter's CSV file has the name of the reading file that names it. Source of the expected texts:
// ferrule's own words have no other.
#include "cases/reading.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <map>

namespace
{

namespace fs = std::filesystem;

const fs::path folder = fs::path(__FILE__).parent_path() / "bad_readings";

/// Lines of expected.txt by the stem of the file they begin with.
std::map<std::string, std::string> expected_lines()
{
  std::map<std::string, std::string> expected;
  std::ifstream table(folder / "expected.txt");
  for (std::string line; std::getline(table, line);)
  {
    std::string& lines = expected[line.substr(0, line.find('.'))];
    lines += (lines.empty() ? "" : "\n") + line;
  }
  return expected;
}

/// What a person in that folder is told who asks for the file.
std::string told_of(const fs::path& path)
{
  try
  {
    cases::read_readings(path);
    return "no fault found";
  }
  catch (const cases::CaseError& error)
  {
    std::string lines;
    for (cases::Fault fault : error.faults())
    {
      CHECK(fs::path(fault.where.file).parent_path() == folder);
      fault.where.file = fs::path(fault.where.file).filename().string();
      lines += (lines.empty() ? "" : "\n") + cases::line(fault);
    }
    return lines;
  }
}

} // namespace

TEST_CASE("every bad reading file is refused in the words of the table", "[reading]")
{
  const auto expected = expected_lines();
  CHECK(expected.size() >= 60);
  for (const auto& [name, lines] : expected)
  {
    CHECK(told_of(folder / (name + ".toml")) == lines);
  }
}

TEST_CASE("every bad reading file is in the table", "[reading]")
{
  const auto expected = expected_lines();
  for (const fs::directory_entry& entry : fs::directory_iterator(folder))
  {
    if (entry.path().extension() == ".toml")
    {
      CAPTURE(entry.path().filename().string());
      CHECK(expected.count(entry.path().stem().string()) == 1);
    }
  }
}
