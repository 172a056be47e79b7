// Appending, and reading back what is whole.
#include "cases/journal.hpp"

#include <cerrno>
#include <charconv>
#include <cstring>
#include <fcntl.h>
#include <fmt/format.h>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <sys/file.h>
#include <unistd.h>

namespace cases
{

namespace
{

[[noreturn]] void fail(const std::filesystem::path& path, const std::string& why)
{
  throw std::runtime_error(fmt::format("cannot write {}: {}", path.string(), why));
}

std::string first_line(const std::string& work)
{
  return fmt::format("ferrule journal 1 {}\n", work);
}

std::string record(std::size_t piece, std::string_view text)
{
  const std::string body = fmt::format("{} {}", piece, text);
  return fmt::format("{} {}\n", checksum(body), body);
}

/// The record of a line without its end; false where it is not whole.
bool read_record(std::string_view line, Records& records)
{
  constexpr std::size_t digits = 16;
  if (line.size() < digits + 2 || line[digits] != ' ' ||
      checksum(line.substr(digits + 1)) != line.substr(0, digits))
  {
    return false;
  }
  const std::string_view body = line.substr(digits + 1);
  const std::size_t space = body.find(' ');
  std::size_t piece = 0;
  const auto read = std::from_chars(body.data(), body.data() + body.size(), piece);
  if (space == std::string_view::npos || read.ptr != body.data() + space)
  {
    return false;
  }
  records[piece] = body.substr(space + 1);
  return true;
}

struct Sound
{
  Records records;
  std::size_t bytes = 0; ///< Up to the end of the last whole record; 0: other work.
};

Sound sound_part(const std::string& text, const std::string& work)
{
  Sound made;
  const std::string first = first_line(work);
  if (!text.starts_with(first))
  {
    return made;
  }
  made.bytes = first.size();
  for (std::size_t end = text.find('\n', made.bytes); end != std::string::npos;
       end = text.find('\n', made.bytes))
  {
    const std::string_view line(text.data() + made.bytes, end - made.bytes);
    if (!read_record(line, made.records))
    {
      break;
    }
    made.bytes = end + 1;
  }
  return made;
}

std::string whole_text(const std::filesystem::path& path)
{
  std::ostringstream text;
  text << std::ifstream(path, std::ios::binary).rdbuf();
  return text.str();
}

} // namespace

std::string checksum(std::string_view bytes)
{
  std::uint64_t hash = 14695981039346656037ULL;
  for (const char byte : bytes)
  {
    hash = (hash ^ static_cast<unsigned char>(byte)) * 1099511628211ULL;
  }
  return fmt::format("{:016x}", hash);
}

Records read_journal(const std::filesystem::path& path, const std::string& work)
{
  return sound_part(whole_text(path), work).records;
}

Journal::Journal(std::filesystem::path path, const std::string& work) : _path(std::move(path))
{
  _file = open(_path.c_str(), O_RDWR | O_CREAT | O_APPEND | O_CLOEXEC, 0666);
  if (_file < 0)
  {
    fail(_path, std::strerror(errno));
  }
  try
  {
    if (flock(_file, LOCK_EX | LOCK_NB) != 0 && errno == EWOULDBLOCK)
    {
      fail(_path, "another ferrule is at work on it");
    }
    Sound sound = sound_part(whole_text(_path), work);
    if (ftruncate(_file, static_cast<off_t>(sound.bytes)) != 0)
    {
      fail(_path, std::strerror(errno));
    }
    if (sound.bytes == 0)
    {
      append(first_line(work));
    }
    _found = std::move(sound.records);
  }
  catch (...)
  {
    close(_file);
    throw;
  }
}

Journal::~Journal()
{
  close(_file);
}

void Journal::add(std::size_t piece, std::string_view text)
{
  append(record(piece, text));
}

void Journal::append(std::string_view bytes)
{
  while (!bytes.empty())
  {
    const ssize_t written = write(_file, bytes.data(), bytes.size());
    if (written < 0 && errno != EINTR)
    {
      fail(_path, std::strerror(errno));
    }
    bytes.remove_prefix(written > 0 ? static_cast<std::size_t>(written) : 0);
  }
}

} // namespace cases
