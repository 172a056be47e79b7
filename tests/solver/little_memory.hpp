// A limit on the address space a little above what this process takes; lifted again with its scope.
#pragma once

#include <fstream>
#include <sys/resource.h>
#include <unistd.h>

struct LittleMemory
{
  rlimit before{};

  explicit LittleMemory(rlim_t bytes)
  {
    rlim_t pages = 0;
    std::ifstream("/proc/self/statm") >> pages;
    getrlimit(RLIMIT_AS, &before);
    const rlimit little{pages * static_cast<rlim_t>(sysconf(_SC_PAGESIZE)) + bytes,
                        before.rlim_max};
    setrlimit(RLIMIT_AS, &little);
  }
  ~LittleMemory() { setrlimit(RLIMIT_AS, &before); }
};
