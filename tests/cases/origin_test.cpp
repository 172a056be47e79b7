// origin.json: what made a results folder, read back; what has changed is refused.
#include "cases/fault.hpp"
#include "cases/origin.hpp"
#include "folder.hpp"

#include <catch2/catch.hpp>
#include <fstream>

namespace
{

void write(const std::filesystem::path& file, const std::string& text)
{
  std::ofstream(file, std::ios::trunc) << text;
}

std::string refusal(const std::filesystem::path& folder)
{
  try
  {
    cases::read_origin(folder);
  }
  catch (const cases::CaseError& error)
  {
    return error.what();
  }
  return "not refused";
}

} // namespace

TEST_CASE("a results folder says what made it, wherever both are moved together", "[report]")
{
  const Folder work;
  const auto& at = work.path;
  std::filesystem::create_directories(at / "here" / "rod.results");
  write(at / "here" / "rod.toml", "title = \"rod\"\n");
  write(at / "here" / "read.toml", "unit = \"uH\"\n");
  cases::Origin origin{"fit", {at / "here" / "rod.toml"}, at / "here" / "read.toml", {}, ""};
  origin.options.sets = {{"parts.core.length", "80 mm"}};
  origin.options.accuracy = 1e-5;
  cases::write_origin(at / "here" / "rod.results", origin);
  std::filesystem::rename(at / "here", at / "there");

  const cases::Origin read = cases::read_origin(at / "there" / "rod.results");
  CHECK(read.command == "fit");
  REQUIRE(read.files.size() == 1);
  CHECK(read.files.front() == at / "there" / "rod.toml");
  CHECK(read.reading == at / "there" / "read.toml");
  REQUIRE(read.options.sets.size() == 1);
  CHECK(read.options.sets.front().key == "parts.core.length");
  CHECK(read.options.sets.front().value == "80 mm");
  CHECK(read.options.accuracy == 1e-5);
}

TEST_CASE("a results folder whose case has changed, or that no case file tells, is refused",
          "[report]")
{
  const Folder work;
  const auto& at = work.path;
  const std::filesystem::path folder = at / "rod.results";
  std::filesystem::create_directories(folder);
  CHECK(refusal(folder) == folder.string() +
                               ": error: this folder has no origin.json; give the results folder "
                               "of solve, compare, sweep or fit, or the case file");
  write(at / "rod.toml", "title = \"rod\"\n");
  cases::write_origin(folder, {"solve", {at / "rod.toml"}, {}, {}, ""});
  CHECK(refusal(folder) == "not refused");
  write(at / "rod.toml", "title = \"another rod\"\n");
  CHECK(refusal(folder) == (at / "rod.toml").string() + ": error: has changed since " +
                               folder.string() +
                               " was made; solve it again, or give ferrule report the case itself");
  cases::write_origin(folder, {"sweep", {at / "rod.toml"}, {}, {}, "parts.core.length=1cm,2cm"});
  CHECK(refusal(folder).find("was made by sweep --vary parts.core.length=1cm,2cm") !=
        std::string::npos);
  write(folder / "origin.json", "{\"command\": 1}");
  CHECK(refusal(folder).find("is not as ferrule wrote it") != std::string::npos);
}
