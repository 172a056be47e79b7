// Inputs that fuzzing kept, and those that once broke a reader, fed again to each reader.
#include "fuzz/subjects.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

namespace
{

namespace fs = std::filesystem;

const fs::path corpus = fs::path(__FILE__).parent_path() / ".." / "fuzz" / "corpus";

std::string bytes(const fs::path& file)
{
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

} // namespace

TEST_CASE("every reader keeps its word on what fuzzing found", "[corpus]")
{
  for (const fuzz::Subject& subject : fuzz::subjects())
  {
    int fed = 0;
    for (const fs::directory_entry& input : fs::directory_iterator(corpus / subject.name))
    {
      INFO(input.path().string());
      CHECK_NOTHROW(subject.feed(bytes(input.path())));
      ++fed;
    }
    INFO(subject.name);
    CHECK(fed >= 5);
  }
}
