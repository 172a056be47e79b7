// Wall-clock time by stage.
#pragma once

#include <chrono>

namespace solver
{

/// @brief Adds the time since the last lap to a stage [s].
class Stopwatch
{
public:
  void lap(double& stage)
  {
    const auto now = std::chrono::steady_clock::now();
    stage += std::chrono::duration<double>(now - _last).count();
    _last = now;
  }

private:
  std::chrono::steady_clock::time_point _last = std::chrono::steady_clock::now();
};

} // namespace solver
