// Reading a file with care: by size before content, by bytes before grammar.
#include "cases/text_file.hpp"

#include "cases/fault.hpp"
#include "cases/wording.hpp"

#include <cerrno>
#include <cstring>
#include <fmt/format.h>
#include <fstream>
#include <vector>

namespace cases
{
namespace
{

namespace fs = std::filesystem;

constexpr std::size_t most_bytes = 1 << 20;

[[noreturn]] void refuse(const fs::path& path, std::string what, std::string cure)
{
  throw CaseError({{{path.string()}, std::move(what), std::move(cure)}});
}

[[noreturn]] void refuse_missing(const fs::path& path)
{
  std::error_code ignored;
  const fs::path folder = path.has_parent_path() ? path.parent_path() : fs::path(".");
  if (!fs::is_directory(folder, ignored))
  {
    refuse(path, "no such file", fmt::format("there is no folder {}", in_quotes(folder.string())));
  }
  std::vector<std::string> names;
  for (const fs::directory_entry& entry : fs::directory_iterator(folder, ignored))
  {
    if (entry.path().extension() == ".toml")
    {
      names.push_back(entry.path().filename().string());
    }
  }
  refuse(path, "no such file",
         did_you_mean(path.filename().string(), names,
                      "check its name, or start one with: ferrule new"));
}

[[noreturn]] void refuse_size(const fs::path& path, const std::string& size)
{
  refuse(path, fmt::format("the file is {}, a case has at most 1 MiB", size),
         "name a case file, not a mesh, a table or a picture");
}

/// Length of the well-formed UTF-8 character at `at`, 0 where there is none.
std::size_t well_formed(std::string_view text, std::size_t at)
{
  const auto byte = [&](std::size_t i)
  { return i < text.size() ? static_cast<unsigned char>(text[i]) : 0u; };
  const unsigned first = byte(at);
  const std::size_t length = first < 0x80                     ? 1
                             : first >= 0xc2 && first <= 0xdf ? 2
                             : first >= 0xe0 && first <= 0xef ? 3
                             : first >= 0xf0 && first <= 0xf4 ? 4
                                                              : 0;
  for (std::size_t i = 1; i < length; ++i)
  {
    if ((byte(at + i) & 0xc0) != 0x80)
    {
      return 0;
    }
  }
  const unsigned second = byte(at + 1);
  const bool overlong = (first == 0xe0 && second < 0xa0) || (first == 0xf0 && second < 0x90);
  const bool surrogate = first == 0xed && second > 0x9f;
  return overlong || surrogate || (first == 0xf4 && second > 0x8f) ? 0 : length;
}

void check_encoding(const fs::path& path, std::string_view text)
{
  if (text.starts_with("\xff\xfe") || text.starts_with("\xfe\xff"))
  {
    refuse(path, "the file is UTF-16 text", "save it as UTF-8");
  }
  SourcePlace where{path.string(), 1, 1};
  for (std::size_t at = 0; at < text.size();)
  {
    const std::size_t length = well_formed(text, at);
    if (length == 0 || text[at] == '\0')
    {
      throw CaseError(
          {{where,
            fmt::format("not UTF-8 text: byte 0x{:02x} here", static_cast<unsigned char>(text[at])),
            "save the file as UTF-8, or retype this character"}});
    }
    where.column = text[at] == '\n' ? 1 : where.column + 1;
    where.line += text[at] == '\n' ? 1 : 0;
    at += length;
  }
}

std::string content(const fs::path& path)
{
  errno = 0;
  std::ifstream file(path, std::ios::binary);
  if (!file)
  {
    refuse(path, fmt::format("cannot be read: {}", std::strerror(errno)), "check its permissions");
  }
  std::string text(most_bytes + 1, '\0');
  file.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (file.bad())
  {
    throw std::runtime_error(fmt::format("{}: reading failed", path.string()));
  }
  text.resize(static_cast<std::size_t>(file.gcount()));
  if (text.size() > most_bytes) // a pipe or a device; files are asked for their size before
  {
    refuse_size(path, "larger than 1 MiB");
  }
  return text;
}

/// A size as people say it: "100 MB".
std::string in_megabytes(std::uintmax_t bytes)
{
  return fmt::format("{:.3g} MB", static_cast<double>(bytes) / 1e6);
}

} // namespace

std::string read_text(const fs::path& path)
{
  std::error_code error;
  const fs::file_status status = fs::status(path, error);
  if (path.empty() || status.type() == fs::file_type::not_found)
  {
    refuse_missing(path);
  }
  if (status.type() == fs::file_type::directory)
  {
    refuse(path, "this is a folder", "name the case file in it");
  }
  if (status.type() == fs::file_type::regular && fs::file_size(path, error) > most_bytes && !error)
  {
    refuse_size(path, in_megabytes(fs::file_size(path)));
  }
  std::string text = content(path);
  check_encoding(path, text);
  if (text.starts_with("\xef\xbb\xbf"))
  {
    text.erase(0, 3);
  }
  return text;
}

} // namespace cases
