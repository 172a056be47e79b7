// Files that are no case before a line of them is understood.
#include "cases/case_text.hpp"

#include "cases/fault.hpp"

#include <catch2/catch.hpp>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <unistd.h>

using case_tests::told;
namespace fs = std::filesystem;

namespace
{

/// A folder of its own while it lives.
struct Folder
{
  fs::path path = fs::temp_directory_path() / ("ferrule-files-" + std::to_string(::getpid()));
  Folder() { fs::create_directories(path); }
  ~Folder() { fs::remove_all(path); }
};

/// What is told of a path, without the folder's name.
std::string refusal(const fs::path& path, const Folder& folder)
{
  try
  {
    cases::read_case(path);
    return "no fault found";
  }
  catch (const cases::CaseError& error)
  {
    std::string text = error.what();
    const std::string name = folder.path.string();
    for (std::size_t at = text.find(name); at != std::string::npos; at = text.find(name))
    {
      text.replace(at, name.size(), "DIR");
    }
    return text;
  }
}

} // namespace

TEST_CASE("files that are missing, folders or too large are refused", "[case-file]")
{
  const Folder folder;
  std::ofstream(folder.path / "float-coil.toml") << case_tests::sound_case;
  CHECK(refusal(folder.path / "float-coil.toml", folder) == "no fault found");
  CHECK(refusal(folder.path / "floatcoil.toml", folder) ==
        "DIR/floatcoil.toml: error: no such file; did you mean \"float-coil.toml\"?");
  CHECK(refusal(folder.path / "x.toml", folder) ==
        "DIR/x.toml: error: no such file; check its name, or start one with: ferrule new");
  CHECK(refusal(folder.path / "none" / "x.toml", folder) ==
        "DIR/none/x.toml: error: no such file; there is no folder \"DIR/none\"");
  CHECK(refusal(folder.path, folder) == "DIR: error: this is a folder; name the case file in it");

  std::ofstream(folder.path / "large.toml") << "x";
  fs::resize_file(folder.path / "large.toml", 100'000'000); // holes: takes no room on the disc
  const auto start = std::chrono::steady_clock::now();
  CHECK(
      refusal(folder.path / "large.toml", folder) ==
      "DIR/large.toml: error: the file is 100 MB, a case has at most 1 MiB; name a case file, not "
      "a mesh, a table or a picture");
  // Asked for its size, not read: reading 100 MB takes longer than this.
  CHECK(std::chrono::steady_clock::now() - start < std::chrono::milliseconds(20));
  CHECK(refusal("/dev/zero", folder) ==
        "/dev/zero: error: the file is larger than 1 MiB, a case has at most 1 MiB; name a case "
        "file, not a mesh, a table or a picture");
}

TEST_CASE("texts that are not UTF-8 are refused at their first bad byte", "[case-file]")
{
  CHECK(told("a = 1\nb = \"\xe9\"\n") ==
        ":2:6: error: not UTF-8 text: byte 0xe9 here; save the file as UTF-8, or retype this "
        "character");
  CHECK(told(std::string("\xff\xfe") + "a") == "error: the file is UTF-16 text; save it as UTF-8");
  CHECK(told(std::string("a = 1\n\0b", 8)) ==
        ":2:1: error: not UTF-8 text: byte 0x00 here; save the file as UTF-8, or retype this "
        "character");
  // Columns count characters, as editors do: the Greek letter before it is one, of two bytes.
  CHECK(told("# \u03bc \xc3(\n") == ":1:5: error: not UTF-8 text: byte 0xc3 here; save the file as "
                                    "UTF-8, or retype this character");
  for (const char* wrong :
       {"\xc0\xaf", "\xed\xa0\x80", "\xf5\x80\x80\x80", "\xf0\x80\x80\x80", "\x80"})
  {
    CHECK(told(wrong).find("not UTF-8 text") != std::string::npos);
  }
  CHECK(told("\xef\xbb\xbf" + case_tests::sound_case) == ""); // a byte order mark is no fault
  CHECK(told("# \u00b5 \u20ac \U0001f9f2\n" + case_tests::sound_case) == "");
  CHECK(told("") == "error: the file is empty; start a case with: ferrule new");
}

TEST_CASE("endless nesting is refused, not followed", "[case-file]")
{
  std::string dots = "a";
  for (int i = 0; i < 200'000; ++i)
  {
    dots += ".a";
  }
  const std::string refused =
      ":1: error: this line has a name of more than 64 dotted pieces; a key "
      "is at most table.name.key.key";
  CHECK(told(dots + " = 1\n") == refused);
  CHECK(told("[" + dots + "]\n") == refused);
  std::string quoted = "\"a b\"";
  for (int i = 0; i < 100'000; ++i)
  {
    quoted += " . 'a'";
  }
  CHECK(told("x = {" + quoted + " = 1}\n") == refused);
  CHECK(told("x = " + std::string(200'000, '[')) ==
        ":1:261: error: lists or tables lie more than 256 deep here; a list of points is two deep");
  // Prose is no key.
  std::string prose = "notes = \"don't";
  for (int i = 0; i < 100; ++i)
  {
    prose += " stop here. Go on.... 1.5 ";
  }
  CHECK(told(prose + "\"\n" + case_tests::sound_case) == "");
}
