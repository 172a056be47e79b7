// What a long run has worked out so far, in a file that any kill leaves usable.
//
// One line a record, each with its own checksum, only ever appended; the first line names the work
// they belong to. What a kill cut off is the last line, which is dropped when the file is opened
// again. Knows no meaning of the records.
#pragma once

#include <cstdint>
#include <filesystem>
#include <map>
#include <string>
#include <string_view>

namespace cases
{

/// @brief Texts by the number of the piece of work they are the result of.
using Records = std::map<std::size_t, std::string>;

/// @brief 64-bit FNV-1a of the bytes, as 16 hexadecimal digits [Fowler-Noll-Vo 1991].
std::string checksum(std::string_view bytes);

/// @brief The sound records of a journal; empty where the file is missing or of other work.
Records read_journal(const std::filesystem::path& path, const std::string& work);

/// @brief A journal held for appending; one process at a time.
class Journal
{
public:
  /// @brief Opens the file, or begins it anew where it is missing or of other work.
  /// @param work  Names the work: whatever would change a record changes it. One line.
  /// @throws std::runtime_error when it cannot be written or another process holds it.
  Journal(std::filesystem::path path, const std::string& work);
  ~Journal();
  Journal(const Journal&) = delete;
  Journal& operator=(const Journal&) = delete;

  /// @brief The records found when it was opened.
  const Records& found() const { return _found; }
  /// @brief Adds a record; `text` is one line. Not for two threads at once.
  /// @throws std::runtime_error naming the path when it cannot be written whole.
  void add(std::size_t piece, std::string_view text);

private:
  void append(std::string_view bytes);

  std::filesystem::path _path;
  int _file = -1;
  Records _found;
};

} // namespace cases
