// What the system tells, file by file; a limit that cannot be read is none.
#include "solver/memory.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <limits>
#include <sys/resource.h>
#include <unistd.h>

namespace solver
{

namespace
{

namespace fs = std::filesystem;

constexpr double none = std::numeric_limits<double>::infinity();
std::atomic<int> under_way = 0;

/// The number a file begins with; `absent` for "max" and files that are not there.
double number_in(const fs::path& path, double absent)
{
  std::ifstream file(path);
  double number = 0.0;
  return file >> number ? number : absent;
}

/// The number after a word at the start of a line.
double number_after(const fs::path& path, const std::string& word, double absent)
{
  std::ifstream file(path);
  for (std::string line; std::getline(file, line);)
    if (line.starts_with(word))
      return std::strtod(line.c_str() + word.size(), nullptr);
  return absent;
}

/// A group's limit less its use; pages of files it could drop are no use.
double left_in_group(const fs::path& group, const char* limit, const char* use, const char* files)
{
  const double most = number_in(group / limit, none);
  return most - number_in(group / use, 0.0) + number_after(group / "memory.stat", files, 0.0);
}

/// The least over a group and all above it, up to `top`.
double left_in_groups(const fs::path& top, fs::path group, const char* limit, const char* use,
                      const char* files)
{
  double least = none;
  for (;; group = group.parent_path())
  {
    least = std::min(least, left_in_group(top / group, limit, use, files));
    if (group.empty())
      return least;
  }
}

double left_in_all_groups(const fs::path& root)
{
  double least = none;
  std::ifstream list(root / "proc/self/cgroup"); // "0::/a/b" or "4:memory:/a/b"
  for (std::string line; std::getline(list, line);)
  {
    const std::size_t first = line.find(':'), second = line.find(':', first + 1);
    if (second == std::string::npos)
      continue;
    const std::string kind = line.substr(first + 1, second - first - 1);
    const fs::path group = fs::path(line.substr(second + 1)).relative_path();
    if (kind.empty())
      least = std::min(least, left_in_groups(root / "sys/fs/cgroup", group, "memory.max",
                                             "memory.current", "inactive_file "));
    if (("," + kind + ",").find(",memory,") != std::string::npos)
      least = std::min(least,
                       left_in_groups(root / "sys/fs/cgroup/memory", group, "memory.limit_in_bytes",
                                      "memory.usage_in_bytes", "total_inactive_file "));
  }
  return least;
}

double left_of_address_space(const fs::path& root)
{
  rlimit limit{};
  if (getrlimit(RLIMIT_AS, &limit) != 0 || limit.rlim_cur == RLIM_INFINITY)
    return none;
  const double pages = number_in(root / "proc/self/statm", 0.0);
  return static_cast<double>(limit.rlim_cur) - pages * static_cast<double>(sysconf(_SC_PAGESIZE));
}

/// "3.2 GB"
std::string in_words(double bytes)
{
  char text[32];
  const bool giga = bytes >= 0.95e9;
  std::snprintf(text, sizeof text, giga ? "%.1f GB" : "%.0f MB", bytes / (giga ? 1e9 : 1e6));
  return text;
}

} // namespace

double memory_left(const fs::path& root)
{
  const double free = 1024.0 * number_after(root / "proc/meminfo", "MemAvailable:", none);
  return std::max(0.0, std::min({free, left_in_all_groups(root), left_of_address_space(root)}));
}

double memory_needed(const MeshSize& size)
{
  const double p = size.order, m = (p + 1.0) * (p + 2.0) / 2.0,
               triangles = static_cast<double>(size.triangles), unknowns = p * p * triangles,
               sources = static_cast<double>(size.sources);
  return 60e6 + (size.complex ? 2.0 : 1.0) *
                    (16.0 * m * m * triangles + unknowns * (430.0 + 60.0 * sources));
}

MemoryShare::MemoryShare()
{
  ++under_way;
}

MemoryShare::~MemoryShare()
{
  --under_way;
}

std::string MemoryShare::lacking(const MeshSize& size)
{
  const double needed = memory_needed(size);
  const double left = memory_left() / std::max(1, under_way.load());
  return needed <= left ? std::string()
                        : "the mesh would need about " + in_words(needed) + " of memory, and " +
                              in_words(left) + " are left for it";
}

void MemoryShare::require(const MeshSize& size)
{
  if (const std::string why = lacking(size); !why.empty())
    throw NotEnoughMemory(why);
}

} // namespace solver
