// A short write and a failing flush are the two ways a closed pipe or a full disk shows.
#include "cases/output.hpp"

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <stdexcept>

namespace cases
{

void print(const std::string& text)
{
  errno = 0;
  const bool written = std::fwrite(text.data(), 1, text.size(), stdout) == text.size();
  if (!written || std::fflush(stdout) != 0)
  {
    throw std::runtime_error(std::string("standard output could not be written: ") +
                             std::strerror(errno));
  }
}

} // namespace cases
