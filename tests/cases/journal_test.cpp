// The journal of a long run: whole records survive any cut, other work's do not count.
#include "cases/journal.hpp"
#include "folder.hpp"

#include <catch2/catch.hpp>

using cases::Journal;
using cases::read_journal;
using cases::Records;
using Catch::Matchers::Message;

namespace
{

const Records three = {{0, "{\"a\": 1}"}, {2, "two words"}, {7, ""}};

std::filesystem::path written(const Folder& folder)
{
  const std::filesystem::path path = folder.path / "sweep.journal";
  Journal journal(path, "work");
  for (const auto& [piece, text] : three)
  {
    journal.add(piece, text);
  }
  return path;
}

void put(const std::filesystem::path& path, const std::string& text)
{
  std::ofstream(path, std::ios::binary) << text;
}

} // namespace

TEST_CASE("the checksum is FNV-1a of 64 bits", "[journal]")
{
  // Offset basis and the test vector "foobar" as published with the function; from memory.
  CHECK(cases::checksum("") == "cbf29ce484222325");
  CHECK(cases::checksum("foobar") == "85944171f73967e8");
}

TEST_CASE("records are read back, and found when the journal is opened again", "[journal]")
{
  const Folder folder;
  const std::filesystem::path path = written(folder);
  CHECK(read_journal(path, "work") == three);
  Journal again(path, "work");
  CHECK(again.found() == three);
}

TEST_CASE("a journal cut at any byte keeps the records before the cut and goes on", "[journal]")
{
  const Folder folder;
  const std::filesystem::path path = written(folder);
  const std::string whole = text_of(path);
  std::size_t fewer = 0;
  for (std::size_t length = 0; length < whole.size(); ++length)
  {
    put(path, whole.substr(0, length));
    const std::size_t lines =
        static_cast<std::size_t>(std::count(whole.begin(), whole.begin() + length, '\n'));
    const std::size_t records = lines == 0 ? 0 : lines - 1;
    Journal journal(path, "work");
    REQUIRE(journal.found().size() == records);
    for (const auto& [piece, text] : three)
    {
      if (!journal.found().contains(piece))
      {
        journal.add(piece, text);
        ++fewer;
      }
    }
    REQUIRE(text_of(path) == whole);
  }
  CHECK(fewer > 0);
}

TEST_CASE("a spoilt byte ends the sound part", "[journal]")
{
  const Folder folder;
  const std::filesystem::path path = written(folder);
  std::string spoilt = text_of(path);
  spoilt[spoilt.find("two words")] = 'T';
  put(path, spoilt);
  CHECK(read_journal(path, "work") == Records{{0, "{\"a\": 1}"}});
}

TEST_CASE("a journal of other work is begun anew", "[journal]")
{
  const Folder folder;
  const std::filesystem::path path = written(folder);
  CHECK(read_journal(path, "other").empty());
  Journal other(path, "other");
  CHECK(other.found().empty());
  CHECK(read_journal(path, "work").empty());
}

TEST_CASE("a journal is held by one process at a time", "[journal]")
{
  const Folder folder;
  const std::filesystem::path path = written(folder);
  const Journal first(path, "work");
  CHECK_THROWS_MATCHES(
      Journal(path, "work"), std::runtime_error,
      Message("cannot write " + path.string() + ": another ferrule is at work on it"));
}

TEST_CASE("a full disk is told, and what was whole before it stays", "[journal]")
{
  const Folder folder;
  const std::filesystem::path path = written(folder);
  {
    Journal journal(path, "work");
    const SmallDisk disk(text_of(path).size() + 10);
    CHECK_THROWS_MATCHES(journal.add(9, std::string(100, 'x')), std::runtime_error,
                         Message("cannot write " + path.string() + ": File too large"));
  }
  CHECK(read_journal(path, "work") == three);
  Journal again(path, "work");
  again.add(9, "nine");
  CHECK(read_journal(path, "work").at(9) == "nine");
}
