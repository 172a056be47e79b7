// A file written under a passing name beside its place, and moved there once it is whole.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

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

/// @brief The folder and those above it, made if missing. @throws std::runtime_error naming it.
void make_folder(const std::filesystem::path& folder);

/// @brief Makes nothing, but tells before hours of work whether `folder` could be made and written
///        into; not whether there is space. @throws std::runtime_error naming it and the reason.
void expect_room(const std::filesystem::path& folder);

/// @brief A file's name within its folder, and all its bytes.
struct NamedBytes
{
  std::string name;
  std::string_view bytes;
};
/// @brief Writes all files into `folder`, made if missing, or none: the first name appears once all
///        bytes are on the disk.
/// @return The names. @throws std::runtime_error naming the path.
std::vector<std::string> write_together(const std::filesystem::path& folder,
                                        const std::vector<NamedBytes>& files);

} // namespace post
