// A folder for the files of one test, and a disk that is full.
#pragma once

#include <catch2/catch.hpp>

#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <sys/resource.h>

/// @brief An empty folder that goes with the test.
struct Folder
{
  std::filesystem::path path;

  Folder()
  {
    std::string name = (std::filesystem::temp_directory_path() / "ferrule-test-XXXXXX").string();
    REQUIRE(mkdtemp(name.data()) != nullptr);
    path = name;
  }
  ~Folder() { std::filesystem::remove_all(path); }
  int entries() const
  {
    using std::filesystem::directory_iterator;
    return static_cast<int>(std::distance(directory_iterator(path), directory_iterator()));
  }
};

/// @brief No file may grow beyond so many bytes: what a full disk does, for root too.
struct SmallDisk
{
  rlimit before{};

  explicit SmallDisk(rlim_t bytes)
  {
    std::signal(SIGXFSZ, SIG_IGN);
    getrlimit(RLIMIT_FSIZE, &before);
    const rlimit small{bytes, before.rlim_max};
    setrlimit(RLIMIT_FSIZE, &small);
  }
  ~SmallDisk() { setrlimit(RLIMIT_FSIZE, &before); }
};

inline std::string text_of(const std::filesystem::path& path)
{
  std::ostringstream text;
  text << std::ifstream(path, std::ios::binary).rdbuf();
  return text.str();
}
