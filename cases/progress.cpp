// Carriage return and erase-to-end-of-line, which every terminal since the VT100 knows [ECMA-48
// EL].
#include "cases/progress.hpp"

#include <cstdio>
#include <unistd.h>

namespace cases
{

Progress::Progress(bool wanted) : _shown(wanted && isatty(STDERR_FILENO) == 1) {}

Progress::~Progress()
{
  wipe();
}

void Progress::wipe()
{
  if (_shown)
  {
    std::fputs("\r\033[K", stderr);
    std::fflush(stderr);
  }
}

void Progress::step(std::string_view what)
{
  if (_shown)
  {
    std::fprintf(stderr, "\r\033[Kferrule: %.*s ...", static_cast<int>(what.size()), what.data());
    std::fflush(stderr);
  }
}

} // namespace cases
