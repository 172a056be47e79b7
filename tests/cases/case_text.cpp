// Writing a test's text to a file, and taking the file's name out of what is told.
#include "cases/case_text.hpp"

#include "cases/fault.hpp"

#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <unistd.h>

namespace case_tests
{
namespace
{

namespace fs = std::filesystem;

/// A file of that text while it lives.
class TextFile
{
public:
  explicit TextFile(const std::string& text)
      : _path(fs::temp_directory_path() / ("ferrule-case-" + std::to_string(::getpid()) + ".toml"))
  {
    std::ofstream(_path, std::ios::binary) << text;
  }
  ~TextFile() { fs::remove(_path); }
  TextFile(const TextFile&) = delete;
  TextFile& operator=(const TextFile&) = delete;
  const fs::path& path() const { return _path; }

private:
  fs::path _path;
};

} // namespace

const std::string sound_case = R"(title = "Float coil"
[materials.core]
permeability = 700
[[parts]]
name = "core"
shape = "rod"
material = "core"
diameter = "6 mm"
length = "60 mm"
[[windings]]
name = "coil"
turns = 80
inner_diameter = "8 mm"
outer_diameter = "9 mm"
length = "50 mm"
)";

cases::Case case_of(const std::string& text, const std::vector<cases::Override>& overrides)
{
  const TextFile file(text);
  return cases::read_case(file.path(), overrides);
}

std::string told(const std::string& text, const std::vector<cases::Override>& overrides)
{
  const TextFile file(text);
  try
  {
    cases::read_case(file.path(), overrides);
    return {};
  }
  catch (const cases::CaseError& error)
  {
    std::string lines;
    for (cases::Fault fault : error.faults())
    {
      fault.where.file = fault.where.file == file.path() ? "" : fault.where.file;
      lines += (lines.empty() ? "" : "\n") + cases::line(fault);
    }
    return lines;
  }
}

std::string changed(std::string text, const std::string& from, const std::string& to)
{
  const std::size_t at = text.find(from);
  if (at == std::string::npos)
  {
    throw std::logic_error("the text has no " + from);
  }
  return text.replace(at, from.size(), to);
}

} // namespace case_tests
