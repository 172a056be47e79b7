// One run of another program: what it printed, how long it took, how much memory it had.
#pragma once

#include <string>
#include <vector>

struct Child
{
  std::string printed; ///< Its standard output.
  int status = 0;      ///< Exit status; 128 + signal where one ended it.
  double seconds = 0;  ///< Wall clock from before the start to after the end.
  double processor =
      0; ///< Processor seconds, user and system: less at the mercy of a busy machine.
  double megabytes = 0; ///< Peak resident memory, 1e6 bytes.
};

/// @throws std::runtime_error when no process can be started.
Child run(const std::vector<std::string>& command);

/// @brief The middle value; mean of the two middle ones of an even number.
double median(std::vector<double> values);
