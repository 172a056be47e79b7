// PendingFile over the system's own calls: only they tell a full disk from a written one.
#include "post/pending_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <list>
#include <stdexcept>
#include <utility>

namespace post
{

namespace
{

[[noreturn]] void fail(const std::filesystem::path& path, int error)
{
  throw std::runtime_error(fmt::format("cannot write {}: {}", path.string(), strerror(error)));
}

/// @brief A new file beside `path` and its descriptor, -1 with errno set on failure.
std::pair<int, std::filesystem::path> passing_file(const std::filesystem::path& path)
{
  for (int attempt = 0;; ++attempt)
  {
    std::filesystem::path passing = path;
    passing.replace_filename(
        fmt::format(".{}.{}-{}.part", path.filename().string(), getpid(), attempt));
    const int file = open(passing.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (file >= 0 || errno != EEXIST || attempt == 1000)
      return {file, passing};
  }
}

/// @brief Writes all bytes and closes; 0 or the error.
int write_and_close(int file, std::string_view bytes)
{
  int error = 0;
  while (!bytes.empty() && error == 0)
  {
    const ssize_t written = write(file, bytes.data(), bytes.size());
    if (written >= 0)
      bytes.remove_prefix(static_cast<std::size_t>(written));
    else if (errno != EINTR)
      error = errno;
  }
  if (close(file) != 0 && error == 0)
    error = errno;
  return error;
}

} // namespace

PendingFile::PendingFile(const std::filesystem::path& path, std::string_view bytes) : _path(path)
{
  auto [file, passing] = passing_file(path);
  if (file < 0)
    fail(path, errno);
  if (const int error = write_and_close(file, bytes); error != 0)
  {
    unlink(passing.c_str());
    fail(path, error);
  }
  _passing = std::move(passing);
}

PendingFile::~PendingFile()
{
  if (!_passing.empty())
    unlink(_passing.c_str());
}

void PendingFile::commit()
{
  if (rename(_passing.c_str(), _path.c_str()) != 0)
    fail(_path, errno);
  _passing.clear();
}

void make_folder(const std::filesystem::path& folder)
{
  std::error_code error;
  std::filesystem::create_directories(folder, error);
  if (error)
    throw std::runtime_error(
        fmt::format("cannot make the folder {}: {}", folder.string(), error.message()));
}

void expect_room(const std::filesystem::path& folder)
{
  std::error_code error;
  std::filesystem::path there = std::filesystem::absolute(folder, error);
  while (there.has_relative_path() && !std::filesystem::exists(there, error) && !error)
    there = there.parent_path();
  if (!std::filesystem::is_directory(there, error))
    errno = ENOTDIR;
  else if (access(there.c_str(), W_OK | X_OK) == 0)
    return;
  throw std::runtime_error(fmt::format("nothing can be written to {}: {}: {}", folder.string(),
                                       there.string(), strerror(errno)));
}

std::vector<std::string> write_together(const std::filesystem::path& folder,
                                        const std::vector<NamedBytes>& files)
{
  make_folder(folder);
  std::list<PendingFile> pending;
  std::vector<std::string> names;
  for (const NamedBytes& file : files)
  {
    pending.emplace_back(folder / file.name, file.bytes);
    names.push_back(file.name);
  }
  for (PendingFile& file : pending)
    file.commit();
  return names;
}

} // namespace post
