// A file written under a passing name beside its place, and moved there once it is whole.
#pragma once

#include <filesystem>
#include <string_view>

namespace post
{

/// @brief Holds the passing file; it is removed again unless committed.
class PendingFile
{
public:
  /// @brief Writes all bytes. @throws std::runtime_error naming `path`, leaving nothing behind.
  PendingFile(const std::filesystem::path& path, std::string_view bytes);
  ~PendingFile();
  PendingFile(const PendingFile&) = delete;
  PendingFile& operator=(const PendingFile&) = delete;

  /// @brief Puts the file in its place, over an older one. @throws std::runtime_error.
  void commit();

private:
  std::filesystem::path _path;
  std::filesystem::path _passing;
};

} // namespace post
